"""What is known of a case, and in which period."""

from diagnose.reasoning.evidence import Evidence, Tried


def test_an_answer_belongs_to_the_period_it_was_given_in() -> None:
    evidence = Evidence().with_answer("first", "yes")
    later = Evidence(answers=evidence.answers, tried=(Tried("f"), Tried("g"))).with_answer("second", "no")
    assert later.answers == {"first": ("yes", 0), "second": ("no", 2)}
    assert later.period == 2


def test_a_later_answer_to_the_same_check_replaces_the_earlier() -> None:
    assert Evidence().with_answer("k", "yes").with_answer("k", "no").answers == {"k": ("no", 0)}


def test_what_a_fix_made_go_away_is_no_longer_left() -> None:
    evidence = Evidence(seen=("a", "b", "c"), tried=(Tried("f", gone=("b",)), Tried("g", gone=("a",))))
    assert evidence.gone == {"a", "b"}
    assert evidence.left == ("c",)
