import pytest

from diagnose.knowledge.conditions import ALWAYS, Condition, FactValue, Test, may_overlap, parse_span


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
