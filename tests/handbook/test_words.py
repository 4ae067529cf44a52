"""The page reads free words as the command line does."""

import json
import re
from dataclasses import replace
from functools import cache
from typing import Any

import pytest
import yaml
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.dialogue.hearing import hear
from diagnose.dialogue.moves import Saw
from diagnose.foresight.figures_told import figures_told
from diagnose.handbook.page.compiled import compiled
from diagnose.handbook.page.vocabulary import vocabulary
from diagnose.knowledge.loading import shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.words import Lexicon, answer, find_item, nearest, rank_defects, understand
from diagnose.reasoning.words.dangers import dangers
from diagnose.reasoning.words.lexicon import build
from diagnose.reasoning.words.spelling import clauses, fold, is_cut, taken
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.table import WordLayer
from tests.handbook.browser import call, knowledge, shipped_engine
from tests.reasoning.words.hostile import HOSTILE
from tests.words.told import to_tune_by

KNOWN = knowledge()
CRIES = ("dangers.yaml", "dangers-unseen.yaml")  # what people cry out, and what only sounds like it

LOOK = """
var lexicon = new presslore.words.Lexicon(known, presslore.vocabulary);

function withList(item) {
  const facts = item && presslore.numbers.sorted(Array.from(item.facts), (pair) => [pair[0]]);
  return item && [item.id, facts, item.score, item.words, item.refused];
}

function listen(text) {
  const words = presslore.words;
  const all = words.understand(lexicon, text);
  const matches = (each) => each.map((one) => [one.id, one.score, one.because, one.near]);
  const tellings = (each) => each.map((one) => [one.told, one.score, one.because]);
  return JSON.stringify({
    understood: {
      item: withList(all.item),
      defects: matches(all.defects),
      notSeen: all.notSeen,
      answers: tellings(all.answers),
      outcomes: all.outcomes.map((one) => [one.check, one.outcome, one.score]),
      causes: tellings(all.causes),
      elsewhere: all.elsewhere,
      notUnderstood: all.notUnderstood
    },
    ranked: matches(words.rankDefects(lexicon, text)),
    item: withList(words.findItem(lexicon, text)),
    heard: words.hear(lexicon, text),
    units: lexicon.units(words.taken(text)).map((unit) => [unit.words, unit.clause, unit.features, unit.denied])
  });
}

function cries(texts) {
  return JSON.stringify(texts.map(presslore.words.dangers));
}

function reply(check, text) {
  return presslore.words.answer(lexicon, check, text);
}
"""


@cache
def ears() -> Any:
    """The page's engine with its lexicon."""
    world = shipped_engine()
    world.eval(LOOK)
    return world


@cache
def here() -> Lexicon:
    return build(KNOWN)


def _item(found: Any) -> Any:
    if found is None:
        return None
    return [
        found.id,
        [list(pair) for pair in sorted(found.facts.items())],
        found.score,
        list(found.words),
        found.refused,
    ]


def _matches(each: Any) -> list[Any]:
    return [[one.id, one.score, list(one.because), list(one.near)] for one in each]


def _tellings(each: Any) -> list[Any]:
    return [[list(one.told), one.score, one.because] for one in each]


def listened(text: str, lexicon: Lexicon | None = None) -> dict[str, Any]:
    """What the command line makes of a text."""
    lexicon = lexicon or here()
    understood, heard = understand(lexicon, text), hear(lexicon.knowledge, lexicon, text)
    return {
        "understood": {
            "item": _item(understood.item),
            "defects": _matches(understood.defects),
            "notSeen": list(understood.not_seen),
            "answers": _tellings(understood.answers),
            "outcomes": [list(one) for one in understood.outcomes],
            "causes": _tellings(understood.causes),
            "elsewhere": understood.elsewhere,
            "notUnderstood": list(understood.not_understood),
        },
        "ranked": _matches(rank_defects(lexicon, text)),
        "item": _item(find_item(lexicon, text)),
        "heard": {
            "defects": list(heard.defects),
            "notSeen": list(heard.not_seen),
            "answers": [list(pair) for pair in heard.answers],
            "item": heard.item,
            "refused": heard.refused,
            "elsewhere": heard.elsewhere,
            "causes": list(heard.causes),
            "unsure": [
                defect for moves in heard.unsure for move in moves if isinstance(move, Saw) for defect in move.defects
            ],
            "facts": [list(pair) for pair in heard.facts],
            "notUnderstood": list(heard.not_understood),
        },
        "units": [
            [list(unit.words), unit.clause, [list(pair) for pair in unit.features], unit.denied]
            for unit in lexicon.units(taken(text))
        ],
    }


def same(text: str) -> None:
    """To the last digit, and in every word. Figures, a ground colour between commas and what facts beside no item are
    worth are read on this side alone: what is heard is compared without them."""
    found, there = json.loads(json.dumps(listened(text))), json.loads(ears().call("listen", text))
    ahead = figures_told(taken(text)) or any(key.startswith("fact ") for key in hear(KNOWN, here(), text).spoken)
    for each in (found, there):
        if ahead:
            del each["heard"]
        elif not each["heard"]["item"]:
            each["heard"]["facts"] = []
    assert there == found


def test_the_same_words_are_known() -> None:
    known = json.loads(str(ears().eval("JSON.stringify(Array.from(lexicon.speller.known))")))
    assert set(known) == here().speller.known


def _paraphrases() -> list[str]:
    found: list[str] = []
    for file in sorted((shipped_folder() / "tests" / "words").glob("*.yaml")):
        if file.name not in CRIES:
            _collect(yaml.safe_load(file.read_text(encoding="utf-8")), found)
    return found


def _collect(value: Any, found: list[str]) -> None:
    if isinstance(value, str):
        found.append(value)
    elif isinstance(value, list):
        for one in value:
            _collect(one, found)
    elif isinstance(value, dict):
        for one in value.values():
            _collect(one, found)


PARTS = 16  # one of them daily


@pytest.mark.parametrize("part", [0, *(pytest.param(part, marks=pytest.mark.thorough) for part in range(1, PARTS))])
def test_paraphrases_are_understood_alike(part: int) -> None:
    for text in _paraphrases()[part::PARTS]:
        same(text)


@pytest.mark.parametrize("part", [0, *(pytest.param(part, marks=pytest.mark.thorough) for part in range(1, PARTS))])
def test_whole_messages_are_understood_alike(part: int) -> None:
    said = to_tune_by()
    assert len(said) > 400
    for message in said[part::4]:
        same(message.text)


def test_answers_causes_doubts_and_what_lies_elsewhere_are_told_alike() -> None:
    texts = [message.text for message in to_tune_by()[::4]]
    understood = [understand(here(), text) for text in texts]
    for kind in ("answers", "causes", "elsewhere", "not_seen"):
        telling = [text for text, each in zip(texts, understood, strict=True) if getattr(each, kind)]
        assert telling, kind
        for text in telling[:3]:
            same(text)
    unsure = [text for text, each in zip(texts, understood, strict=True) if any(one.near for one in each.defects)]
    assert unsure
    for text in unsure[:3]:
        same(text)


OWN = """
function ofShop(packed, vocabulary, texts) {
  const own = new presslore.words.Lexicon(presslore.unpack(packed), vocabulary);
  const before = lexicon;
  lexicon = own;
  const found = texts.map((text) => JSON.parse(listen(text)));
  const told = (layer) => [layer.classes, layer.bias, Array.from(layer.extra, ([one, by]) => [one, Array.from(by)])];
  const layers = [told(own.sights), told(own.answers)];
  lexicon = before;
  return JSON.stringify({ found, layers });
}
"""


def _of_shop() -> Knowledge:
    """What ships, with a defect and a check of a shop's own."""
    defect = next(iter(KNOWN.defects.values()))
    own = replace(defect, id="fish-scales", title="Fish scales", said=("scaly, like a fish", "flakes on 5 of them"))
    check = replace(next(iter(KNOWN.checks.values())), id="look-for-scales")
    heard = {
        **KNOWN.heard,
        "defect fish-scales": ("It looks like the skin of a carp.", "Scaly as a lizard, and not blurred"),
        "defect ghosting": ("seeing it twice over",),
        f"answer look-for-scales {check.outcomes[0].id}": ("the scales come off in the wash",),
        f"cause {next(iter(KNOWN.causes))}": ("somebody swapped the fish glue",),
    }
    return replace(
        KNOWN,
        defects={**KNOWN.defects, own.id: own},
        checks={**KNOWN.checks, check.id: check},
        heard=heard,
    )


OF_SHOP = (
    "it is all scaly like a carp",
    "fish scales",
    "flakes on 5 of them and it is pale",
    "seeing it twice over",
    "no fish scales but blurred",
    "the scales come off in the wash",
    "somebody swapped the fish glue",
    "scaly, like a fish, not blurred",
)


def test_what_a_shop_has_of_its_own_is_heard_alike() -> None:
    known = _of_shop()
    own = build(known)
    world = ears()
    world.eval(OWN)
    there = json.loads(world.call("ofShop", compiled(known, Shop()), vocabulary(known), OF_SHOP))
    for text, found in zip(OF_SHOP, there["found"], strict=True):
        assert found["understood"] == json.loads(json.dumps(listened(text, own)["understood"]))
    assert [_layer(layer) for layer in there["layers"]] == [_told(layer) for layer in (own.sights, own.answers)]
    assert any("fish-scales" in [one[0] for one in each["understood"]["defects"]] for each in there["found"])


def _told(layer: WordLayer) -> Any:
    return _layer([layer.classes, layer.bias, [[one, list(by.items())] for one, by in layer.extra.items()]])


def _layer(layer: Any) -> Any:
    """Features in any order."""
    classes, bias, extra = layer
    return list(classes), list(bias), {one: dict(by) for one, by in extra}


def test_dangers_are_heard_alike() -> None:
    texts: list[str] = list(HOSTILE)
    for cries in CRIES:
        _collect(yaml.safe_load((shipped_folder() / "tests" / "words" / cries).read_text(encoding="utf-8")), texts)
    texts += [name for defect in KNOWN.defects.values() for name in defect.said]
    here = [list(dangers(text)) for text in texts]
    there = json.loads(ears().call("cries", texts))
    assert [each for each in zip(texts, here, there, strict=True) if each[1] != each[2]] == []


def test_a_shops_own_danger_is_heard_on_the_page() -> None:
    known = replace(KNOWN, dangers={"tips": replace(KNOWN.dangers["gas"], id="tips", said=("the forklift tips over",))})
    assert [one["said"] for one in compiled(known, Shop())["dangers"]] == [["the forklift tips over"]]
    assert {"said": []}.items() <= {"said": [], **compiled(KNOWN, Shop())["dangers"][0]}.items()
    heard = "presslore.words.alarm(own, text).id"
    look = f"(function (packed, text) {{ var own = presslore.unpack(packed); return {heard}; }})"
    ears().eval(f"var ownAlarm = {look}")
    assert ears().call("ownAlarm", compiled(known, Shop()), "The forklift tips over!") == "tips"


TURNS_OF_PHRASE = {
    "ids told and denied": (
        "Faint-colour and no-transfer.",
        "no press-box but faint-colour",
        "ghosting is not there",
        "ghosting not seen on the second one",
        "no sharp ghosting",
    ),
    "things denied": (
        "no ghost, not blurred, but pale",
        "neither pale nor blurred",
        "no white specks or creases",
        "nothing doubled",
        "no sign of ghosting",
        "without any banding",
        "colours fine, no banding",
        "isn't faded",
    ),
    "lacks that are faults": (
        "the edges are not sharp",
        "nothing transferred, the mug is still blank",
        "one ink did not come",
        "the picture never developed",
    ),
    "items by name, by slip and by material": (
        "65/35 tea towel",
        "100% cotton t-shirt",
        "Cotton T-Shirts",
        "tea towel with cotton",
        "polyester socks",
        "cotton cushion cover",
        "65/35 polyester cotton tea towl",
        "30 % cotton tea towel",
        "black polyester tee",
        "65/35 polyester cotton",
        "wool scarf",
        "silk scarf",
        "white silk look scarf",
        "scarf of silk",
        "mug with a leather handle",
        "70% wool 30% polyester scarf",
        "leather look keyring",
        "socks, bamboo",
        "a mug for the fete",
    ),
    "items in passing": (
        "pale mug",
        "the mug is pale",
        "my silk scarf is pale",
        "PVC-coated polyester banner",
        "polyester banner with a pvc coating",
        "polyester flags are pale, the vinyl coated hook is fine",
        "the PVC-coated polyester banner is pale",
        "our polyester banner coated with pvc is pale",
        "my PVC-free flag is pale",
        "the print on a wool scarf is pale",
        "the scarf of silk is pale",
        "the print on my scarf shines like silk",
        "my silk look scarf is pale",
        "the mog is pale",
        "the flg is pale",
        "the cushon cover is pale",
        "black polyester t-shirt, the print is crooked",
        "print is pale on my 65/35 cotton tea towel",
        "tea towel 65 polyester 35 cotton, blurred",
    ),
    "outcomes in passing": (
        "the platen reads low on the probe",
        "there is a second copy",
        "pale, the platen reads low",
    ),
    "words left over": (
        "pale, xylophonquix",
        "the print is pale. the picture looks weak and xylophonquix",
        "wibble wobble",
        "harbour thing",
        "my dog ate it",
    ),
    "words too few or said too often": ("patchy", "it is patchy", "pale pale pale pale", "?!", ""),
}


@pytest.mark.parametrize("texts", TURNS_OF_PHRASE.values(), ids=TURNS_OF_PHRASE)
def test_turns_of_phrase_are_understood_alike(texts: tuple[str, ...]) -> None:
    for text in texts:
        same(text)


NAMES = [
    *(name for defect in KNOWN.defects.values() for name in (defect.title, *defect.said)),
    *(name for item in KNOWN.items.values() for name in (item.title, *item.said)),
    *(o.looks for check in KNOWN.checks.values() for o in check.outcomes),
    *KNOWN.defects,
]
ODD = [
    "not",
    "no",
    "and",
    "afraid of",
    "do not tell me",
    "there is none",
    "?",
    "nope",
    ",",
    ".",
    "65/35",
    "polyester cotton",
    "half and half",
    "5 mm thick",
    "on black",
    "uncoated",
]
signs = st.text(alphabet="abdeghilnorst 0159%/.,;-–'’éß\n\u0301\U0001f375", max_size=12)
clauses_told = [clause for message in to_tune_by() for clause in re.split("[.,;]", message.text)]
pieces = st.sampled_from(NAMES) | st.sampled_from(clauses_told) | st.sampled_from(ODD) | signs


@st.composite
def texts(draw: st.DrawFn) -> str:
    """Names, odd words and signs side by side, with some letters swapped or lost."""
    text = " ".join(draw(st.lists(pieces, max_size=5)))
    for _ in range(draw(st.integers(0, 3))):
        at = draw(st.integers(0, max(0, len(text) - 2)))
        text = draw(st.sampled_from((text[:at] + text[at + 1 :], text[:at] + text[at : at + 2][::-1] + text[at + 2 :])))
    return text


@settings(max_examples=150, deadline=None)
@given(text=texts())
def test_any_text_is_understood_alike(text: str) -> None:
    same(text)


@pytest.mark.thorough
@settings(max_examples=500, deadline=None)
@given(text=texts())
def test_many_texts_are_understood_alike(text: str) -> None:
    same(text)


@settings(max_examples=150, deadline=None)
@given(check=st.sampled_from(list(KNOWN.checks.values())), text=texts(), number=st.integers(0, 20))
def test_replies_are_taken_alike(check: Any, text: str, number: int) -> None:
    said = [name for outcome in check.outcomes for name in (outcome.looks, *outcome.said)]
    for reply in (text, said[number % len(said)]):
        assert ears().call("reply", check.id, reply) == answer(here(), check.id, reply)


@settings(max_examples=200, deadline=None)
@given(text=st.text(max_size=20) | texts())
def test_texts_are_cut_alike(text: str) -> None:
    plain = "".join(sign for sign in fold(text) if sign.isascii() and (sign.isalnum() or sign in ".,;:!?()"))
    found = call("words.fold", text)
    assert "".join(sign for sign in found if sign.isascii() and (sign.isalnum() or sign in ".,;:!?()")) == plain
    assert call("words.clauses", text) == [{"text": word.text, "clause": word.clause} for word in clauses(text)]


BLANK = (
    "65" + " " * 1000 + "x",
    "\u00a8" * 1500,
    "a\x1c\x85\ufeff b",
    "\n \r\n\t pale \u2028 x",
    "e\u0301" * 1500,
    "\U0001f455 " * 1001,
)


@settings(max_examples=150, deadline=None)
@given(text=st.sampled_from(BLANK) | st.text(" \n\t\u00a8\u00a0\u0301aé", max_size=40) | texts())
def test_texts_are_taken_alike(text: str) -> None:
    assert call("words.taken", text) == taken(text)
    assert call("words.isCut", text) == is_cut(text)


@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: repr(text[:12]))
def test_hostile_words_are_read_alike_and_in_a_moment(text: str) -> None:
    same(text)


def test_stems_are_alike() -> None:
    words = sorted(here().speller.known)
    found = json.loads(str(ears().eval(f"JSON.stringify({json.dumps(words)}.map(presslore.words.stem))")))
    assert found == [stem(word) for word in words]


@settings(max_examples=100, deadline=None)
@given(names=st.lists(st.sampled_from([*KNOWN.defects, *KNOWN.items]), max_size=12), text=texts())
def test_did_you_mean_is_alike(names: list[str], text: str) -> None:
    for wanted in (text, *(name[1:] + name[:1] for name in names[:2]), *(name[:-2] for name in names[:2])):
        assert call("words.nearest", names, wanted) == nearest(names, wanted)
