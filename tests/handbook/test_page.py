"""The page that diagnoses, in a real browser: it says and asks what the command says and asks."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from random import Random
from shutil import copytree
from typing import Any

import pytest

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.hearing import hear
from diagnose.dialogue.moves import (
    Answered,
    CannotDo,
    CannotTell,
    Cured,
    DidNotSee,
    HandedOver,
    Measured,
    Move,
    Named,
    Pressed,
    Saw,
    TriedFix,
)
from diagnose.dialogue.session import MANY_UNTOLD, Session
from diagnose.dialogue.taking import Telling, tellings
from diagnose.handbook.book import Handbook
from diagnose.handbook.page import page
from diagnose.handbook.text import sentence_start
from diagnose.knowledge.loading import load, load_shop, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.words import lexicon
from diagnose.speech.heard import Echo
from diagnose.speech.saying import say
from diagnose.speech.talk import steps_of, summary, told, why_check, why_fix
from tests.handbook.browser import by_command, by_page, differences
from tests.handbook.chromium import PHONE, light, resize, served, two_pages
from tests.handbook.dialogue import Person
from tests.handbook.weights import FIRST_LOAD, STEPS, VOCABULARY, weights

TOLD = """
const told = document.querySelectorAll('#presslore .alarm :is(.now > li, .call, .never > li)');
return [...told].map((one) => one.textContent);
"""
AMONG_FIGURES = """
const form = document.querySelector('#presslore .figures form');
form.querySelector('input').value = arguments[0];
form.querySelector('[type=submit]').click();
"""
SIZES = """
const size = (where) => parseFloat(getComputedStyle(document.querySelector(where)).fontSize);
return [size('#presslore .legend'), size('#presslore .alarm .now'), document.documentElement.scrollWidth];
"""
RESULTS = ("The fault is gone: good print", "Better, but not right yet", "No change", "Something else shows now")

IN_ONE = "mug came out pale, 350F for 40 seconds, since Monday, only the first ones, not taped"
FIGURES_SPOILT = [('["set",', '["no-such",'), ("176.666666667", "9999"), ('["set",', '["print.l",')]
SHORT_NAME = 4  # words: of longer names no choice is narrowed

pytestmark = pytest.mark.slow


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load()


@pytest.fixture
def window(browser: Any) -> Any:
    resize(browser, *PHONE)
    light(browser, dark=False)
    return browser


@pytest.fixture(params=["file", "served"])
def person(request: pytest.FixtureRequest, two: Path, window: Any) -> Iterator[Person]:
    """Somebody at the page, from a folder and from a server. What the browser complains of is a failure."""
    if request.param == "file":
        yield from _quiet(Person(window, two.as_uri()))
    else:
        with served(two) as address:
            yield from _quiet(Person(window, address))


@pytest.fixture
def at_hand(two: Path, window: Any) -> Iterator[Person]:
    """The same, from the folder alone."""
    yield from _quiet(Person(window, two.as_uri()))


def _quiet(somebody: Person) -> Iterator[Person]:
    somebody.complaints()
    yield somebody
    assert somebody.complaints() == []


def spoken(text: str) -> str:
    """A text as it reads, whichever kind of blank stands in it."""
    return " ".join(text.split())


# --- the examples of the README ---


def test_the_example_of_the_readme(person: Person, knowledge: Knowledge) -> None:
    person.open()
    assert person.see()["title"] == "What was pressed?"
    assert person.say("polyester t-shirt")["title"] == "What do you see?"
    heard = person.say("there is a rectangle pressed into the shirt")
    assert heard["title"] == "I take it that you see:"
    assert heard["heard"] == [
        f"{knowledge.defects['press-box'].title}: {sentence_start(knowledge.defects['press-box'].looks)}"
    ]
    fixing = person.press("Right, go on")
    assert fixing["title"] == "Tear the edges of the sheet instead of cutting them"
    assert fixing["kind"] == "Fix · 4 min with the test press"
    titles = (
        "The platen burns at a touch",
        "Closing platens crush fingers",
        "Hot inks, coatings and tapes give off fumes",
    )
    assert len(fixing["cautions"]) == len(titles)
    assert all(map(str.startswith, fixing["cautions"], (f"Caution: {title}" for title in titles)))
    fix = next(fix for fix in knowledge.fixes.values() if fix.title == fixing["title"])
    assert fixing["steps"] == [*fix.steps, "Press one test piece, and look."]
    assert fixing["answers"] == [*RESULTS, "I cannot do this"]
    done = person.press(RESULTS[0])
    assert done["title"] == "Done. Put right: Press box."
    assert done["summary"].splitlines() == summary(Consultation(knowledge, Shop(), person.session()))


def test_goods_that_take_no_dye_are_refused(person: Person) -> None:
    person.open()
    shown = person.say("silk scarf")
    assert shown["title"] == "What was pressed?"
    assert "Silk takes no dye." in " ".join(shown["hints"])
    assert person.say("polyester scarf")["title"] == "What do you see?"


def test_goods_that_should_not_be_pressed_are_gone_on_with_only_if_wanted(person: Person, knowledge: Knowledge) -> None:
    person.open()
    barred = person.say("cotton t-shirt")
    assert barred["title"] == "This should not be pressed"
    assert barred["answers"] == ["Something else was pressed", "Look for the fault all the same"]
    statement = knowledge.ready["takes-dye"]
    assert f"{statement.why} {statement.do}" in person.window.find_element("css selector", ".stage").text
    assert person.press("Something else was pressed")["title"] == "What was pressed?"
    assert person.say("supermarket mug")["title"] == "This should not be pressed"
    assert person.press("Look for the fault all the same")["title"] == "What do you see?"
    person.open(fresh=False)  # it is kept that it was gone on with
    assert person.see()["title"] == "What do you see?"
    assert person.say("pale")["title"] == "I take it that you see:"
    assert person.press("Right, go on")["title"] != "This should not be pressed"


def test_a_danger_is_told_first_and_what_was_told_is_kept(person: Person, knowledge: Knowledge) -> None:
    person.open()
    shown = person.say("help the press is smoking")
    smoke = knowledge.dangers["smoke"]
    assert shown["title"] == smoke.title
    assert shown["buttons"] == ["Everybody is safe: go on"]
    assert person.window.execute_script(TOLD) == [*smoke.steps, f"{say('danger-call')} {smoke.call}", *smoke.never]
    assert person.press("Everybody is safe: go on")["title"] == "What was pressed?"
    assert person.say("ceramic tile")["title"] == "What do you see?"
    assert person.say("my hand is stuck in the press")["title"] == knowledge.dangers["caught-hand"].title
    assert person.press("Everybody is safe: go on")["title"] == "What do you see?"
    assert person.say("the tile is burnt")["title"] == "I take it that you see:"


def test_a_danger_typed_among_the_figures_is_told_too(at_hand: Person, knowledge: Knowledge) -> None:
    at_hand.open()
    at_hand.say("ceramic tile")
    at_hand.say("pale")
    asked = at_hand.press("Right, go on")["title"]
    at_hand.window.execute_script(AMONG_FIGURES, "it caught fire")
    assert at_hand.see()["title"] == knowledge.dangers["fire"].title
    assert at_hand.press("Everybody is safe: go on")["title"] == asked


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize("width", [360, 1280])
def test_a_danger_is_large_and_fits(width: int, dark: bool, at_hand: Person) -> None:
    window = at_hand.window
    resize(window, width, 800)
    light(window, dark)
    at_hand.open()
    at_hand.say("burnt my hand on the platen")
    usual, steps, widest = window.execute_script(SIZES)
    light(window, False)
    assert steps >= 1.2 * usual
    assert widest <= width


def test_the_causes_of_the_readme(person: Person, knowledge: Knowledge) -> None:
    person.open()
    person.say("65/35 polyester cotton tea towel")
    person.say("pale, and a faint second copy of the text")
    step = person.press("Right, go on")
    now = Consultation(knowledge, Shop(), person.session())
    assert set(now.session.evidence.seen) == {"faint-colour", "ghosting"}
    agree(step, now)
    panel = spoken(" ".join(person.press("What I believe")["panel"]))
    for cause in told(now, 5):
        assert spoken(f"{cause.title}: {cause.chance}") in panel
        assert all(reason in panel for reason in cause.reasons)


# --- made-up dialogues, on both sides at once ---


@pytest.mark.parametrize("number", [*range(8), *(pytest.param(n, marks=pytest.mark.thorough) for n in range(8, 24))])
def test_dialogues_go_the_same_way(number: int, at_hand: Person, knowledge: Knowledge) -> None:
    draw = Random(number)
    item = draw.choice(sorted(knowledge.items))
    seen = tuple(draw.sample(sorted(knowledge.defects), draw.choice((1, 1, 2, 3))))
    at_hand.open(f"?item={item}&" + "&".join(f"saw={defect}" for defect in seen))
    if "Look for the fault all the same" in at_hand.see()["answers"]:
        at_hand.press("Look for the fault all the same")
    view = at_hand.press("Right, go on")
    now = Consultation(knowledge, Shop(), Session((Pressed(item), Saw(seen))))
    for _ in range(9):
        assert at_hand.session() == now.session
        agree(view, now)
        if now.session.over:
            break
        move = draw_move(draw, now)
        view = make(at_hand, now, move)
        now = now.then(now.session.make(move))


def agree(view: dict[str, Any], now: Consultation) -> None:
    """What is on the page is what is advised."""
    known, advice = now.knowledge, now.advice
    if now.session.over:
        assert view["summary"].splitlines() == summary(now)
    elif advice.kind == "check":
        check = known.checks[advice.id]
        assert view["title"] == check.asks
        way_out = ["Hand it over to somebody who can look"] if now.session.untold_in_a_row >= MANY_UNTOLD else []
        assert view["answers"] == [*(outcome.looks for outcome in check.outcomes), "I cannot tell", *way_out]
    elif advice.kind == "fix":
        assert view["title"] == known.fixes[advice.id].title
        assert view["steps"][:-1] == list(steps_of(known.fixes[advice.id], now))
    else:
        assert view["title"] == "Call for help"
        assert view["summary"].splitlines() == summary(now)


def draw_move(draw: Random, now: Consultation) -> Move:
    advice = now.advice
    if advice.kind == "check":
        outcomes = now.knowledge.checks[advice.id].outcomes
        if draw.random() < 0.2:
            return CannotTell(advice.id)
        return Answered(advice.id, draw.choice(outcomes).id, again=advice.id in dict(now.doubted))
    if advice.kind == "call":
        return HandedOver()
    change = draw.choice(("better", "same", "same", "not done", "cured"))
    if change == "not done":
        return CannotDo(advice.id)
    if change == "cured":
        return Cured(advice.id)
    left = now.evidence.left
    gone = (draw.choice(left),) if change == "better" and len(left) > 1 and draw.random() < 0.5 else ()
    return TriedFix(advice.id, change, gone)


def make(person: Person, now: Consultation, move: Move) -> dict[str, Any]:
    """Press what says this move."""
    match move:
        case Answered(check, outcome):
            return person.press(now.knowledge.checks[check].outcome(outcome).looks)
        case CannotTell():
            return person.press("I cannot tell")
        case CannotDo():
            return person.press("I cannot do this")
        case HandedOver():
            return person.press("Done, I call")
        case Cured():
            return person.press(RESULTS[0])
        case TriedFix(_, "same"):
            return person.press(RESULTS[2])
        case TriedFix(_, _, gone):
            assert person.press(RESULTS[1])["title"] == "What is left, exactly?"
            if not gone:
                return person.press("The same as before")
            for still in now.evidence.left:
                if still not in gone:
                    person.press(now.knowledge.defects[still].title)
            return person.press("Only this is left")
    raise AssertionError(move)


def test_the_same_reasons(at_hand: Person, knowledge: Knowledge) -> None:
    at_hand.open("?item=tea-towel-65-35&saw=faint-colour&saw=blotches")
    at_hand.press("Right, go on")
    for _ in range(4):
        now = Consultation(knowledge, Shop(), at_hand.session())
        advice = now.advice
        panel = " ".join(at_hand.press("Why and how")["panel"])
        if advice.kind == "check":
            assert why_check(now, advice.id) in panel
        else:
            assert why_fix(now, advice.id) in " ".join(at_hand.see()["reasons"])
        at_hand.press("I cannot tell" if advice.kind == "check" else "I cannot do this")


# --- back, coming back, starting over ---


def test_back_takes_back_one_answer_exactly(at_hand: Person) -> None:
    at_hand.open("?saw=banding&item=ceramic-tile")
    views = [at_hand.see(), at_hand.press("Right, go on")]
    for _ in range(3):
        views.append(at_hand.press(views[-1]["answers"][-1]))
    for before in reversed(views[:-1]):
        assert content(at_hand.press("Back")) == content(before)
    assert at_hand.see()["title"] == "I take it that you see:"


def content(view: dict[str, Any]) -> dict[str, Any]:
    """A view but for where the focus is and whether cautions are folded."""
    return {part: view[part] for part in ("title", "kind", "answers", "steps", "heard")}


def test_a_reload_goes_on_where_it_was(person: Person) -> None:
    person.open()

    def unchanged(view: dict[str, Any]) -> dict[str, Any]:
        person.open(fresh=False)
        assert content(person.see()) == content(view)
        return view

    unchanged(person.say("mug"))
    unchanged(person.say("ghosting and pale"))
    step = unchanged(person.press("Right, go on"))
    while RESULTS[1] not in step["answers"]:
        step = unchanged(person.press("I cannot tell"))
    unchanged(person.press(RESULTS[1]))
    unchanged(person.press("The same as before"))
    unchanged(person.press("All that is known"))
    person.press("Start over")
    assert person.see()["title"] == "What was pressed?"
    person.open(fresh=False)
    assert person.see()["title"] == "What was pressed?"


def test_what_was_kept_and_does_not_fit_is_let_go(at_hand: Person) -> None:
    at_hand.open("?saw=banding&item=ceramic-tile")
    at_hand.press("Right, go on")
    spoil = "localStorage['presslore.diagnosis'] = localStorage['presslore.diagnosis'].replaceAll('banding', 'no-such')"
    at_hand.window.execute_script(spoil)
    at_hand.open(fresh=False)
    assert at_hand.see()["title"] == "What was pressed?"
    assert "does not fit any more" in at_hand.window.find_element("css selector", "#presslore .notice").text
    for junk in ("{", "null", "[]", '{"format": 1}', '{"format": 1, "stage": 3}'):
        at_hand.window.execute_script("localStorage['presslore.diagnosis'] = arguments[0]", junk)
        at_hand.open(fresh=False)
        assert at_hand.see()["title"] == "What was pressed?"


@pytest.mark.parametrize(("before", "then"), FIGURES_SPOILT)
def test_figures_that_were_kept_and_make_no_sense_are_let_go(before: str, then: str, at_hand: Person) -> None:
    at_hand.open()
    at_hand.say(IN_ONE)
    swap = "const kept = localStorage['presslore.diagnosis'], [before, then] = arguments;"
    swap += "localStorage['presslore.diagnosis'] = kept.replaceAll(before, then); return kept.includes(before);"
    assert at_hand.window.execute_script(swap, before, then)
    at_hand.open(fresh=False)
    assert at_hand.see()["title"] == "What was pressed?"


def test_an_address_names_what_is_seen(at_hand: Person) -> None:
    at_hand.open("#saw=ghosting&saw=no-such&item=ceramic-tile")
    assert [one.split(":")[0] for one in at_hand.see()["heard"]] == ["Ghosting"]
    at_hand.press("Right, go on")
    at_hand.open("#saw=banding", fresh=False)
    assert at_hand.session() == Session((Pressed("ceramic-tile"), Saw(("ghosting",))))
    assert at_hand.press("Begin with what you chose instead")["title"] == "What was pressed?"
    assert at_hand.press("I cannot say")["title"] == "I take it that you see:"
    at_hand.press("Right, go on")
    assert at_hand.session() == Session((Pressed(""), Saw(("banding",))))


# --- ways in, and putting right what was understood ---


def test_what_was_understood_can_be_put_right(at_hand: Person) -> None:
    at_hand.open()
    at_hand.say("polyester t-shirt")
    heard = at_hand.say("banding and ghosting, frobnicated the gizmo")["heard"]
    assert [one.split(":")[0] for one in heard] == ["Ghosting", "Banding"]
    assert any("frobnicated" in hint for hint in at_hand.see()["hints"])
    assert [one.split(":")[0] for one in at_hand.press("Strike out")["heard"]] == ["Banding"]
    at_hand.press("Add from pictures")
    at_hand.window.find_element("id", "pl-narrow").send_keys("box")
    card = at_hand.window.find_element("xpath", "//*[contains(@class,'pick')][.//strong='Press box']")
    at_hand.window.execute_script("arguments[0].scrollIntoView()", card)
    card.click()
    assert [one.split(":")[0] for one in at_hand.press("Go on with 2 chosen")["heard"]] == ["Banding", "Press box"]
    at_hand.press("Right, go on")
    assert at_hand.session().moves[1] == Saw(("banding", "press-box"))


def test_what_may_be_meant_is_asked_for(at_hand: Person, knowledge: Knowledge) -> None:
    heard = hear(knowledge, lexicon(knowledge), "streaks")
    near = [move.defects[0] for (move,) in heard.unsure if isinstance(move, Saw)]
    assert len(near) > 1
    at_hand.open()
    at_hand.say("mug")
    view = at_hand.say("streaks")
    assert view["title"] == "Which do you mean?"
    named = [one.split(":")[0] for one in view["answers"]]
    assert named == [*(knowledge.defects[defect].title for defect in near), "None of these"]
    at_hand.open(fresh=False)
    assert at_hand.see()["answers"] == view["answers"]
    at_hand.press(view["answers"][1])
    at_hand.press("Right, go on")
    assert at_hand.session() == Session((Pressed("mug"), Saw((near[1],))))


def test_all_may_be_told_at_the_first_question(at_hand: Person) -> None:
    at_hand.open()
    view = at_hand.say("the mug came out pale, only the first ones, not taped")
    assert view["heard"][0].startswith("Faint colour: ")
    at_hand.press("Right, go on")
    pressed, saw, *answers = at_hand.session().moves
    assert (pressed, saw) == (Pressed("mug"), Saw(("faint-colour",)))
    assert answers == [Answered("which-pieces", "first-ones"), Answered("ask-how-it-was-held", "laid-loose")]


def test_none_of_what_may_be_meant_leaves_the_rest(at_hand: Person) -> None:
    at_hand.open()
    at_hand.say("mug")
    at_hand.say("streaks")
    assert at_hand.press("None of these")["title"] == "Nothing is left of it. What do you see?"


def test_a_cause_that_was_named_is_shown_and_counts(at_hand: Person, knowledge: Knowledge) -> None:
    words = "pale, and I think the press was not hot enough"
    (cause,) = hear(knowledge, lexicon(knowledge), words).causes
    at_hand.open()
    at_hand.say("mug")
    assert at_hand.say(words)["heard"][-1] == knowledge.causes[cause].title
    at_hand.press("Right, go on")
    opening = (Pressed("mug"), Saw(("faint-colour",)), Named(cause))
    assert at_hand.session() == Session(opening)
    at_hand.press("Back")
    at_hand.press("Right, go on")
    assert at_hand.session() == Session(opening)


def _tellings(knowledge: Knowledge, words: str) -> list[Telling]:
    return tellings(hear(knowledge, lexicon(knowledge), words))


def test_figures_are_heard_said_back_and_count_as_the_command_has_them(at_hand: Person, knowledge: Knowledge) -> None:
    told_in_one = _tellings(knowledge, IN_ONE)
    lines = [Echo(knowledge).line(each) for each in told_in_one if isinstance(each.move, Measured)]
    assert len(lines) == 2
    at_hand.open()
    view = at_hand.say(IN_ONE)
    assert view["heard"][1:3] == lines
    at_hand.open(fresh=False)
    assert at_hand.see()["heard"] == view["heard"]
    step = at_hand.press("Right, go on")
    now = Consultation(knowledge, Shop(), at_hand.session())
    assert now.session == Session(tuple(each.move for each in told_in_one))
    assert {"set-gap", "dwell-gap"} <= {reading.id for reading in now.readings}
    assert now.settled
    assert differences(by_command(now), by_page(now.session)) == []
    agree(step, now)
    panel = spoken(" ".join(at_hand.press("What I believe")["panel"]))
    for cause in told(now, 5):
        assert spoken(f"{cause.title}: {cause.chance}") in panel
    assert at_hand.press("Back")["heard"][1:3] == lines
    at_hand.press("Right, go on")
    assert at_hand.session() == now.session


def test_each_line_is_struck_out_by_its_number(at_hand: Person) -> None:
    at_hand.open()
    at_hand.say(IN_ONE)
    left = at_hand.keys("4")["heard"]
    assert len(left) == 4
    assert at_hand.keys("2")["heard"] == [left[0], *left[2:]]
    at_hand.press("Right, go on")
    assert at_hand.session().figures == ((0, {"dwell": 40}),)
    assert [move for move in at_hand.session().moves if isinstance(move, Answered)] == [
        Answered("ask-how-it-was-held", "laid-loose")
    ]


def test_figures_told_with_the_goods_are_kept_and_put_right(at_hand: Person) -> None:
    at_hand.open()
    assert at_hand.say("ceramic tile, 200C for 40 seconds")["title"] == "What do you see?"
    view = at_hand.say("my probe says 185, 50s")
    assert view["title"] == "Noted, so far. What do you see?"
    assert [one.split(": ")[1] for one in view["heard"]] == ["200 °C (392 °F)", "50 s", "185 °C (365 °F)"]
    at_hand.press("Say what you see")
    assert at_hand.say("pale, 85 % polyester")["title"] == "I take it that you see:"
    at_hand.press("Right, go on")
    session = at_hand.session()
    assert session.moves[0] == Pressed("ceramic-tile", {"item.polyester": 85})
    assert [figures for _, figures in session.figures] == [{"set": 200}, {"dwell": 50}, {"probe": 185}]


def test_what_is_told_later_counts_as_well(at_hand: Person) -> None:
    at_hand.open("?item=mug&saw=faint-colour&saw=banding")
    at_hand.press("Right, go on")
    at_hand.press("All that is known")
    at_hand.press("I see something else as well")
    view = at_hand.say("set 200, my probe says 185, not taped, no banding")
    assert view["title"] == "Noted, so far:"
    assert len(view["heard"]) == 4
    at_hand.press("Right, go on")
    assert at_hand.session() == Session(
        (
            Pressed("mug"),
            Saw(("faint-colour",)),
            DidNotSee(("banding",)),
            Measured({"set": 200}),
            Measured({"probe": 185}),
            Answered("ask-how-it-was-held", "laid-loose"),
        )
    )
    at_hand.press("All that is known")
    at_hand.press("I see something else as well")
    at_hand.say("it is not pale")
    assert at_hand.press("Right, go on")["title"] == "What shows now?"


def test_a_choice_is_narrowed_by_what_people_call_it(at_hand: Person, knowledge: Knowledge) -> None:
    at_hand.open()
    at_hand.say("mug")
    at_hand.press("Take it from a list")
    field = at_hand.window.find_element("id", "pl-narrow")
    left = "return [...document.querySelectorAll('.pick')].filter((one) => one.checkVisibility())"
    left += ".map((one) => one.querySelector('strong').textContent)"
    for defect in list(knowledge.defects.values())[::5]:
        own = f"{defect.title} {defect.looks}".lower()
        short = [name for name in defect.said if len(name.split()) <= SHORT_NAME]
        name = next(name for name in short if any(word not in own for word in name.lower().split()))
        field.clear()
        field.send_keys(name)
        shown = at_hand.window.execute_script(left)
        assert defect.title in shown
        assert len(shown) < len(knowledge.defects) / 2, (name, shown)


def test_words_that_say_nothing_are_asked_for_again(at_hand: Person) -> None:
    at_hand.open()
    assert any("do not know that item" in hint for hint in at_hand.say("zzyzx")["hints"])
    at_hand.press("I cannot say")
    assert any("did not recognise" in hint for hint in at_hand.say("zzyzx")["hints"])


def test_something_else_shows_after_a_fix(at_hand: Person) -> None:
    at_hand.open("?item=tea-towel-65-35&saw=ghosting")
    view = at_hand.press("Right, go on")
    while RESULTS[3] not in view["answers"]:
        view = at_hand.press("I cannot tell")
    assert at_hand.press(RESULTS[3])["title"] == "What shows now?"
    at_hand.say("banding")
    at_hand.press("Right, go on")
    tried, saw = at_hand.session().moves[-2:]
    assert isinstance(tried, TriedFix)
    assert (tried.change, saw) == ("", Saw(("banding",)))


def test_what_is_left_after_a_fix_is_told_in_words_or_by_what_was_seen(at_hand: Person) -> None:
    at_hand.open("?item=tea-towel-65-35&saw=ghosting&saw=faint-colour")
    view = at_hand.press("Right, go on")
    while RESULTS[1] not in view["answers"]:
        view = at_hand.press("I cannot tell")
    asked = at_hand.press(RESULTS[1])
    assert asked["title"] == "What is left, exactly?"
    assert asked["answers"] == ["Faint colour", "Ghosting", "The same as before"]
    assert any("did not recognise" in hint for hint in at_hand.say("zzyzx")["hints"])
    at_hand.say("only the ghosting, and some banding")
    assert at_hand.see()["title"] == "I take it that you see:"
    at_hand.press("Right, go on")
    tried, saw = at_hand.session().moves[-2:]
    assert isinstance(tried, TriedFix)
    assert (tried.change, tried.gone, saw) == ("better", ("faint-colour",), Saw(("banding",)))
    before = at_hand.press("Back")
    assert RESULTS[1] in before["answers"]
    assert not any(isinstance(move, TriedFix) for move in at_hand.session().moves)
    at_hand.press(RESULTS[1])
    at_hand.say("")
    assert at_hand.session().moves[-1] == TriedFix(tried.fix, "better")


def test_the_item_can_be_changed_on_the_way(at_hand: Person) -> None:
    at_hand.open("?item=tea-towel-65-35&saw=ghosting")
    at_hand.press("Right, go on")
    at_hand.press("All that is known")
    at_hand.press("Change what was pressed")
    at_hand.say("ceramic-tile")
    assert at_hand.session() == Session((Pressed("ceramic-tile"), Saw(("ghosting",))))


# --- the shop's presses ---

HARBOUR = load_shop(shipped_folder() / "tests" / "cases" / "harbour")


@pytest.fixture(scope="module")
def harbour(two: Path, tmp_path_factory: pytest.TempPathFactory) -> str:
    """The page in a shop with two presses, of which one is known to run cool."""
    return _in_shop(two, tmp_path_factory.mktemp("harbour"), HARBOUR.shop)


def _in_shop(two: Path, folder: Path, shop: Shop) -> str:
    copytree(two, folder, dirs_exist_ok=True)
    for path, content in page.files(Handbook(HARBOUR.knowledge, shop)).items():
        (folder / path).write_bytes(content)
    return folder.as_uri()


@pytest.fixture
def at_two_presses(harbour: str, window: Any) -> Iterator[Person]:
    yield from _quiet(Person(window, harbour))


def test_the_press_is_asked_for_where_there_are_several(at_two_presses: Person) -> None:
    somebody, titles = at_two_presses, [press.title for press in HARBOUR.shop.presses.values()]
    somebody.open()
    asked = somebody.say("cushion cover")
    assert (asked["title"], asked["answers"]) == ("On which press?", [*titles, "I cannot say"])
    somebody.open(fresh=False)
    assert somebody.see()["title"] == "On which press?"
    assert somebody.keys("1")["title"] == "What do you see?"
    assert _strip(somebody) == f"Cushion cover, polyester · {titles[0]}"
    somebody.say("washed out")
    somebody.press("Right, go on")
    session = somebody.session()
    assert session == Session((Pressed("cushion-cover", {}, "left"), Saw(("faint-colour",))))
    assert _strip(somebody) == f"Cushion cover, polyester · {titles[0]} · Faint colour"
    now = Consultation(HARBOUR.knowledge, HARBOUR.shop, session)
    panel = spoken(" ".join(somebody.press("What I believe")["panel"]))
    cool = told(now, 1)[0]
    assert spoken(f"{cool.title}: {cool.chance}") in panel
    assert "This press: runs 6 °C cool at the left rear corner since March" in panel
    assert summary(now)[1] in spoken(somebody.window.execute_script(KNOWN_SO_FAR))


def test_the_press_can_be_changed_or_left_open(at_two_presses: Person) -> None:
    somebody, seen = at_two_presses, Saw(("faint-colour",))
    somebody.open("?item=cushion-cover&saw=faint-colour")
    assert somebody.see()["title"] == "On which press?"
    assert somebody.press("I cannot say")["title"] == "I take it that you see:"
    somebody.press("Right, go on")
    assert somebody.session() == Session((Pressed("cushion-cover"), seen))
    somebody.press("All that is known")
    somebody.press("Change the press")
    somebody.press("The big press")
    assert somebody.session() == Session((Pressed("cushion-cover", {}, "right"), seen))
    somebody.press("All that is known")
    somebody.press("Change what was pressed")
    somebody.say("ceramic-tile")
    assert somebody.session() == Session((Pressed("ceramic-tile", {}, "right"), seen))
    for title in ("I take it that you see:", "What do you see?", "On which press?", "What was pressed?"):
        assert somebody.press("Back")["title"] == title
    somebody.open(fresh=False)
    somebody.window.execute_script(SELL_IT)
    somebody.open(fresh=False)
    assert "does not fit any more" in somebody.window.find_element("css selector", "#presslore .notice").text


def test_the_only_press_is_taken_and_said(two: Path, tmp_path: Path, window: Any) -> None:
    only = replace(HARBOUR.shop, presses={"left": HARBOUR.shop.presses["left"]})
    somebody = Person(window, _in_shop(two, tmp_path, only))
    somebody.open()
    assert somebody.say("cushion cover")["title"] == "What do you see?"
    assert _strip(somebody) == "Cushion cover, polyester · The press by the window"
    somebody.say("washed out")
    somebody.press("Right, go on")
    assert somebody.session().press == ""
    assert "This press: runs 6 °C cool" in " ".join(somebody.press("What I believe")["panel"])
    assert "Change the press" not in somebody.press("All that is known")["answers"]


def _strip(person: Person) -> str:
    return str(person.window.find_element("css selector", "#presslore .strip p").text)


KNOWN_SO_FAR = """
[...document.querySelectorAll('button')].find((one) => one.textContent === 'All that is known').click();
return document.querySelector('#presslore').innerText;
"""
SELL_IT = """
localStorage['presslore.diagnosis'] = localStorage['presslore.diagnosis'].replaceAll('right', 'sold');
"""


# --- by keyboard, by ear, by thumb ---


def test_by_keyboard_alone(person: Person) -> None:
    from selenium.webdriver.common.keys import Keys

    person.open()
    for _ in range(40):
        if person.keys(Keys.TAB)["focus"] == "pl-words":
            break
    assert person.keys("polyester t-shirt" + Keys.ENTER)["title"] == "What do you see?"
    person.keys(Keys.TAB)
    while person.see()["focus"] != "pl-words":
        person.keys(Keys.TAB)
    person.keys("a rectangle pressed into the shirt" + Keys.ENTER)
    question = person.keys("y")
    assert question["title"] == "Tear the edges of the sheet instead of cutting them"
    assert person.keys("?")["panel"][0] == "Why and how"
    assert person.keys("?")["panel"] == []
    assert person.keys("w")["panel"][0] == "What I believe"
    person.keys("w")
    assert person.keys("u")["title"] != question["title"]
    assert person.keys("b")["title"] == question["title"]
    assert person.keys("1")["title"] == "Done. Put right: Press box."


def test_focus_can_be_seen_wherever_it_is(at_hand: Person) -> None:
    from selenium.webdriver.common.keys import Keys

    at_hand.open("?item=tea-towel-65-35&saw=ghosting")
    at_hand.keys(Keys.TAB)
    at_hand.press("Right, go on")
    mark = "const look = getComputedStyle(document.activeElement); return [look.outlineStyle, look.boxShadow]"
    for _ in range(8):
        at_hand.keys(Keys.TAB)
        outline, shadow = at_hand.window.execute_script(mark)
        assert outline != "none" or shadow != "none"


def test_no_bar_lies_over_what_has_the_focus(at_hand: Person) -> None:
    from selenium.webdriver.common.keys import Keys

    at_hand.open("?item=tea-towel-65-35")
    at_hand.press("Look through pictures")
    covered = (
        "const box = document.activeElement.getBoundingClientRect(), x = box.left + box.width / 2;"
        "return [box.top + 4, box.bottom - 4].filter((y) => !document.activeElement.contains("
        "document.elementFromPoint(x, y))).length"
    )
    for key in (Keys.TAB,) * 9 + (Keys.SHIFT + Keys.TAB,) * 7:
        at_hand.keys(key)
        assert at_hand.window.execute_script(covered) == 0


def test_every_new_question_takes_the_focus_and_is_said(at_hand: Person) -> None:
    at_hand.open("?item=tea-towel-65-35&saw=ghosting")
    for label in ("Right, go on", "All that is known", "Go on"):
        view = at_hand.press(label)
        assert view["focus"] == "pl-question"
        assert view["title"] in view["said"]


@pytest.mark.parametrize("width", [320, 1280])
def test_thumbs_find_everything(width: int, at_hand: Person) -> None:
    resize(at_hand.window, width, 640)
    at_hand.open()
    for view in _tour(at_hand):
        small = at_hand.window.execute_script(
            "return [...document.querySelectorAll('#presslore button, #presslore summary')]"
            ".filter((one) => one.checkVisibility() && one.getBoundingClientRect().height < 48)"
            ".map((one) => one.outerHTML)"
        )
        assert small == [], view["title"]
        wide = at_hand.window.execute_script("return document.documentElement.scrollWidth - innerWidth")
        assert wide <= 0, view["title"]


def _tour(person: Person) -> Iterator[dict[str, Any]]:
    """Every kind of view once."""
    yield person.see()
    yield person.press("Take it from the list")
    yield person.say("cotton mix tea towel")
    yield person.say("pale, and the text is doubled")
    yield person.press("Add from pictures")
    person.press("Back")
    yield person.press("Add from a list")
    person.press("Back")
    view = person.press("Right, go on")
    yield view
    while RESULTS[1] not in view["answers"]:
        person.press("Why and how")
        yield person.press("What I believe")
        view = person.press("I cannot tell")
    yield view
    yield person.press(RESULTS[1])
    person.press("Back")
    yield person.press("All that is known")
    yield person.press("Stop: what to tell my supplier")
    person.press("Go on with the next step")
    yield person.press(RESULTS[0])


@pytest.mark.parametrize(
    ("width", "dark"),
    [
        (320, True),
        (1280, False),
        *(pytest.param(*each, marks=pytest.mark.thorough) for each in ((320, False), (1280, True))),
    ],
)
def test_nothing_stands_in_anybodys_way(width: int, dark: bool, two: Path, window: Any) -> None:
    rules = next(Path(__file__).parent.rglob("axe.min.js"), None)
    if rules is None:
        pytest.skip("axe.min.js is not here")
    run = (
        "const done = arguments[0]; axe.run('#presslore', {preload: false}).then((found) => done(found.violations"
        ".map((one) => `${one.impact} ${one.id}: ${one.nodes[0].html}`)))"
    )
    resize(window, width, 800)
    light(window, dark)
    person = Person(window, two.as_uri())
    person.open()
    window.execute_script(rules.read_text(encoding="utf-8"))
    for view in _tour(person):
        assert window.execute_async_script(run) == [], view["title"]


# --- speed, weight, and what stays when the server goes ---


def test_the_weight_of_engine_knowledge_and_vocabulary(knowledge: Knowledge) -> None:
    at_first, words, steps = weights(Handbook(knowledge))
    fits = (at_first <= FIRST_LOAD, words <= VOCABULARY, steps <= STEPS)
    assert fits == (True, True, True), (at_first, words, steps)


def test_nothing_is_kept_of_a_folder(at_hand: Person) -> None:
    at_hand.open()
    assert at_hand.window.execute_script("return !navigator.serviceWorker || !navigator.serviceWorker.controller")


# --- text that would be markup ---


def test_markup_in_the_knowledge_shows_as_text(knowledge: Knowledge, tmp_path: Path, window: Any) -> None:
    pytest.importorskip("material", reason="mkdocs-material is not installed")
    nasty = "</script><img src=x onerror='window.hit=1'>*bold* &amp; {{ x }}"
    spoilt = _spoilt(knowledge, nasty)
    somebody = Person(window, two_pages(Handbook(spoilt), tmp_path).as_uri())
    somebody.open(f"?item=tea-towel-65-35&saw={next(iter(knowledge.defects))}")
    assert nasty in somebody.see()["heard"][0]
    view = somebody.press("Right, go on")
    for _ in range(6):
        assert nasty in view["title"]
        somebody.press("Why and how")
        somebody.press("What I believe")
        view = somebody.press(next(one for one in view["answers"] if one in ("I cannot tell", "I cannot do this")))
    somebody.press("All that is known")
    assert window.execute_script("return window.hit") is None


def _spoilt(knowledge: Knowledge, nasty: str) -> Knowledge:
    def entries(kind: str, **parts: Any) -> dict[str, Any]:
        found = getattr(knowledge, kind).items()
        return {name: replace(entry, **{part: make(entry) for part, make in parts.items()}) for name, entry in found}

    def worse(part: str) -> Any:
        return lambda entry: f"{getattr(entry, part)} {nasty}"

    return replace(
        knowledge,
        defects=entries("defects", title=worse("title"), looks=worse("looks")),
        causes=entries("causes", title=worse("title")),
        items=entries("items", title=worse("title")),
        cautions=entries("cautions", title=worse("title"), text=worse("text")),
        fixes=entries("fixes", title=worse("title"), steps=lambda fix: tuple(f"{step} {nasty}" for step in fix.steps)),
        checks=entries(
            "checks",
            asks=worse("asks"),
            how=lambda check: tuple(f"{step} {nasty}" for step in check.how),
            outcomes=lambda check: tuple(replace(one, looks=f"{one.looks} {nasty}") for one in check.outcomes),
        ),
    )


# --- figures that were measured ---

FILL = """
const fields = arguments[0];
Object.keys(fields).forEach((name) => { document.getElementById('pl-' + name).value = fields[name]; });
"""


def typed(person: Person, **fields: str) -> dict[str, Any]:
    """Fill the form for figures, and take them."""
    person.press("Or type the figure" if "Or type the figure" in buttons(person) else "A figure you measured")
    person.window.execute_script(FILL, {name.replace("_", "-"): value for name, value in fields.items()})
    return person.press("Take these figures")


def buttons(person: Person) -> list[str]:
    found: list[str] = person.window.execute_script(
        "return [...document.querySelectorAll('#presslore summary')].map((one) => one.textContent)"
    )
    return found


def test_a_probes_reading_typed_beside_the_press(at_hand: Person, knowledge: Knowledge) -> None:
    at_hand.open("?item=cushion-cover&saw=faint-colour")
    at_hand.press("Right, go on")
    view = typed(at_hand, unit="F", figure_set="385", figure_probe="371")
    now = Consultation(knowledge, Shop(), at_hand.session())
    assert now.session.figures == (
        (0, {"set": pytest.approx(196.111, abs=1e-3), "probe": pytest.approx(188.333, abs=1e-3)}),
    )
    assert now.suspects[0].cause == "platen-runs-cool"
    agree(view, now)
    panel = spoken(" ".join(at_hand.press("What I believe")["panel"]))
    assert "The probe read 188 °C (371 °F) where 196 °C (385 °F) was set: 8 °C (14 °F) short" in panel
    at_hand.press("Back")
    assert at_hand.session().figures == ()


def test_a_unit_typed_behind_a_figure_goes_before_the_one_picked(at_hand: Person) -> None:
    at_hand.open("?item=cushion-cover&saw=faint-colour")
    at_hand.press("Right, go on")
    typed(at_hand, unit="C", figure_set="385F", figure_probe="188 °c", figure_dwell="1:05")
    assert at_hand.session().figures == (
        (0, {"set": pytest.approx(196.111, abs=1e-3), "probe": pytest.approx(188.0), "dwell": pytest.approx(65.0)}),
    )


def test_a_figure_that_makes_no_sense_or_says_nothing_is_not_taken(at_hand: Person) -> None:
    at_hand.open("?item=cushion-cover&saw=faint-colour")
    at_hand.press("Right, go on")
    before = at_hand.session()
    hints = " ".join(typed(at_hand, figure_probe="371")["hints"])
    assert "makes no sense there. Expected a number from -20 to 300 °C." in hints
    at_hand.window.execute_script(FILL, {"figure-probe": "188"})
    hints = " ".join(at_hand.press("Take these figures")["hints"])
    assert "that says nothing without the other figure. Temperature on the display?" in hints
    at_hand.window.execute_script(FILL, {"figure-probe": ""})
    assert "Type at least one figure." in " ".join(at_hand.press("Take these figures")["hints"])
    assert at_hand.session() == before
