"""A person at the page that diagnoses: what they see, and what they press."""

import json
from collections.abc import Callable
from dataclasses import dataclass
from time import sleep, time
from typing import Any

from diagnose.dialogue.session import Session
from tests.dialogue.saved import from_json
from tests.handbook.chromium import forget

WAITING = "Getting the words ready …"
COMING = "Getting the steps …"
SEE = """
const root = document.getElementById('presslore');
const shown = (where) => [...root.querySelectorAll(where)].filter((one) => one.checkVisibility());
const text = (one) => {
  const copy = one.cloneNode(true);
  copy.querySelectorAll('kbd, .mark').forEach((key) => key.remove());
  return copy.textContent.trim();
};
"""
LOOK = (
    SEE
    + """
return {
  title: text(root.querySelector('#pl-question')),
  kind: shown('.stage > .kind').map(text).join(''),
  answers: shown('.stage .answers .answer').map(text),
  steps: shown('.stage > .steps > li').map(text),
  cautions: shown('.stage > .cautions .line').map(text),
  panel: shown('.panel').map((panel) => [...panel.children].map(text)).flat(),
  reasons: shown('.stage > .reason').map(text),
  heard: shown('.heard p').map(text),
  hints: shown('.hint, .trouble').map(text),
  buttons: shown('button').map(text),
  summary: shown('.summary').map((one) => one.textContent).join(''),
  focus: document.activeElement.id,
  said: root.querySelector('[role=status]').textContent,
};
"""
)
PRESS = (
    SEE
    + """
const wanted = shown('button, summary').find((one) => text(one) === arguments[0]);
if (!wanted) return -1;
const before = performance.now();
wanted.click();
root.getBoundingClientRect();
return performance.now() - before;
"""
)


@dataclass
class Person:
    """Somebody in front of a window. ``took``: how long the page took to answer each press, in milliseconds."""

    window: Any
    address: str

    def __post_init__(self) -> None:
        self.took: list[float] = []

    def open(self, query: str = "", *, fresh: bool = True) -> None:
        """Open the page, with nothing kept from before unless ``fresh`` is false."""
        if fresh:
            forget(self.window, self.address)
        self.window.get(f"{self.address}/diagnose.html{query}")

    def see(self) -> dict[str, Any]:
        """What is shown, once the steps of it have come."""
        while COMING in (found := self.glance())["hints"]:
            sleep(0.02)
        return found

    def glance(self) -> dict[str, Any]:
        """What is shown at this moment."""
        found: dict[str, Any] = self.window.execute_script(LOOK)
        return found

    def press(self, label: str) -> dict[str, Any]:
        """Press the button that says this, and look."""
        took = self.window.execute_script(PRESS, label)
        assert took >= 0, f"no button says {label!r}: {self.see()['buttons']}"
        self.took.append(took)
        return self.see()

    def say(self, words: str) -> dict[str, Any]:
        """Type words where words are asked for, and go on."""
        field = self.window.find_element("id", "pl-words")
        field.clear()
        field.send_keys(words)
        self.press("Go on")
        return self.wait_until(lambda view: WAITING not in view["hints"])

    def wait_until(self, fits: Callable[[dict[str, Any]], bool]) -> dict[str, Any]:
        """Look until what is seen fits."""
        last = time() + 120
        while not fits(view := self.see()):
            assert time() < last, view
            sleep(0.02)
        return view

    def keys(self, keys: str) -> dict[str, Any]:
        """Type where the focus is."""
        self.window.switch_to.active_element.send_keys(keys)
        return self.see()

    def session(self) -> Session:
        """The session that the page has kept."""
        kept = json.loads(self.window.execute_script("return localStorage.getItem('presslore.diagnosis')"))
        return from_json(kept["session"])[0]

    def complaints(self) -> list[str]:
        """What the browser complained of so far."""
        return [entry["message"] for entry in self.window.get_log("browser")]
