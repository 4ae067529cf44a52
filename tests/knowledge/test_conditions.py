import pytest

from diagnose.knowledge.conditions import (
    ALWAYS,
    MOST_WORLDS,
    Condition,
    FactValue,
    Job,
    Test,
    Usual,
    facts_asked,
    learnt,
    may_overlap,
    parse_span,
    worlds,
)


def spanned(text: str) -> Condition:
    span = parse_span(text)
    assert span is not None
    return Condition((Test("item.polyester", span=span, written=text),))


def listed(*values: FactValue, fact: str = "item.polyester") -> Condition:
    return Condition((Test(fact, values),))


@pytest.mark.parametrize(
    ("text", "inside", "outside"),
    [
        ("< 65", [64.9, -3], [65, 66]),
        ("<=65", [65], [65.1]),
        ("> 3", [3.1], [3]),
        (">= 3", [3], [2.9]),
        ("50..80", [50, 80], [49.9, 80.1]),
    ],
)
def test_spans(text: str, inside: list[float], outside: list[float]) -> None:
    condition = spanned(text)
    assert all(condition.holds({"item.polyester": value}) for value in inside)
    assert not any(condition.holds({"item.polyester": value}) for value in outside)


@pytest.mark.parametrize("text", ["65", "< many", "=> 3", "50-80", "..", ""])
def test_what_is_no_span(text: str) -> None:
    assert parse_span(text) is None


def test_an_unknown_fact_leaves_it_open() -> None:
    both = Condition((*listed(65.0).tests, *listed("cloth", "blend", fact="item.family").tests))
    assert both.holds({"item.polyester": 65.0}) is None
    assert both.may_hold({"item.polyester": 65.0})
    assert both.holds({"item.polyester": 65.0, "item.family": "blend"}) is True
    assert both.holds({"item.family": "slate"}) is False


@pytest.mark.parametrize(
    ("one", "other", "overlap"),
    [
        (ALWAYS, ALWAYS, True),
        (ALWAYS, spanned("< 65"), True),
        (spanned("< 65"), spanned(">= 65"), False),
        (spanned("<= 65"), spanned(">= 65"), True),
        (spanned("50..80"), spanned("80..95"), True),
        (spanned("50..80"), spanned("> 80"), False),
        (spanned("50..80"), spanned("60..70"), True),
        (spanned("50..80"), listed(65.0), True),
        (spanned("50..80"), listed(10.0, 90.0), False),
        (listed("cloth", "blend"), listed("blend"), True),
        (listed("cloth"), listed("slate", "glass"), False),
        (listed(True, fact="item.hard"), listed(False, fact="item.hard"), False),
        (listed(True, fact="item.hard"), listed("cloth", fact="item.family"), True),
    ],
)
def test_overlap(one: Condition, other: Condition, overlap: bool) -> None:
    assert may_overlap(one, other) is overlap
    assert may_overlap(other, one) is overlap


SHIRT = Usual(((100.0, 0.7), (65.0, 0.2), (0.0, 0.1)))


@pytest.mark.parametrize(("asked", "held"), [("< 95", None), ("<= 100", True), ("> 100", False)])
def test_what_is_usual_decides_only_where_all_that_may_be_agrees(asked: str, held: bool | None) -> None:
    assert spanned(asked).holds({"item.polyester": SHIRT}) is held
    assert spanned(asked).may_hold({"item.polyester": SHIRT}) is (held is not False)


def test_the_worlds_of_a_job_are_each_as_likely_as_its_facts_together() -> None:
    job: Job = {"item.polyester": SHIRT, "item.colour": Usual((("white", 0.9), ("dark", 0.1))), "item.hard": False}
    found = worlds(job, ["item.colour", "item.polyester", "item.hard", "press.kind"])
    assert {(world["item.polyester"], world["item.colour"]): chance for world, chance in found} == pytest.approx(
        {(100, "white"): 0.63, (65, "white"): 0.18, (0, "white"): 0.09, (100, "dark"): 0.07, (65, "dark"): 0.02}
        | {(0, "dark"): 0.01}
    )
    assert all(world["item.hard"] is False for world, _ in found)
    assert worlds(job, ["item.hard"]) == [(job, 1.0)]


def test_the_worlds_of_a_job_stay_few() -> None:
    job = {f"item.{name}": SHIRT for name in "abcdefghij"}
    found = worlds(job, job)
    assert len(found) <= MOST_WORLDS
    assert sum(chance for _, chance in found) == pytest.approx(1.0)
    assert all(world["item.j"] == 100.0 for world, _ in found)


@pytest.mark.parametrize(
    ("before", "told", "after"),
    [
        (SHIRT, spanned("< 95"), Usual(((65.0, 0.2 / (0.2 + 0.1)), (0.0, 0.1 / (0.2 + 0.1))))),
        (SHIRT, spanned(">= 95"), 100.0),
        (SHIRT, spanned("70..80"), None),
        (SHIRT, listed(85.0), 85.0),
        (100.0, spanned("< 95"), None),
        (100.0, listed(65.0), 65.0),
        (80.0, spanned("< 95"), 80.0),
        (None, listed(65.0), 65.0),
        (None, listed(65.0, 50.0), None),
    ],
)
def test_what_is_told_leaves_of_what_may_be_what_fits(
    before: FactValue | Usual | None, told: Condition, after: FactValue | Usual | None
) -> None:
    job = {"item.hard": False} | ({} if before is None else {"item.polyester": before})
    assert learnt(job, [told]) == {"item.hard": False} | ({} if after is None else {"item.polyester": after})


def test_facts_are_asked_for_once() -> None:
    assert facts_asked([spanned("< 95"), listed("cloth", fact="item.family"), listed(0.0)]) == (
        "item.polyester",
        "item.family",
    )
