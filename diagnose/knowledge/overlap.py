"""Whether two conditions can hold for one and the same job."""

from diagnose.knowledge.conditions import Condition, Span, Test


def may_overlap(one: Condition, other: Condition) -> bool:
    """False only where some fact would have to be two different things at once."""
    theirs = {test.fact: test for test in other.tests}
    return all(_meet(test, theirs[test.fact]) for test in one.tests if test.fact in theirs)


def _meet(one: Test, other: Test) -> bool:
    if one.span and other.span:
        return _spans_meet(one.span, other.span)
    if not one.span and not other.span:
        return not set(one.values).isdisjoint(other.values)
    spanned, listed = (one, other) if one.span else (other, one)
    return any(spanned.holds({spanned.fact: value}) for value in listed.values)


def _spans_meet(one: Span, other: Span) -> bool:
    low, high = (one, other) if one.most <= other.least else (other, one)
    if low.most == high.least:
        return not (low.below_most or high.above_least)
    return low.most > high.least
