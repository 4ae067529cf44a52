"""What the pages say: everything that is known, each thing linked both ways, cautions before steps."""

import re
from dataclasses import replace
from typing import Any

import pytest

from diagnose.handbook.book import LOOSER, SHORT, Handbook
from diagnose.handbook.links import address, pair_address
from diagnose.handbook.pages import settings
from diagnose.handbook.phrases import condition, source_line
from diagnose.handbook.site import site
from diagnose.handbook.slips import slips
from diagnose.handbook.text import plain
from diagnose.knowledge.conditions import Condition, Test
from diagnose.knowledge.model import THIS_SHOP, Knowledge, Settings
from diagnose.knowledge.shop import Shop
from diagnose.knowledge.taken import TakenBundle
from diagnose.knowledge.ways import seen, ways
from diagnose.problems import Place, PressloreError
from diagnose.speech.amounts import degrees_between, seconds_between

KINDS = ("defects", "causes", "checks", "fixes", "items", "care")
LEAST_LOOSER = 30  # ways of telling of a defect on its page, beside its names


def text(files: dict[str, bytes], path: str) -> str:
    return files[path].decode()


@pytest.mark.parametrize("kind", KINDS)
def test_everything_has_a_page_and_stands_in_its_list(kind: str, files: dict[str, bytes], known: Knowledge) -> None:
    entries: dict[str, Any] = getattr(known, kind)
    index = text(files, address(kind))
    for entry in entries.values():
        page = text(files, address(kind, entry.id))
        assert f"# {plain(entry.title)}" in page
        assert source_line(entry.place) in page
        assert f"]({entry.id}.md)" in index


def test_rules_link_both_ways_and_name_their_line(files: dict[str, bytes], known: Knowledge) -> None:
    for defect in known.defects.values():
        page = text(files, address("defects", defect.id))
        for rule in defect.rules:
            assert f"](../causes/{rule.cause}.md)" in page
            assert f"<code>rules/{defect.id}.yaml:{rule.place.line}</code>" in page
            assert plain(rule.why) in page
            cause = text(files, address("causes", rule.cause))
            assert f"](../defects/{defect.id}.md)" in cause
            assert f"<code>rules/{defect.id}.yaml:{rule.place.line}</code>" in cause


def test_a_defects_page_names_what_people_call_it_the_shops_words_first(known: Knowledge) -> None:
    """Names, then short ways of saying it; what takes a whole sentence names nothing."""
    shipped = [way for way in ways(known)[seen("ghosting")] if len(way.split()) <= SHORT]
    own = ("Text has an echo.", "he printed it drunk", "as if the whole thing had been laid down once more")
    names = Handbook(replace(known, heard={seen("ghosting"): own})).names(known.defects["ghosting"])
    said = len(known.defects["ghosting"].said)
    assert names[:said] == known.defects["ghosting"].said
    assert names.index("he printed it drunk") < names.index("pale twin")
    assert own[2] not in names
    assert len(names) == len(set(names))
    assert set(shipped) <= set(names)


def test_however_much_a_shop_says_a_page_shows_only_so_much(known: Knowledge) -> None:
    own = tuple(f"copy {number}" for number in range(5000))
    names = Handbook(replace(known, heard={seen("ghosting"): own})).names(known.defects["ghosting"])
    assert own[LOOSER - 1] in names
    assert own[LOOSER] not in names


def test_what_people_call_a_defect_stands_on_its_page(
    files: dict[str, bytes], known: Knowledge, book: Handbook
) -> None:
    for defect in known.defects.values():
        page = text(files, address("defects", defect.id))
        assert [name for name in book.names(defect) if plain(name) not in page] == []
        assert len(book.names(defect)) > len(defect.said) + LEAST_LOOSER


def test_checks_and_fixes_link_both_ways(files: dict[str, bytes], known: Knowledge) -> None:
    for check in known.checks.values():
        page = text(files, address("checks", check.id))
        for cause in {cause for outcome in check.outcomes for cause in outcome.shows}:
            assert f"](../causes/{cause}.md)" in page
            assert f"](../checks/{check.id}.md)" in text(files, address("causes", cause))
    for fix in known.fixes.values():
        page = text(files, address("fixes", fix.id))
        for cause in fix.cures:
            assert f"](../causes/{cause}.md)" in page
            assert f"](../fixes/{fix.id}.md)" in text(files, address("causes", cause))


def test_cautions_stand_before_steps(files: dict[str, bytes], known: Knowledge) -> None:
    for kind, heading in (("fixes", "## Steps"), ("checks", "## How"), ("items", "## How it is pressed")):
        entries: dict[str, Any] = getattr(known, kind)
        for entry in entries.values():
            page = text(files, address(kind, entry.id))
            for caution in entry.cautions:
                told = page.index(plain(known.cautions[caution].text))
                assert told < (page.index(heading) if heading in page else len(page))


def test_wherever_a_step_is_named_its_cautions_are(files: dict[str, bytes], known: Knowledge) -> None:
    page = text(files, address("defects", "ghosting"))
    for fix in known.fixes.values():
        if (at := page.find(f"](../fixes/{fix.id}.md)** (")) >= 0:
            after = page[at : page.index("\n- ", at) if "\n- " in page[at:] else len(page)]
            assert all(f"cautions.md#{caution}" in after for caution in fix.cautions)


def test_a_defects_page_says_what_becomes_of_the_spoiled_piece(files: dict[str, bytes], known: Knowledge) -> None:
    for defect in known.defects:
        page = files[f"defects/{defect}.md"].decode()
        told = page.split("## The spoiled piece")[1].split("\n## ")[0]
        entries = [each for each in known.salvage.values() if defect in each.defects]
        assert told.count("**Press it again**") == told.count("**Sell it as a second**") == len(entries) > 0
        assert all(plain(way.says) in told for each in entries for way in each.ways.values())
        assert all(f"cautions.md#{caution}" in told for each in entries for caution in each.cautions)
    assert "marks-in-cloth" not in files["defects/press-box.md"].decode()


def test_causes_come_with_their_chance_the_likeliest_first(files: dict[str, bytes], book: Handbook) -> None:
    page = text(files, address("defects", "ghosting"))
    ranked = [cause for cause, _ in book.behind("ghosting")]
    places = [page.index(f"**[{plain(book.title('causes', cause))}]") for cause in ranked]
    assert places == sorted(places)
    chances = [chance for _, chance in book.behind("ghosting")]
    assert chances == pytest.approx(sorted(chances, reverse=True))
    assert sum(chances) > 0.9


def test_look_alikes_have_a_page_for_each_pair(files: dict[str, bytes], known: Knowledge) -> None:
    pairs = {pair_address(d.id, alike.defect) for d in known.defects.values() for alike in d.look_alikes}
    assert pairs == {path for path in files if path.startswith("apart/") and path != "apart/index.md"}
    for defect in known.defects.values():
        for alike in defect.look_alikes:
            page = text(files, pair_address(defect.id, alike.defect))
            assert plain(alike.tell) in page
            assert f"](../defects/{defect.id}.md)" in page
            assert f"](../defects/{alike.defect}.md)" in page
            for one in (defect.id, alike.defect):
                assert pair_address(defect.id, alike.defect).split("/")[1] in text(files, address("defects", one))


def test_every_picture_has_words(files: dict[str, bytes], known: Knowledge) -> None:
    for defect in known.defects:
        assert f"pictures/{defect}.svg" in files
        found = re.search(r'<img src="\.\./pictures/[^"]+" alt="([^"]+)"', text(files, address("defects", defect)))
        assert found
        assert len(found[1]) > 20


def test_sources_say_what_rests_on_them(files: dict[str, bytes], known: Knowledge) -> None:
    page = text(files, "sources.md")
    for source in known.sources:
        assert f"{{ #{source} }}" in page
    for defect in known.defects.values():
        for rule in defect.rules:
            for source in set(rule.basis) & set(known.sources):
                part = page[page.index(f"{{ #{source} }}") :].split("\n## ")[0]
                assert f"](causes/{rule.cause}.md)" in part
                assert f"](defects/{defect.id}.md)" in part


def test_lessons_end_in_questions_from_worked_cases(files: dict[str, bytes]) -> None:
    lessons = [path for path in files if path.startswith("lessons/") and path != "lessons/index.md"]
    assert 6 <= len(lessons) <= 8
    for path in lessons:
        page = text(files, path)
        assert 2 <= page.count("<summary>What was it, and why?</summary>") <= 3
        assert "<!--" not in page
        assert "`" not in page[page.rindex("\nBasis: ") :]  # every source that is named is known
        assert f"]({path.split('/')[1]})" in text(files, "lessons/index.md")


@pytest.mark.parametrize(
    ("written", "complaint"),
    [
        ("ghosting#99", "has [0-9]+ of them"),
        ("ghosting", "expected a defect and a number"),
    ],
)
def test_a_question_that_is_none_is_named(known: Knowledge, written: str, complaint: str) -> None:
    docs = {"lessons/1-x.md": f"# X\n\n<!-- questions: {written} -->\n".encode()}
    with pytest.raises(PressloreError, match=rf"docs/lessons/1-x\.md: .*{complaint}"):
        site(known, Shop(), "", docs)


def test_a_lesson_outlives_a_defect_that_a_shop_retired(known: Knowledge) -> None:
    docs = {"lessons/1-x.md": b"# X\n\nSee [a gone one](../defects/gone.md).\n\n<!-- questions: gone#1 -->\n"}
    page = text(site(known, Shop(), "", docs), "lessons/1-x.md")
    assert "See a gone one." in page
    assert "gone.md" not in page


def test_settings_in_both_units_the_shops_own_first(book: Handbook) -> None:
    [celsius] = settings.leaves(book)
    [fahrenheit] = settings.leaves(replace(book, shop=Shop(temperature="F")))
    assert "193–200 °C (379–392 °F)" in "\n".join(celsius.lines)
    assert "379–392 °F (193–200 °C)" in "\n".join(fahrenheit.lines)
    for item in book.knowledge.items.values():
        assert (f"items/{item.id}.html" in "\n".join(celsius.lines)) == (item.settings is not None)


def test_units() -> None:
    assert degrees_between((196, 204), Shop().temperature) == "196–204 °C (385–399 °F)"
    assert seconds_between((45, 60)) == "45–60 s"
    assert seconds_between((240, 420)) == "240–420 s (4–7 min)"


def test_before_you_press_speaks_of_every_family(files: dict[str, bytes], known: Knowledge) -> None:
    page = text(files, "before.md")
    assert page.index("burns at a touch") < page.index("## Every time")
    for family in {item.family for item in known.items.values()}:
        assert f"{{ #{family} }}" in page


def test_the_wall_chart_shows_the_six_commonest(files: dict[str, bytes], book: Handbook) -> None:
    page = text(files, "wall.md")
    assert page.count("<section>") == 6
    for defect in book.by_commonness[:6]:
        assert f"defects/{defect}.html" in page


def test_what_changed_is_the_changelog(known: Knowledge) -> None:
    page = text(site(known, Shop(), "# Changelog\n\nNewest first.\n\n## 1.0\n\n- A change.\n", {}), "changes.md")
    assert "# What changed\n\nNewest first.\n\n## 1.0\n\n- A change.\n" in page


def test_names_and_slips_stand_on_the_page(files: dict[str, bytes], known: Knowledge, book: Handbook) -> None:
    page = text(files, address("defects", "ghosting"))
    for name in known.defects["ghosting"].said:
        assert plain(name) in page
    assert {"ghosing", "ghosts"} <= set(slips(known.defects["ghosting"], book))
    assert "toned down" in text(files, address("defects", "faint-colour"))


def test_no_slip_is_a_word_of_another_defect(known: Knowledge, book: Handbook) -> None:
    for defect in known.defects.values():
        others = {word for word in slips(defect, book) if word in book.vocabulary and not word.endswith("s")}
        assert others == set()


def test_a_shops_own_is_marked_and_shown_with_its_line(known: Knowledge) -> None:
    defect = known.defects["ghosting"]
    rule = replace(defect.rules[0], origin=THIS_SHOP, place=Place("/home/somebody/shop/rules/ghosting.yaml", 7, 3))
    own = replace(known, defects={**known.defects, "ghosting": replace(defect, rules=(rule, *defect.rules[1:]))})
    page = text(site(own, Shop(), "", {}), address("defects", "ghosting"))
    assert "<code>rules/ghosting.yaml:7</code> (this shop)" in page
    assert "/home" not in page


def test_what_came_in_a_bundle_says_whose_it_is(known: Knowledge) -> None:
    origin = TakenBundle(folder="taken-1", name="The quay", digest="0" * 63 + "7").origin
    defect = known.defects["ghosting"]
    rule = replace(defect.rules[0], origin=origin, status="trial", place=Place("/x/rules/taken-1/ghosting.yaml", 7, 3))
    cause = replace(known.causes[rule.cause], origin=origin)
    taken = replace(
        known,
        defects={**known.defects, "ghosting": replace(defect, rules=(rule, *defect.rules[1:]))},
        causes={**known.causes, cause.id: cause},
    )
    files = site(taken, Shop(), "", {})
    assert "(the bundle 0000-0000-0000-0000-0007 of “The quay”)" in text(files, address("defects", "ghosting"))
    assert "*From the bundle 0000" in text(files, address("causes", cause.id))


def test_a_condition_is_told_in_words(known: Knowledge, book: Handbook) -> None:
    tests = (Test("item.family", ("cloth", "blend")), Test("item.coated", (True,)))
    assert condition(book, Condition(tests)) == "kind of item: cloth or blend and polymer coating: yes"


def test_an_item_without_settings_has_a_page_all_the_same(known: Knowledge) -> None:
    item = next(iter(known.items.values()))
    assert isinstance(item.settings, Settings)
    bare = replace(known, items={**known.items, item.id: replace(item, settings=None)})
    assert "How it is pressed" not in text(site(bare, Shop(), "", {}), address("items", item.id))
