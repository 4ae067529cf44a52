"""What was heard as moves: told apart from what is known already, put right, and laid over the session."""

from diagnose.dialogue.hearing import Heard
from diagnose.dialogue.moves import Answered, DidNotSee, Measured, Named, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.dialogue.taking import Telling, after, corrected_by, news, tellings

ALL = Heard(
    defects=("pale",),
    not_seen=("doubled",),
    answers=(("probe", "reads-low"),),
    item="fete-towel",
    figures=(("set", 196.0),),
    causes=("runs-cool",),
    tried=(("turn-up-heat", "same"),),
    spoken={"defect pale": "washed out"},
)


def test_each_thing_heard_is_a_move_of_its_own_with_its_words() -> None:
    told = tellings(ALL)
    assert [each.move for each in told] == [
        Pressed("fete-towel"),
        Saw(("pale",)),
        DidNotSee(("doubled",)),
        TriedFix("turn-up-heat", "same"),
        Measured({"set": 196.0}),
        Answered("probe", "reads-low"),
        Named("runs-cool"),
    ]
    assert [each.words for each in told if each.words] == ["washed out"]


def test_what_the_session_holds_is_no_news() -> None:
    told = [each for each in tellings(ALL) if not isinstance(each.move, TriedFix)]
    session = after(Session(), (each.move for each in told))
    assert news(told, session) == []
    assert news([Telling(Measured({"set": 200.0}))], session) == [Telling(Measured({"set": 200.0}))]
    later = session.make(TriedFix("turn-up-heat", "same"))
    assert news([Telling(Measured({"set": 196.0}))], later) != []


def test_a_figure_said_again_takes_the_place_of_the_first() -> None:
    told = [Telling(Saw(("pale",))), Telling(Measured({"set": 196.0}))]
    anew = [Telling(Measured({"set": 204.0}))]
    assert corrected_by(told, anew, added=False) == [Telling(Saw(("pale",))), *anew]


def test_a_defect_said_again_takes_the_place_of_all_unless_it_is_added() -> None:
    told, anew = [Telling(Saw(("pale",)))], [Telling(Saw(("doubled",)))]
    assert corrected_by(told, anew, added=False) == anew
    assert corrected_by(told, anew, added=True) == [*told, *anew]


def test_another_item_takes_the_place_of_the_first_with_what_was_said_of_it() -> None:
    session = Session((Pressed("fete-towel", {"item.thickness": 1.0}, "left"), Saw(("pale",))))
    changed = after(session, [Pressed("fete-tile")])
    assert changed.item == "fete-tile"
    assert changed.facts == {}
    assert changed.press == "left"
    assert changed.evidence == session.evidence


def test_a_defect_that_is_denied_after_all_is_taken_back() -> None:
    session = Session((Saw(("pale", "doubled")),))
    changed = after(session, [DidNotSee(("doubled",))])
    assert changed.evidence.seen == ("pale",)
    assert changed.evidence.not_seen == ("doubled",)
