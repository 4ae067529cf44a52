"""Care notes: what ships, and a shop's own laid over it."""

import re
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from diagnose.knowledge.care import FOOTING, KINDS, by_kind, items_of, message, note_on, notes_touching, telling
from diagnose.knowledge.documents.schema_check import schema
from diagnose.knowledge.loading import inspect, load, shipped_folder
from diagnose.knowledge.model import THIS_SHOP, CareNote, Item, Knowledge
from diagnose.speech.saying import say

Shop = Callable[[str, str], Path]
NOTED = Path(__file__).parent / "valid" / "care-notes"
OWN = """\
care:
  our-mugs:
    title: Our mugs
    items: [mug]
    defects: []
    tell: Please bring it in.
    statements: [{kind: washing, text: By hand., basis: common practice}]
"""
METAL = re.compile("metal|steel|alumin|enamel|magnet", re.IGNORECASE)
PROMISES = re.compile(
    r"dishwasher[- ]safe|microwave[- ]safe|food[- ]safe|fade[- ]?proof|colou?r[- ]?fast|guarantee|for ever|permanent"
    r"|will not fade|never fades|washes? (?:at|up to) \d+ times",
    re.IGNORECASE,
)


@pytest.fixture(scope="module")
def shipped() -> Knowledge:
    return load(shipped_folder())


@pytest.fixture
def noted() -> Knowledge:
    return laid(NOTED)


def laid(*folders: Path) -> Knowledge:
    knowledge, problems = inspect(*folders)
    assert [str(problem) for problem in problems] == []
    assert knowledge is not None
    return knowledge


def texts(note: CareNote) -> Iterator[str]:
    yield from (note.title, note.tell, *(statement.text for statement in note.statements))


def about(note: CareNote, kind: str) -> str:
    return " ".join(statement.text for statement in note.statements if statement.kind == kind)


# --- what ships ---


def test_every_item_has_one_note(shipped: Knowledge) -> None:
    named = [item for note in shipped.care.values() for item in note.items]
    assert sorted(named) == sorted(shipped.items)


def test_nothing_is_promised(shipped: Knowledge) -> None:
    broken = [text for note in shipped.care.values() for text in texts(note) if PROMISES.search(text)]
    assert broken == []


def test_the_makers_own_word_comes_first_where_it_is_stricter() -> None:
    """It stands on every card, once, below all that the card says."""
    assert "maker's own label is stricter" in FOOTING


def every_card(knowledge: Knowledge) -> Iterator[tuple[CareNote, Item]]:
    return ((note, item) for note in knowledge.care.values() for item in items_of(knowledge, note))


def test_a_card_holds_at_most_ninety_words(shipped: Knowledge) -> None:
    """Its title, the name of each kind, what is said of it, and the line at its foot."""
    counted = {}
    for note, item in every_card(shipped):
        said = [f"{title} {' '.join(each.text for each in group)}" for title, group in by_kind(note, item)]
        counted[item.id] = len(" ".join([say("how-to-look-after-it"), item.title, *said, FOOTING]).split())
    assert {item: words for item, words in counted.items() if words > 90} == {}
    assert len(counted) == len(shipped.items)


def test_a_message_is_short(shipped: Knowledge) -> None:
    assert all(note.short and len(message(note).split()) <= 40 for note in shipped.care.values())
    bare = replace(shipped.care["felt"], short="")
    assert message(bare).startswith("Do not wash; dab with a damp cloth. Lay it flat.")


def test_a_card_fits_its_item(shipped: Knowledge) -> None:
    def card(item: str) -> str:
        note = note_on(shipped, item)
        assert note is not None
        return " ".join(each.text for _, group in by_kind(note, shipped.items[item]) for each in group)

    assert "inside out" in card("t-shirt-polyester")
    assert "inside out" not in card("tea-towel-polyester")
    assert "inside out" not in card("tea-towel-65-35")
    assert "food" not in card("cushion-cover")
    assert "Caps and seals" not in card("enamel-mug")
    assert "cords" not in card("lanyard").lower().replace("cords can trap", "")


def test_a_statement_is_only_for_items_of_its_note(shipped: Knowledge) -> None:
    for note in shipped.care.values():
        for statement in note.statements:
            assert set(statement.only_for) <= set(note.items), (note.id, statement.text)


def test_metal_never_goes_in_a_microwave(shipped: Knowledge) -> None:
    metal = [item for item in shipped.items.values() if METAL.search(item.title)]
    assert len(metal) >= 6
    said = {item.id: about(note, "microwave") for item in metal if (note := note_on(shipped, item.id))}
    assert [item for item, text in said.items() if not text.startswith("Never in the microwave: metal")] == []


def test_cotton_in_the_cloth_is_told_of_the_first_washes(shipped: Knowledge) -> None:
    blends = [item.id for item in shipped.items.values() if item.family == "blend"]
    assert len(blends) >= 4
    notes = {note.id: note for item in blends if (note := note_on(shipped, item))}
    assert [note.id for note in notes.values() if "first few washes" not in about(note, "washing")] == []


def test_drinking_ware_is_printed_on_the_outside_only(shipped: Knowledge) -> None:
    for item in ("mug", "colour-change-mug", "enamel-mug", "steel-bottle", "aluminium-bottle", "frosted-glass-mug"):
        note = note_on(shipped, item)
        assert note is not None
        assert "outside only" in about(note, "food")


def test_washing_out_and_fading_lead_to_notes(shipped: Knowledge) -> None:
    for defect in ("wash-out", "faded-in-light", "migration", "rubs-off", "coating-peels", "haze", "poor-uptake"):
        assert notes_touching(shipped, defect)


def test_what_a_note_tells_goes_with_its_defects(shipped: Knowledge) -> None:
    blend = shipped.care["blend"]
    assert telling(blend, ["wash-out"]) == blend.tell
    assert telling(blend, ["ghosting"]) == ""


# --- structure ---


def test_the_schema_and_the_order_know_the_same_kinds() -> None:
    assert tuple(schema("kb")["$defs"]["care-statement"]["properties"]["kind"]["enum"]) == KINDS


def test_statements_of_a_kind_stand_together(noted: Knowledge) -> None:
    grouped = [(title, len(statements)) for title, statements in by_kind(noted.care["mugs"])]
    assert grouped == [("Washing", 2), ("Microwave", 1)]
    assert [item.id for item in items_of(noted, noted.care["mugs"])] == ["mug"]
    assert note_on(noted, "no-such-item") is None


# --- a shop's own ---


def test_a_shops_note_takes_its_items_from_the_shipped_one(shop: Shop) -> None:
    knowledge = laid(NOTED, shop("kb/care.yaml", OWN))
    assert list(knowledge.care) == ["towels", "our-mugs"]
    assert knowledge.care["our-mugs"].origin == THIS_SHOP


def test_a_shops_note_takes_one_item_and_leaves_the_others(shop: Shop, tmp_path: Path) -> None:
    text = (NOTED / "kb" / "care.yaml").read_text(encoding="utf-8").replace("items: [mug]", "items: [mug, tea-towel]")
    whole = text[: text.index("  towels:")] + text[text.index("  mugs:") :]
    one = laid(NOTED, shop("kb/care.yaml", whole), _folder(tmp_path / "second", OWN))
    assert {note.id: note.items for note in one.care.values()} == {"mugs": ("tea-towel",), "our-mugs": ("mug",)}


def test_a_shops_note_with_a_known_id_takes_its_place(shop: Shop) -> None:
    knowledge = laid(NOTED, shop("kb/care.yaml", OWN.replace("our-mugs", "mugs")))
    assert list(knowledge.care) == ["towels", "mugs"]
    assert (knowledge.care["mugs"].title, knowledge.care["mugs"].origin) == ("Our mugs", THIS_SHOP)


def test_a_retired_item_leaves_its_note(shop: Shop) -> None:
    knowledge = laid(NOTED, shop("kb/retired.yaml", "retire:\n  items: [mug]\n"))
    assert list(knowledge.care) == ["towels"]


def test_a_retired_note_leaves_its_item_without(shop: Shop) -> None:
    _, problems = inspect(NOTED, shop("kb/retired.yaml", "retire:\n  care: [mugs]\n"))
    assert [problem.code for problem in problems] == ["item-without-care"]


def test_retiring_a_note_that_is_not_there(shop: Shop) -> None:
    _, problems = inspect(NOTED, shop("kb/retired.yaml", "retire:\n  care: [mug]\n"))
    assert [problem.hint for problem in problems] == ["did you mean mugs?"]


def _folder(folder: Path, care: str) -> Path:
    (folder / "kb").mkdir(parents=True)
    (folder / "kb" / "care.yaml").write_text(care, encoding="utf-8")
    return folder
