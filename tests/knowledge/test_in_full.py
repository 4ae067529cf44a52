"""What a file says once, or in short, is read as if it were written out, and stands where it comes from."""

from typing import Any

from diagnose.knowledge.documents.document import Document
from diagnose.knowledge.documents.in_full import in_full
from diagnose.knowledge.documents.schema_check import Kind, check_structure
from diagnose.knowledge.documents.yaml_text import read_yaml

HEAD = "adds-to: haze\nstatus: trial\ndate: 2026-11-24\n"
SHORT = (
    HEAD
    + """usual-basis: common practice
look-alikes:
  shine: Shine lies on cloth.
rules:
  - by: {fan-on: likely}
    why: It blows.
  - by: {door-open: even}
    why: So does this.
    basis: [en-1, common practice]
cases:
  - story: One was hazy.
    first: fan-on
"""
)
LONG = (
    HEAD
    + """look-alikes:
  - defect: shine
    tell: Shine lies on cloth.
rules:
  - cause: fan-on
    brings: likely
    why: It blows.
    basis: common practice
  - cause: door-open
    brings: even
    why: So does this.
    basis: [en-1, common practice]
cases:
  - story: One was hazy.
    saw: [haze]
    first: fan-on
"""
)


def read(text: str, kind: Kind) -> tuple[Document, list[str]]:
    document, problems = read_yaml(text.encode(), "haze.yaml")
    assert document is not None
    document, more = check_structure(document, kind)
    return document, [str(problem) for problem in (*problems, *more)]


def value(text: str, kind: Kind = "rule") -> Any:
    document, problems = read(text, kind)
    assert problems == []
    assert isinstance(document.value, dict)
    return {key: each for key, each in document.value.items() if key != "usual-basis"}


def test_short_and_long_say_the_same() -> None:
    assert value(SHORT) == value(LONG)


def test_what_is_written_out_is_written_out_once() -> None:
    document, _ = read(SHORT, "rule")
    assert in_full(document, "rule") == document


def test_what_is_written_out_stands_where_it_comes_from() -> None:
    document, _ = read(SHORT, "rule")
    places = {
        ("usual-basis",): 4,
        ("rules", 0, "basis"): 4,
        ("look-alikes", 0, "defect"): 6,
        ("rules", 0, "cause"): 8,
        ("rules", 0, "brings"): 8,
        ("rules", 1, "basis"): 12,
        ("cases", 0, "saw"): 1,
    }
    assert {path: document.value_place(path).line for path in places} == places
    assert document.value_place(("rules", 0, "cause")).column < document.value_place(("rules", 0, "brings")).column


def test_a_kb_file_says_its_basis_once_and_an_item_its_family() -> None:
    short = """usual-basis: common practice
glossary:
  haze: {term: Haze, means: A veil.}
items:
  flag:
    title: Flag
    family: cloth
    facts: {item.polyester: 100}
    said: [flag]
    blank-price: 1
    test-minutes: 1
    basis: en-1
"""
    whole = value(short, "kb")
    assert whole["glossary"]["haze"]["basis"] == "common practice"
    assert whole["items"]["flag"]["basis"] == "en-1"
    assert whole["items"]["flag"]["facts"] == {"item.family": "cloth", "item.polyester": 100}


def test_without_a_usual_basis_each_names_its_own() -> None:
    _, problems = read(SHORT.replace("usual-basis: common practice\n", ""), "rule")
    assert [problem.split(" - ")[0] for problem in problems] == ['haze.yaml:7:5: the key "basis" is missing']


def test_a_rule_is_brought_on_by_one_cause_told_in_one_way() -> None:
    two = SHORT.replace("{fan-on: likely}", "{fan-on: likely, fan-off: even}")
    _, problems = read(two, "rule")
    assert problems == ["haze.yaml:8:9: a mapping of 2 - expected at most 1"]
    both = SHORT.replace("  - by: {fan-on: likely}\n", "  - by: {fan-on: likely}\n    brings: even\n")
    _, problems = read(both, "rule")
    assert problems == ['haze.yaml:9:5: the key "brings" - expected no such key beside by']


def test_a_broken_look_alike_leaves_the_others_readable() -> None:
    document, problems = read(SHORT.replace("rules:\n", "  cracking: [so]\nrules:\n"), "rule")
    assert len(problems) == 1
    assert document.broken == {("look-alikes", "cracking"), ("look-alikes", 1)}


def test_what_a_fact_may_be_by_the_whole_file_is_said_of_each_item_that_is_silent() -> None:
    item = "    title: {0}\n    family: cloth\n    facts: {{{1}}}\n    said: [{0}]\n"
    item += "    blank-price: 1\n    test-minutes: 1\n"
    head = "usual-basis: common practice\nusual-may-be:\n  item.polyester: [{is: 65, turns-up: rarely}]\n"
    head += "usual-facts: {press.kind: clamshell, item.hard: false}\nitems:\n"
    own = "    may-be: {item.polyester: [{is: 0, turns-up: rarely}]}\n"
    facts = {"flag": "item.polyester: 100", "blend": "item.polyester: 65", "tile": "item.hard: true"}
    items = {name: f"  {name}:\n" + item.format(name, told) for name, told in facts.items()}
    short = head + "".join(items.values()) + items["flag"].replace("flag", "shirt") + own
    whole = value(short, "kb")
    assert not {"usual-may-be", "usual-facts"} & set(whole)
    told = {"item.family": "cloth", "item.hard": True, "press.kind": "clamshell"}
    assert whole["items"]["tile"]["facts"] == told
    assert whole["items"]["flag"]["may-be"] == {"item.polyester": [{"is": 65, "turns-up": "rarely"}]}
    assert whole["items"]["blend"]["may-be"] == {"item.polyester": []}
    assert "may-be" not in whole["items"]["tile"]
    assert whole["items"]["shirt"]["may-be"] == {"item.polyester": [{"is": 0, "turns-up": "rarely"}]}
    document, _ = read(short, "kb")
    assert document.value_place(("items", "flag", "may-be", "item.polyester", 0)).line == 3


def test_what_is_amiss_with_what_a_fact_may_be_is_said_once() -> None:
    broken = "usual-may-be: {item.polyester: [{is: 65}]}\n"
    item = "items:\n  flag:\n    title: Flag\n    family: cloth\n    facts: {item.polyester: 100}\n    said: [flag]\n"
    document, problems = read(broken + item + "    blank-price: 1\n    test-minutes: 1\n    basis: en-1\n", "kb")
    assert [problem.split(" - ")[0] for problem in problems] == ['haze.yaml:1:33: the key "turns-up" is missing']
    whole: Any = document.value
    assert "may-be" not in whole["items"]["flag"]
