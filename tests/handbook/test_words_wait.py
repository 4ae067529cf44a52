"""The page that diagnoses begins without its vocabulary: words wait for it, lists and pictures do not."""

from collections.abc import Iterator
from pathlib import Path
from shutil import copytree
from threading import Event, Timer
from typing import Any

import pytest

from diagnose.handbook.page import page
from diagnose.knowledge.model import Knowledge
from tests.handbook.chromium import served
from tests.handbook.dialogue import WAITING, Person

PATH = f"{page.FOLDER}/{page.VOCABULARY}"
WATCH = """
new MutationObserver(() => {
  if (!window.wanted && document.querySelector('script[src$="vocabulary.js"]')) window.wanted = performance.now();
}).observe(document, { childList: true, subtree: true });
"""
WHEN = """
const done = arguments[0];
const look = () => {
  const paint = performance.getEntriesByName('first-contentful-paint')[0];
  if (paint && presslore.vocabulary) done([paint.startTime, window.wanted]);
  else setTimeout(look, 20);
};
look();
"""

pytestmark = pytest.mark.slow


@pytest.fixture(params=["file", "served"])
def address(request: pytest.FixtureRequest, two: Path) -> Iterator[str]:
    if request.param == "file":
        yield two.as_uri()
    else:
        with served(two) as found:
            yield found


def test_the_vocabulary_comes_after_the_first_paint(address: str, browser: Any) -> None:
    watch = browser.execute_cdp_cmd("Page.addScriptToEvaluateOnNewDocument", {"source": WATCH})
    Person(browser, address).open()
    painted, asked_for = browser.execute_async_script(WHEN)
    assert painted <= asked_for
    browser.execute_cdp_cmd("Page.removeScriptToEvaluateOnNewDocument", watch)


BEHIND = """
const [entry] = performance.getEntriesByType('navigation');
const words = performance.getEntriesByType('resource').find((one) => one.name.endsWith('vocabulary.js'));
return [entry.loadEventStart > 0, words.startTime - entry.loadEventStart];
"""


def test_the_vocabulary_does_not_hold_up_a_page_that_comes_slowly(two: Path, browser: Any) -> None:
    """A browser shows that a page is loading until all has come that was asked for before."""
    late = Event()
    with served(two, held={"/assets/mark.svg": late}) as found:
        Timer(2.0, late.set).start()
        Person(browser, found).open()
        browser.execute_async_script(WHEN)
        loaded, behind = browser.execute_script(BEHIND)
    assert loaded
    assert behind >= 0


@pytest.fixture
def slow(two: Path, browser: Any) -> Iterator[tuple[Person, Event]]:
    """Somebody at a page whose vocabulary does not come before the event is set."""
    event = Event()
    with served(two, held={f"/{PATH}": event}) as found:
        try:
            yield Person(browser, found), event
        finally:
            event.set()


def test_words_wait_and_nothing_typed_is_lost(slow: tuple[Person, Event]) -> None:
    person, event = slow
    person.open()
    field = person.window.find_element("id", "pl-words")
    field.send_keys("polyester")
    view = person.press("Go on")
    assert WAITING in view["hints"]
    assert view["said"] == WAITING
    assert person.press("Go on")["title"] == "What was pressed?"
    field.send_keys(" t-shirt")
    event.set()
    view = person.wait_until(lambda view: view["title"] != "What was pressed?")
    assert view["title"] == view["said"] == "What do you see?"
    assert view["hints"] == ["Your own words; several things at once if you like."]


def test_lists_and_pictures_do_not_wait(slow: tuple[Person, Event], known: Knowledge) -> None:
    person, event = slow
    person.open()
    person.press("Take it from the list")
    assert person.press(known.items["t-shirt-polyester"].title)["title"] == "What do you see?"
    person.window.find_element("id", "pl-words").send_keys("a rectangle")
    assert WAITING in person.press("Go on")["hints"]
    person.press("Look through pictures")
    narrow = person.window.find_element("id", "pl-narrow")
    narrow.send_keys("ghosting")
    person.window.find_element("xpath", "//*[contains(@class,'pick')][.//strong='Ghosting']").click()
    picked = person.press("Go on with 1 chosen")
    event.set()
    person.window.execute_async_script("setTimeout(arguments[0], 500)")
    assert person.see()["heard"] == picked["heard"]
    assert person.press("Right, go on")["answers"]


def test_what_is_typed_outlasts_pictures_and_a_reload(slow: tuple[Person, Event]) -> None:
    person, _ = slow
    typed = "return document.getElementById('pl-words').value"
    person.open()
    person.window.find_element("id", "pl-words").send_keys("mug with")
    person.open(fresh=False)
    assert person.window.execute_script(typed) == "mug with"
    person.press("I cannot say")
    person.window.find_element("id", "pl-words").send_keys("all pale")
    person.press("Look through pictures")
    person.press("Back")
    assert person.window.execute_script(typed) == "all pale"
    person.open(fresh=False)
    assert person.window.execute_script(typed) == "all pale"


def test_a_link_goes_before_words_only_typed(two: Path, browser: Any) -> None:
    person = Person(browser, two.as_uri())
    person.open()
    browser.find_element("id", "pl-words").send_keys("mug")
    person.open("?item=ceramic-tile&saw=banding", fresh=False)
    assert person.see()["heard"]


def test_a_vocabulary_that_does_not_come_is_told_and_asked_for_again(two: Path, tmp_path: Path, browser: Any) -> None:
    copy = copytree(two, tmp_path / "site")
    content = (copy / PATH).read_bytes()
    (copy / PATH).unlink()
    person = Person(browser, copy.as_uri())
    person.open()
    assert any("could not be loaded" in hint for hint in person.say("polyester t-shirt")["hints"])
    (copy / PATH).write_bytes(content)
    person.press("Go on")
    person.wait_until(lambda view: view["title"] == "What do you see?")
    browser.get_log("browser")


def test_a_vocabulary_of_another_build_is_not_used(two: Path, tmp_path: Path, browser: Any, known: Knowledge) -> None:
    copy = copytree(two, tmp_path / "site")
    content = (copy / PATH).read_text()
    (copy / PATH).write_text(content.replace(f'"{known.version}"', '"another"'))
    person = Person(browser, copy.as_uri())
    person.open()
    view = person.say("polyester t-shirt")
    assert any("renewed just now" in hint for hint in view["hints"])
    assert view["title"] == "What was pressed?"
