"""The page that diagnoses, in Chromium at a phone's size: from an answer to the next question."""

from collections.abc import Iterator
from pathlib import Path
from random import Random
from statistics import median, quantiles
from tempfile import TemporaryDirectory

from diagnose.handbook.book import Handbook
from diagnose.knowledge.loading import load
from diagnose.knowledge.model import Knowledge
from tests.bench.rows import Row
from tests.handbook.chromium import MISSING, chromium, installed, two_pages
from tests.handbook.dialogue import Person

SLOWEST = 50.0  # ms from an answer to the next question, on the page
CASES, ANSWERS = 12, 8
IDLE = "const done = arguments[0]; setTimeout(() => requestIdleCallback(done), 500)"


def run() -> Iterator[Row]:
    """The time of each press of an answer, the next question laid out included."""
    if installed() is None:
        yield Row("page: from an answer to the next question", MISSING, f"≤ {SLOWEST:.0f} ms", False)
        return
    knowledge = load()
    with TemporaryDirectory() as folder, chromium() as window:
        took = _took(Person(window, two_pages(Handbook(knowledge), Path(folder)).as_uri()), knowledge)
    often = quantiles(took, n=20)[-1]
    measured = f"median {median(took):.0f} ms, 95 % within {often:.0f} ms, longest of {len(took)}: {max(took):.0f} ms"
    yield Row("page: from an answer to the next question", measured, f"95 % ≤ {SLOWEST:.0f} ms", often <= SLOWEST)


def _took(person: Person, knowledge: Knowledge) -> list[float]:
    took: list[float] = []
    for number in range(CASES):
        draw = Random(number)
        seen = draw.sample(sorted(knowledge.defects), 2)
        person.open(f"?item={draw.choice(sorted(knowledge.items))}&" + "&".join(f"saw={defect}" for defect in seen))
        person.window.execute_async_script(IDLE)
        view = person.press("Right, go on")
        person.took.clear()
        for _ in range(ANSWERS):
            if not view["answers"] or view["title"] == "Call for help":
                break
            view = person.press(view["answers"][-1])
        took += person.took
    return took
