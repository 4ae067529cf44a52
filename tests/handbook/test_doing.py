"""How checks and fixes are done comes after the first paint: a step says so until it is there."""

import json
from collections.abc import Iterator
from pathlib import Path
from shutil import copytree
from threading import Event
from typing import Any

import pytest

from diagnose.handbook.page import page
from diagnose.handbook.page.compiled import compiled
from diagnose.handbook.page.doing import doing, doing_script
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from tests.handbook.chromium import served
from tests.handbook.dialogue import COMING, Person

PATH = f"{page.FOLDER}/{page.DOING}"
FADED = "?item=t-shirt-polyester&saw=faint-colour"
WATCH = """
new MutationObserver(() => {
  if (!window.wanted && document.querySelector('script[src$="doing.js"]')) window.wanted = performance.now();
}).observe(document, { childList: true, subtree: true });
"""
WHEN = """
const done = arguments[0];
const look = () => {
  const paint = performance.getEntriesByName('first-contentful-paint')[0];
  if (paint && presslore.doing) done([paint.startTime, window.wanted]);
  else setTimeout(look, 20);
};
look();
"""


def test_every_step_is_carried_once_and_not_at_first(known: Knowledge) -> None:
    told = doing(known)
    assert told["checks"] == [list(check.how) for check in known.checks.values()]
    assert told["needs"] == [list(check.needs) for check in known.checks.values()]
    assert told["fixes"] == [list(fix.steps) for fix in known.fixes.values()]
    at_first = json.dumps(compiled(known, Shop()), ensure_ascii=False)
    assert [step for fix in known.fixes.values() for step in fix.steps if len(step) > 40 and step in at_first] == []


def test_the_script_tells_which_knowledge_it_goes_with(known: Knowledge) -> None:
    assert doing_script(known).endswith(f"presslore.doing.version = {json.dumps(known.version)};\n")


@pytest.fixture
def slow(two: Path, browser: Any) -> Iterator[tuple[Person, Event]]:
    """Somebody at a page whose steps do not come before the event is set."""
    event = Event()
    with served(two, held={f"/{PATH}": event}) as found:
        try:
            yield Person(browser, found), event
        finally:
            event.set()


def at_a_step(person: Person) -> dict[str, Any]:
    """The first step, as it is shown at once."""
    person.open(FADED)
    script = "[...document.querySelectorAll('button')].find((one) => one.textContent.includes(arguments[0])).click()"
    person.window.execute_script(script, "Right, go on")
    return person.glance()


def ask_how(person: Person) -> None:
    """Open or close what tells how it is done, and wait for nothing."""
    person.window.switch_to.active_element.send_keys("?")


@pytest.mark.slow
def test_the_steps_come_after_the_first_paint(two: Path, browser: Any) -> None:
    watch = browser.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": WATCH})
    Person(browser, two.as_uri()).open()
    painted, asked_for = browser.execute_async_script(WHEN)
    assert painted <= asked_for
    browser.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", watch)


@pytest.mark.slow
def test_a_step_is_shown_at_once_and_how_it_is_done_when_that_comes(slow: tuple[Person, Event]) -> None:
    person, event = slow
    view = at_a_step(person)
    assert view["answers"]
    ask_how(person)
    assert COMING in person.glance()["hints"]
    event.set()
    view = person.see()
    assert COMING not in view["hints"]
    assert person.window.execute_script(
        "return document.querySelectorAll('.panel .steps li, .stage > .steps li').length"
    )


@pytest.mark.slow
def test_steps_that_do_not_come_are_told_and_asked_for_again(two: Path, tmp_path: Path, browser: Any) -> None:
    copy = copytree(two, tmp_path / "site")
    content = (copy / PATH).read_bytes()
    (copy / PATH).unlink()
    person = Person(browser, copy.as_uri())
    at_a_step(person)
    ask_how(person)
    view = person.wait_until(lambda view: COMING not in view["hints"])
    assert any("could not be loaded" in hint for hint in view["hints"])
    link = browser.execute_script("return document.querySelector('.hint a').href")
    assert "/checks/" in link or "/fixes/" in link
    (copy / PATH).write_bytes(content)
    person.press("I cannot tell")
    ask_how(person)
    assert not any("could not be loaded" in hint for hint in person.see()["hints"])
    browser.get_log("browser")


@pytest.mark.slow
def test_steps_of_another_build_are_not_shown(two: Path, tmp_path: Path, browser: Any, known: Knowledge) -> None:
    copy = copytree(two, tmp_path / "site")
    (copy / PATH).write_text((copy / PATH).read_text().replace(f'"{known.version}"', '"another"'))
    person = Person(browser, copy.as_uri())
    at_a_step(person)
    ask_how(person)
    view = person.wait_until(lambda view: COMING not in view["hints"])
    assert any("renewed just now" in hint for hint in view["hints"])
