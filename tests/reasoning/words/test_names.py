"""Names that stand word for word, and a shop's own of which the table knows nothing."""

from dataclasses import replace
from pathlib import Path

import pytest

from diagnose.knowledge.model import Check, Outcome
from diagnose.reasoning.words import Lexicon, lexicon, understand
from diagnose.reasoning.words.lexicon import build
from diagnose.reasoning.words.names import LONGEST, own_tokens, said_wherever
from diagnose.reasoning.words.table import table

OWN = "wobblegobs"


@pytest.fixture(scope="module")
def shop(words: Lexicon) -> Lexicon:
    """What ships, with a defect and an outcome of a shop's own."""
    known = words.knowledge
    defect = replace(known.defects["ghosting"], id=OWN, title="Wobblegobs", said=("purple wobblegobs", "gobby lines"))
    check = next(iter(known.checks.values()))
    outcome = replace(
        check.outcomes[0], id="glimmering", looks="The lamp glimmers turquoise", said=("glimmers turquoise",)
    )
    checks = {**known.checks, check.id: _with(check, outcome)}
    return build(replace(known, defects={**known.defects, OWN: defect}, checks=checks))


def _with(check: Check, outcome: Outcome) -> Check:
    return replace(check, outcomes=(*check.outcomes, outcome))


@pytest.mark.parametrize("text", ["Wobblegobs", "it has purple wobblegobs on it", "look at those gobby lines here"])
def test_a_shops_own_defect_is_heard_by_its_names(shop: Lexicon, text: str) -> None:
    assert [match.id for match in understand(shop, text).defects] == [OWN]


def test_a_shops_own_defect_is_heard_beside_others_and_denied(shop: Lexicon) -> None:
    told = understand(shop, "no wobblegobs, but the colours are pale")
    assert [match.id for match in told.defects] == ["faint-colour"]
    assert told.not_seen == (OWN,)


def test_a_shops_own_outcome_is_heard(shop: Lexicon) -> None:
    told = understand(shop, "hello, the lamp glimmers turquoise here")
    assert "glimmering" in {outcome for _, outcome, _ in told.outcomes}


def test_what_ships_is_heard_as_before_beside_it(words: Lexicon, shop: Lexicon) -> None:
    for text in ("the print is pale", "brown scorch marks", "bubbles in the coating of the tile"):
        assert understand(shop, text).defects == understand(words, text).defects


def test_what_a_shop_has_of_its_own_is_kept_as_it_was_made(shop: Lexicon, tmp_path: Path) -> None:
    first, again = lexicon(shop.knowledge, tmp_path), lexicon(shop.knowledge, tmp_path)
    assert again.sights == first.sights == shop.sights
    assert again.answers == shop.answers
    assert again.said == shop.said


def test_a_shops_own_way_of_saying_what_ships_is_a_name_of_it(words: Lexicon) -> None:
    heard = {"defect ghosting": ("it wears its granny's shawl",)}
    own = build(replace(words.knowledge, heard=heard))
    assert understand(own, "It wears its granny's shawl!").defects[0].id == "ghosting"
    assert [match.id for match in understand(own, "hello, it wears its granny's shawl").defects] == ["ghosting"]


def test_what_is_not_known_is_never_told(words: Lexicon) -> None:
    known = words.knowledge
    assert {"ghosting", "faint-colour"} <= set(table().sights.classes)
    fewer = {name: defect for name, defect in known.defects.items() if name not in ("ghosting", "faint-colour")}
    few = build(replace(known, defects=fewer, checks={}, causes={}))
    for text in ("a second copy beside each letter, and no ghosting", "the print is too pale all over, not pale"):
        told = understand(few, text)
        assert not {"ghosting", "faint-colour"} & {*(match.id for match in told.defects), *told.not_seen}
        assert (told.answers, told.causes) == ((), ())


def test_a_name_is_found_by_its_tokens_and_not_if_it_is_too_long(words: Lexicon) -> None:
    name, long = (own_tokens(words.reader, words.speller, text) for text in ("second copy", "pale " * (LONGEST + 1)))
    found = said_wherever([("ghosting", name), ("blurred-edges", name), ("ghosting", name), ("faint-colour", long)])
    assert list(found.values()) == [("ghosting", "blurred-edges")]
