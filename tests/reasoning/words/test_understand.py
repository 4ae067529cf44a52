"""What whole sentences are taken for."""

import random

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.reasoning.words import Lexicon, rank_defects, understand
from diagnose.reasoning.words.understand import CERTAIN
from tests.bench.words import SENTENCES, mistyped, told

SINGLE = {
    "The print is too pale all over": "faint-colour",
    "every letter has a second, weaker copy beside it": "ghosting",
    "the outlines are blurred and fuzzy": "blurred-edges",
    "a rectangle round the picture where the paper ended": "press-box",
    "brown scorch marks and a burnt smell": "scorching",
    "the blacks came out brown": "browned-blacks",
    "fine stripes across the picture at even spacing": "banding",
    "the magenta ink is missing completely": "missing-colour",
    "one corner stays pale every time": "cold-corners",
    "white line along the seam": "gaps-at-seams",
    "little blue hairs and specks on the white ground": "dark-specks",
    "white pinholes in the dark solid": "white-specks",
    "the picture shows through on the back of the shirt": "through-back",
    "the paper sticks and tears when I peel it": "paper-sticks",
    "sticky residue where the tape was": "tape-marks",
    "the fleece is flattened where it was pressed": "crushed-pile",
    "lettering reads backwards like in a mirror": "mirrored-image",
    "it faded after washing": "wash-out",
    "bubbles in the coating of the tile": "blisters",
    "the panel is warped and rocks on the table": "warping",
    "nothing transferred, the mug is still blank": "no-transfer",
    "the colour rubs off on my fingers": "rubs-off",
}
SEVERAL = {
    "print is pale and there is a faint second copy of the text": {"faint-colour", "ghosting"},
    "blacks look brown and there's a second copy of the text": {"browned-blacks", "ghosting"},
    "The mug has bubbles in the coating. The picture is mirrored.": {"blisters", "mirrored-image"},
    "tape marks, and the white has gone yellow": {"tape-marks", "yellowed-ground"},
    "too dark, and the letters are fuzzy": {"too-dark", "blurred-edges"},
}


def best(words: Lexicon, text: str) -> str:
    return rank_defects(words, text)[0].id


@pytest.mark.parametrize(("text", "defect"), SINGLE.items())
def test_one_defect_is_told(words: Lexicon, text: str, defect: str) -> None:
    assert [match.id for match in understand(words, text).defects] == [defect]


@pytest.mark.parametrize(("text", "defect"), SINGLE.items())
def test_case_and_signs_change_nothing(words: Lexicon, text: str, defect: str) -> None:
    assert best(words, text.upper() + "!!") == best(words, text.title()) == defect


@pytest.mark.parametrize(("text", "defect"), SINGLE.items())
@pytest.mark.parametrize("seed", [1, 2, 3])
def test_one_typing_error_leaves_it_among_the_first_three(words: Lexicon, text: str, defect: str, seed: int) -> None:
    wrong = mistyped(text, random.Random(seed))
    assert defect in [match.id for match in rank_defects(words, wrong)[:3]]


@pytest.mark.parametrize(("text", "defects"), SEVERAL.items())
def test_several_defects_are_told_apart(words: Lexicon, text: str, defects: set[str]) -> None:
    assert {match.id for match in understand(words, text).defects} == defects


def test_the_order_of_clauses_changes_nothing(words: Lexicon) -> None:
    one = understand(words, "the paper sticks, the blacks look brown")
    other = understand(words, "the blacks look brown, the paper sticks")
    assert {match.id for match in one.defects} == {match.id for match in other.defects}


@pytest.mark.parametrize(("one", "many"), [("a white dot", "white dots"), ("brown mark", "brown marks")])
def test_plurals_change_nothing(words: Lexicon, one: str, many: str) -> None:
    assert best(words, one) == best(words, many)


def test_what_is_denied_is_not_seen(words: Lexicon) -> None:
    understood = understand(words, "no ghost, not blurred, but pale")
    assert [match.id for match in understood.defects] == ["faint-colour"]
    assert set(understood.not_seen) == {"ghosting", "blurred-edges"}


@pytest.mark.parametrize(
    ("text", "seen", "not_seen"),
    [
        ("no blotches", (), {"blotches"}),
        ("dull colours but no ghosting", ("faint-colour",), {"ghosting"}),
        ("pale but no ghost", ("faint-colour",), {"ghosting"}),
        ("nothing doubled", (), {"ghosting"}),
        ("not blurred", (), {"blurred-edges"}),
        ("without any banding", (), {"banding"}),
        ("no sign of ghosting", (), {"ghosting"}),
        ("ghosting is not there", (), {"ghosting"}),
        ("no press-box but faint-colour", ("faint-colour",), {"press-box"}),
        ("neither pale nor blurred", (), {"faint-colour", "blurred-edges"}),
        ("no white specks or creases", (), {"white-specks", "creases"}),
        ("pale, not blotchy, not banded", ("faint-colour",), {"blotches", "banding"}),
        ("colours fine, no banding", (), {"banding"}),
    ],
)
def test_a_denied_thing_is_never_seen_nor_taken_for_another(
    words: Lexicon, text: str, seen: tuple[str, ...], not_seen: set[str]
) -> None:
    understood = understand(words, text)
    assert (tuple(match.id for match in understood.defects), set(understood.not_seen)) == (seen, not_seen)
    assert not not_seen & {match.id for match in rank_defects(words, text)}


def test_what_has_not_faded_is_not_pale(words: Lexicon) -> None:
    understood = understand(words, "isn't faded")
    assert understood.defects == ()
    assert understood.not_seen


def test_a_denied_virtue_is_a_fault(words: Lexicon) -> None:
    understood = understand(words, "the edges are not sharp")
    assert [match.id for match in understood.defects] == ["blurred-edges"]
    assert understood.not_seen == ()


def test_ids_are_always_understood(words: Lexicon) -> None:
    understood = understand(words, "Faint-colour and no-transfer.")
    assert [(match.id, match.score) for match in understood.defects] == [
        ("faint-colour", CERTAIN),
        ("no-transfer", CERTAIN),
    ]


def test_the_words_that_led_there_are_shown(words: Lexicon) -> None:
    (match,) = understand(words, "The fleece is flattned").defects
    assert match.because == ("fleece", "flattned")


def test_an_answer_to_a_check_is_heard_without_a_defect(words: Lexicon) -> None:
    understood = understand(words, "the platen reads low on the probe")
    assert [told[:2] for told in understood.outcomes] == [("probe-the-platen", "reads-low")]
    assert understood.defects == ()


def test_item_and_defect_are_told_together(words: Lexicon) -> None:
    understood = understand(words, "black polyester t-shirt, the print is crooked")
    assert understood.item is not None
    assert (understood.item.id, understood.item.facts["item.colour"]) == ("t-shirt-polyester", "black")
    assert [match.id for match in understood.defects] == ["crooked-placement"]


def test_what_leads_nowhere_is_handed_back(words: Lexicon) -> None:
    assert understand(words, "pale, xylophonquix").not_understood == ("xylophonquix",)


@pytest.mark.parametrize("text", ["", "   ", "hello, can you help me please", "?!"])
def test_words_without_meaning_name_nothing(words: Lexicon, text: str) -> None:
    assert understand(words, text).defects == ()


IDLE = yaml.safe_load((SENTENCES / "idle.yaml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("text", ["wibble wobble", "harbour thing", "it looks bad", "hello", "my dog ate it"])
def test_nonsense_names_nothing_and_is_handed_back(words: Lexicon, text: str) -> None:
    understood = understand(words, text)
    assert understood.defects == ()
    assert understood.not_understood == (text,)


def test_idle_talk_names_nothing(words: Lexicon) -> None:
    named = [text for text in IDLE if understand(words, text).defects]
    assert len(named) <= len(IDLE) * 0.05, named
    assert [text for text in IDLE if understand(words, text).outcomes] == []


def test_hardly_any_sentence_about_a_fault_is_taken_for_idle_talk(words: Lexicon) -> None:
    sentences = told("paraphrases-tuning.yaml")
    assert sum(not understand(words, text).defects for _, text in sentences) < len(sentences) * 0.02


def test_every_name_leads_to_its_own_defect(words: Lexicon) -> None:
    knowledge = words.knowledge
    named = [(name, text) for name, defect in knowledge.defects.items() for text in (defect.title, *defect.said)]
    named += [(name, text) for name in knowledge.defects for text in knowledge.words[name].members]
    named += [(name, text) for name, texts in knowledge.heard.items() for text in texts]
    assert [text for name, text in named if words.whole(f" {text.upper()}!") != name] == []
    few = named[::50]
    assert [text for name, text in few if understand(words, text).defects[0].id != name] == []
    assert [text for name, text in few if rank_defects(words, text)[0].id != name] == []


@pytest.mark.parametrize(
    ("text", "defect"),
    [
        ("White specks", "white-specks"),
        ("a white speck.", "white-specks"),
        ("white dots everywhere", "white-specks"),
        ("patchy", "blotches"),
        ("it is patchy", "blotches"),
        ("white lines through the picture", "banding"),
        ("the print is pale", "faint-colour"),
        ("the mug is pale", "faint-colour"),
        ("pale mug", "faint-colour"),
    ],
)
def test_short_texts(words: Lexicon, text: str, defect: str) -> None:
    assert [match.id for match in understand(words, text).defects] == [defect]


@pytest.mark.parametrize("text", ["there is a second copy", "the greys look purple", "open the window"])
def test_an_outcome_in_passing_must_be_beyond_doubt(words: Lexicon, text: str) -> None:
    assert understand(words, text).outcomes == ()


@settings(max_examples=60, deadline=None)
@given(st.text(max_size=200))
def test_any_text_gives_a_result(words: Lexicon, text: str) -> None:
    understood = understand(words, text)
    ids = [match.id for match in understood.defects]
    assert len(ids) == len(set(ids))
    assert not set(ids) & set(understood.not_seen)


@settings(max_examples=60, deadline=None)
@given(st.lists(st.sampled_from("not no pale ghost , and but print corner washed tape box 65/35 mug blurrred".split())))
def test_any_words_give_the_same_result_twice(words: Lexicon, pieces: list[str]) -> None:
    text = " ".join(pieces)
    assert understand(words, text) == understand(words, text)


def test_a_very_long_text_is_answered(words: Lexicon) -> None:
    assert understand(words, "the print is pale, " * 5000).defects[0].id == "faint-colour"
