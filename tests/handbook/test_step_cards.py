"""A step on a small screen: its cautions by their titles, its first steps and its answers, in sight together."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

import pytest

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import CannotDo, HandedOver
from diagnose.knowledge.cautions import before, in_brief
from diagnose.knowledge.model import Check, Fix, Item, Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.speech.talk import summary
from tests.handbook.chromium import PHONE, light, resize
from tests.handbook.dialogue import Person

STOP = "Stop: what to tell my supplier"
AT_A_FIX = "?item=t-shirt-polyester&saw=press-box"
FIRST = 2  # steps that are to be in sight
ON_ITS_SIDE = (844, 390)
TWICE_AS_LARGE = {"desk": (640, 400), "phone": (195, 422)}  # what is left of 1280 × 800, and of a phone
COME_TO = """
const app = presslore.page.app;
const come = (kind, id) => {
  const cures = app.consultation.net.cures;
  if (kind === 'fix' && !cures.has(id)) cures.set(id, new Map()); // it does not go with these goods
  const advice = { ...app.consultation.advice, kind, id };
  Object.defineProperty(app.consultation, 'advice', { value: advice, configurable: true });
  app.go(app.state);
};
const box = (one) => one.getBoundingClientRect();
const all = (where) => [...document.querySelectorAll(`#presslore ${where}`)];
"""
IN_SIGHT = (
    COME_TO
    + """
return arguments[1].map((id) => {
  come(arguments[0], id);
  const above = box(document.querySelector('.md-header')).bottom;
  const below = box(all('.foot, .bar-below')[0]).top;
  const clear = (one) => box(one).top >= above && box(one).bottom <= below;
  const answers = all('.answer');
  return {
    id,
    title: clear(all('h2')[0]),
    steps: all('.stage > .steps > li').filter(clear).length,
    answers: answers.filter((one) => box(one).top >= above && box(one).bottom <= innerHeight).length,
    offered: answers.length,
    aside: document.documentElement.scrollWidth - innerWidth,
  };
});
"""
)
ORDER = (
    COME_TO
    + """
return arguments[1].map((id) => {
  come(arguments[0], id);
  const [lines, steps, texts] = ['.cautions', '.stage > .steps, .answers', '.in-full'].map((one) => all(one)[0]);
  const before = (one, other) => Boolean(one.compareDocumentPosition(other) & Node.DOCUMENT_POSITION_FOLLOWING);
  return {
    id,
    titles: all('.cautions .line strong').map((one) => one.textContent),
    told: all('.in-full .texts li').map((one) => one.textContent),
    ordered: (!lines || before(lines, steps)) && (!texts || before(steps, texts)),
  };
});
"""
)
COVERED = """
const one = document.activeElement, here = one.getBoundingClientRect();
if (!document.querySelector('#presslore').contains(one)) return '';
const over = document.elementFromPoint(here.left + here.width / 2, here.top + here.height / 2);
return over && (one.contains(over) || over.contains(one)) ? '' : one.outerHTML;
"""
SHARED = """
Object.defineProperty(navigator, 'share', {
  configurable: true,
  value: (what) => { window.sent = what; return Promise.reject(new DOMException('', 'AbortError')); },
});
"""

pytestmark = pytest.mark.slow


@pytest.fixture
def person(two: Path, browser: Any) -> Iterator[Person]:
    resize(browser, *PHONE)
    light(browser, dark=False)
    somebody = Person(browser, two.as_uri())
    somebody.complaints()
    yield somebody
    resize(browser, *PHONE)
    assert somebody.complaints() == []


@pytest.fixture(scope="module")
def hot(known: Knowledge) -> Item:
    """The goods with the most cautions: a card has no more lines above its steps."""
    return max(known.items.values(), key=lambda item: len(item.cautions))


def at(person: Person, item: Item, size: tuple[int, int]) -> Any:
    resize(person.window, *size)
    person.open(f"?item={item.id}&saw=faint-colour")
    person.press("Right, go on")
    person.wait_until(lambda _: bool(person.window.execute_script("return Boolean(presslore.doing)")))
    return person.window


# --- what is in sight ---


def test_title_first_steps_and_answers_of_every_fix_are_in_sight_on_a_phone(
    person: Person, hot: Item, known: Knowledge
) -> None:
    window = at(person, hot, PHONE)
    seen = window.execute_script(IN_SIGHT, "fix", list(known.fixes))
    assert [one["id"] for one in seen] == list(known.fixes)
    assert [one for one in seen if not one["title"] or one["steps"] < FIRST] == []
    assert [one for one in seen if one["answers"] != 5 or one["offered"] != 5 or one["aside"] > 0] == []


@pytest.mark.parametrize("size", [ON_ITS_SIDE, TWICE_AS_LARGE["desk"]])
def test_title_and_answers_of_every_fix_are_in_sight_on_a_low_screen(
    size: tuple[int, int], person: Person, hot: Item, known: Knowledge
) -> None:
    seen = at(person, hot, size).execute_script(IN_SIGHT, "fix", list(known.fixes))
    assert [one for one in seen if not one["title"] or one["answers"] != 5 or one["aside"] > 0] == []


def test_the_answers_of_every_fix_are_in_sight_on_a_phone_twice_as_large(
    person: Person, hot: Item, known: Knowledge
) -> None:
    seen = at(person, hot, TWICE_AS_LARGE["phone"]).execute_script(IN_SIGHT, "fix", list(known.fixes))
    assert [one for one in seen if one["answers"] != 5 or one["aside"] > 0] == []


@pytest.mark.parametrize("size", [PHONE, ON_ITS_SIDE, (1280, 800), *TWICE_AS_LARGE.values()])
def test_what_has_the_focus_is_never_below_the_answers(size: tuple[int, int], person: Person) -> None:
    from selenium.webdriver.common.keys import Keys

    resize(person.window, *size)
    person.open(AT_A_FIX)
    person.press("Right, go on")
    person.press("A figure you measured")
    for key in (Keys.TAB,) * 18 + (Keys.SHIFT + Keys.TAB,) * 17:
        person.keys(key)
        assert person.window.execute_script(COVERED) == "", size


# --- cautions ---


@pytest.mark.parametrize("kind", ["fix", "check"])
def test_every_caution_has_a_line_above_the_steps_and_its_text_below_them(
    kind: str, person: Person, hot: Item, known: Knowledge
) -> None:
    window = at(person, hot, PHONE)
    steps: Mapping[str, Any] = known.fixes if kind == "fix" else known.checks
    for one in window.execute_script(ORDER, kind, list(steps)):
        step: Check | Fix = steps[one["id"]]
        ids = before(known.cautions, step, hot)
        assert one["ordered"], one["id"]
        assert one["titles"] == [known.cautions[each].title for each in ids], one["id"]
        whole = [known.cautions[each] for each in ids if each not in in_brief(known.cautions, step, ids)]
        assert one["told"] == [f"{each.title}. {each.text}" for each in whole], one["id"]


def test_texts_stand_there_once_and_at_a_tap(person: Person, known: Knowledge) -> None:
    texts = "return [...document.querySelectorAll('#presslore .texts')].filter((one) => one.checkVisibility())"
    texts += ".map((one) => one.textContent).join()"
    own = known.cautions["hot-platen"].text
    person.open("?item=tea-towel-65-35&saw=faint-colour&saw=ghosting")
    view = person.press("Right, go on")
    while "I cannot do this" not in view["answers"]:
        view = person.press("I cannot tell")
    assert person.window.execute_script(texts).count(own) == 1
    view = person.press("I cannot do this")
    while "I cannot do this" not in view["answers"]:
        view = person.press("I cannot tell")
    assert "Caution: The platen burns at a touch" in view["cautions"]
    assert own not in person.window.execute_script(texts)
    person.window.find_element("css selector", "#presslore .cautions summary").click()
    assert person.window.execute_script(texts).count(own) == 1


# --- what to tell the supplier ---


def test_what_to_tell_the_supplier_is_a_tap_away_at_every_step(person: Person, known: Knowledge) -> None:
    person.open(AT_A_FIX)
    assert STOP not in person.see()["buttons"]  # nothing is known yet
    person.press("Right, go on")
    person.press("I cannot do this")
    for _ in range(3):
        step = person.see()
        now = Consultation(known, Shop(), person.session())
        shown = person.press(STOP)
        assert shown["title"] == "What to tell my supplier"
        assert shown["summary"].splitlines() == summary(now)
        assert STOP not in shown["buttons"]
        person.open(fresh=False)
        assert person.see()["title"] == shown["title"]
        assert person.press("Back")["title"] == step["title"]
        person.keys("c")
        assert person.press("Go on with the next step")["title"] == step["title"]
        assert STOP in person.press("All that is known")["buttons"]
        person.press("Go on")
        person.press(step["answers"][-1])
    person.press(STOP)
    ended = person.press("I stop, and send this")
    assert ended["title"] == "Help is on its way"
    assert isinstance(person.session().over, HandedOver)
    assert STOP not in ended["buttons"]
    assert "could not be done" in ended["summary"]
    assert any(isinstance(move, CannotDo) for move in person.session().moves)


def test_the_hand_over_is_there_whatever_stands_in_the_way(person: Person) -> None:
    person.open("?item=tea-towel-65-35&saw=faint-colour")
    person.press("Right, go on")
    person.press("All that is known")
    person.press("Change what was pressed")
    assert person.say("cotton t-shirt")["title"] == "This should not be pressed"
    assert person.press(STOP)["title"] == "What to tell my supplier"
    assert person.press("Back")["title"] == "This should not be pressed"


def test_the_way_out_after_many_questions_leads_to_the_hand_over(person: Person) -> None:
    way_out = "Hand it over to somebody who can look"
    person.open("?item=mug&saw=faint-colour")
    view = person.press("Right, go on")
    while way_out not in view["answers"]:
        view = person.press("I cannot tell" if "I cannot tell" in view["answers"] else "I cannot do this")
    assert person.press(way_out)["title"] == "What to tell my supplier"


def test_the_summary_is_shared_where_the_device_can(person: Person) -> None:
    person.open(AT_A_FIX)
    person.press("Right, go on")
    person.window.execute_script("delete Navigator.prototype.share")
    assert "Share it" not in person.press(STOP)["buttons"]
    person.press("Back")
    person.window.execute_script(SHARED)
    shown = person.press(STOP)
    person.press("Share it")
    assert person.window.execute_script("return window.sent.text") == shown["summary"]
    assert "Copy the summary" in shown["buttons"]
