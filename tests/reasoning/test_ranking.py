"""Which causes come up, in which order."""

from diagnose.reasoning.beliefs import Beliefs, believe
from diagnose.reasoning.evidence import Evidence, Tried
from diagnose.reasoning.network import Network
from diagnose.reasoning.ranking import MOST_SHOWN, SHOWN, suspects
from tests.reasoning.networks import PINNED, PINNED_EVIDENCE


def ranked(behind: tuple[float, ...]) -> list[str]:
    """The causes that come up, named a, b, c, ..., where each is behind the case with this chance."""
    names = [chr(ord("a") + i) for i in range(len(behind))]
    net = Network.of(dict.fromkeys(names, 0.5), {})
    beliefs = Beliefs(alive=behind, present=behind, behind=behind, unknown=0.0, log_evidence=0.0)
    return [suspect.cause for suspect in suspects(net, beliefs)]


def test_the_likeliest_to_be_behind_it_comes_first() -> None:
    assert ranked((0.2, 0.7, 0.4)) == ["b", "c", "a"]


def test_what_is_hardly_possible_does_not_come_up() -> None:
    assert ranked((SHOWN, SHOWN * 0.99)) == ["a"]


def test_a_list_stays_short() -> None:
    assert len(ranked((0.5,) * 20)) == MOST_SHOWN


def test_ties_that_only_rounding_breaks_go_by_name() -> None:
    assert ranked((0.3, 0.3 + 1e-15)) == ["a", "b"]


def test_a_cause_that_is_likely_there_but_not_behind_what_is_seen_does_not_come_up() -> None:
    net = Network.of({"usual": 0.9, "guilty": 0.05}, {"d": (0.001, {"guilty": 0.9})})
    (only,) = suspects(net, believe(net, Evidence(seen=("d",))))
    assert only.cause == "guilty"


def test_nothing_comes_up_once_everything_has_gone() -> None:
    net = Network(PINNED.causes, PINNED.priors, PINNED.defects, {}, {"f": {1: 0.9}}, PINNED.index)
    assert suspects(net, believe(net, Evidence(seen=("d1",), tried=(Tried("f", gone=("d1",)),)))) == []


def test_the_pinned_case() -> None:
    """Posteriors of c2, c1, c3: .956, .104, .045 (D. Heckerman's identity, 1989)."""
    beliefs = believe(PINNED, PINNED_EVIDENCE)
    first, *others = suspects(PINNED, beliefs)
    assert (first.cause, first.index) == ("c2", 1)
    assert abs(first.present - 0.95640867) < 5e-9
    assert first.behind <= first.present
    assert all(other.behind < first.behind for other in others)
