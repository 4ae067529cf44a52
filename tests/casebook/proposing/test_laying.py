"""What a new rule adds to the shop's files, and that whatever was said comes back from them."""

import difflib
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.entries import entries
from diagnose.casebook.proposing.faults import faults
from diagnose.casebook.proposing.laying import lay
from diagnose.casebook.proposing.trying import attempt
from diagnose.characters import stripped
from diagnose.knowledge.loading import inspect
from diagnose.knowledge.model import THIS_SHOP, Knowledge, Wait
from diagnose.knowledge.shop import Shop
from diagnose.problems import PressloreError
from tests.casebook.proposing.conftest import SAID, SMALLEST, known
from tests.trials import daily

DAY = "2026-11-25"
CAUSE = "piece-comes-cold-from-store"


def written(draft: Draft, knowledge: Knowledge, shop: Path) -> list[str]:
    """The files after the rule is laid in and saved, by their names within the shop's folder."""
    files = lay(entries(draft, knowledge, DAY), shop)
    for file in files:
        file.save()
    return [file.path.relative_to(shop).as_posix() for file in files]


def test_a_new_rule_with_all_that_belongs_to_it(draft: Draft, knowledge: Knowledge, shop: Path) -> None:
    assert written(draft, knowledge, shop) == ["rules/faint-colour.yaml", f"kb/{CAUSE}.yaml"]
    after = known(SMALLEST, shop)
    rule = after.defects["faint-colour"].rules[-1]
    assert (rule.cause, rule.brings.word, rule.status, rule.date) == (CAUSE, "likely", "trial", DAY)
    assert (rule.origin, rule.learned_from, rule.basis) == (THIS_SHOP, ("2026-031",), ("this shop's cases",))
    assert [test.written for test in rule.condition.tests] == [">= 50"]
    assert after.causes[CAUSE].turns_up.word == "rarely"
    assert after.fixes["bring-pieces-overnight"].cures[CAUSE].word == "very likely"
    assert after.checks["feel-piece"].outcome("colder-than-room").shows[CAUSE].word == "very likely"
    assert after.defects["faint-colour"].cases[-1].answers == {"feel-piece": "colder-than-room"}


@pytest.mark.parametrize(
    ("told", "wait"),
    [
        ("60 min for the press to cool", Wait(minutes=60, what="the press to cool")),
        ("an hour for the press to cool", Wait(minutes=60, what="the press to cool")),
        ("1.5 h for the board to dry", Wait(minutes=90, what="the board to dry")),
        ("A day for the pieces to warm", Wait(days=1, what="the pieces to warm")),
        ("2 days for the cloth to come", Wait(days=2, what="the cloth to come")),
    ],
)
def test_what_a_new_fix_and_a_new_check_wait_for(knowledge: Knowledge, shop: Path, told: str, wait: Wait) -> None:
    draft = Draft.of({**SAID, "waits": told, "check-waits": told})
    assert faults(draft, knowledge) == []
    written(draft, knowledge, shop)
    after = known(SMALLEST, shop)
    assert after.fixes["bring-pieces-overnight"].waits == wait
    assert after.checks["feel-piece"].waits == wait


def test_known_fixes_and_checks_are_added_to_and_not_copied(knowledge: Knowledge, shop: Path) -> None:
    said = {key: value for key, value in SAID.items() if key not in ("new-fix", "step", "minutes", "new-check")}
    said = {key: value for key, value in said.items() if key not in ("kind", "asks", "how", "check-minutes", "quiet")}
    said = {key: value for key, value in said.items() if key not in ("telling", "otherwise")}
    draft = Draft.of(
        {**said, "fix": "press-longer", "check": "probe-the-platen=reads-low", "answer": ["probe-the-platen=reads-low"]}
    )
    assert faults(draft, knowledge) == []
    written(draft, knowledge, shop)
    text = (shop / "kb" / f"{CAUSE}.yaml").read_text()
    assert "adds-to:\n  fixes:\n    press-longer: {piece-comes-cold-from-store: very likely}\n" in text
    assert "Press five seconds longer" not in text
    assert known(SMALLEST, shop).checks["probe-the-platen"].outcome("reads-low").shows[CAUSE].word == "very likely"


def test_a_second_rule_adds_its_lines_to_the_file_and_nothing_else(
    draft: Draft, knowledge: Knowledge, shop: Path
) -> None:
    written(draft, knowledge, shop)
    path = shop / "rules" / "faint-colour.yaml"
    path.write_text(path.read_text().replace("    why:", "    why:   # our words\n     ") + "# the end\n")
    before = path.read_text().splitlines()
    second = Draft.of({**SAID, "new-cause": "The lid of the chest was left open", "new-fix": "Shut it"})
    second = second.having("new-check", "Look at the lid").having("answer", "new-check=telling")
    assert written(second, known(SMALLEST, shop), shop)[0] == "rules/faint-colour.yaml"
    after = path.read_text().splitlines()
    assert [line for line in difflib.ndiff(before, after) if line[0] in "-?"] == []
    assert known(SMALLEST, shop).defects["faint-colour"].rules[-1].cause == "lid-chest-was-left-open"


def test_what_stands_there_already_is_not_written_over(draft: Draft, knowledge: Knowledge, shop: Path) -> None:
    (shop / "kb").mkdir()
    (shop / "kb" / f"{CAUSE}.yaml").write_text(f"causes:\n  {CAUSE}:\n    title: Theirs\n")
    with pytest.raises(PressloreError, match="stands there already; nothing was written"):
        lay(entries(draft, knowledge, DAY), shop)


def test_a_broken_file_of_the_shop_is_named(draft: Draft, knowledge: Knowledge, shop: Path) -> None:
    (shop / "kb").mkdir()
    (shop / "kb" / f"{CAUSE}.yaml").write_text("causes: [\n")
    with pytest.raises(PressloreError, match="this is not YAML"):
        lay(entries(draft, knowledge, DAY), shop)


SEEN = st.characters(exclude_categories=["Cs"]).filter(lambda sign: stripped(sign) == sign)
HOSTILE = st.text(SEEN, min_size=1, max_size=50) | st.sampled_from(
    ["no", "- a", "a: b", "#x", "'", '"', "{", "*a", "&a", "!x", "12:30", "null", "~", "%", "\\", "a\nb"]
)
WORDS = HOSTILE.map(str.strip).filter(bool)
ONE = ("about", "why", "asks", "quiet", "telling", "story", "new-cause", "new-fix", "new-check")


@given(said=st.fixed_dictionaries(dict.fromkeys(ONE, WORDS)), lists=st.lists(WORDS, min_size=1, max_size=3))
@daily(25, of=60)
def test_any_text_in_any_field_comes_back(said: dict[str, str], lists: list[str], knowledge: Knowledge) -> None:
    draft = Draft.of({**SAID, **said, "step": lists, "how": lists, "needs": lists, "learned-from": lists})
    draft = draft.having("caution", "none").having("check-caution", "none")
    assume(said["quiet"].casefold() != said["telling"].casefold())
    assume(not faults(draft, knowledge))
    with TemporaryDirectory() as folder:
        written(draft, knowledge, Path(folder))
        after, problems = inspect(SMALLEST, Path(folder))
    assert [problem for problem in problems if problem.code != "name-of-two-outcomes"] == []
    assume(after is not None and not problems)
    assert after is not None
    rule = after.defects["faint-colour"].rules[-1]
    cause, fix, check = after.causes[rule.cause], list(after.fixes.values())[-1], list(after.checks.values())[-1]
    assert (cause.title, cause.about, rule.why) == (said["new-cause"], said["about"], said["why"])
    assert (fix.title, fix.steps, rule.learned_from) == (said["new-fix"], tuple(lists), tuple(lists))
    assert (check.title, check.asks, check.how, check.needs) == (
        said["new-check"],
        said["asks"],
        tuple(lists),
        tuple(lists),
    )
    assert [outcome.looks for outcome in check.outcomes] == [said["quiet"], said["telling"]]
    assert after.defects["faint-colour"].cases[-1].story == said["story"]


def test_trying_leaves_the_folder_as_it_was(draft: Draft, knowledge: Knowledge, shop: Path) -> None:
    files = lay(entries(draft, knowledge, DAY), shop)
    trial = attempt(files, shop, knowledge, Shop(), SMALLEST)
    assert trial.problems == ()
    assert [change.case.story for change in trial.changes] == []
    assert list(shop.iterdir()) == []


def test_a_worked_case_that_does_not_hold_is_named_at_its_place(knowledge: Knowledge, shop: Path) -> None:
    draft = Draft.of({**SAID, "brings": "rarely", "turns-up": "almost never"}).without("answer")
    trial = attempt(lay(entries(draft, knowledge, DAY), shop), shop, knowledge, Shop(), SMALLEST)
    assert [problem.code for problem in trial.problems] == ["worked-case"]
    assert trial.problems[0].place.file == str(shop / "rules" / "faint-colour.yaml")


def test_an_old_case_that_no_longer_holds_is_named_too(knowledge: Knowledge, shop: Path) -> None:
    draft = Draft.of({**SAID, "brings": "very likely", "turns-up": "very likely", "otherwise": "0.8"})
    trial = attempt(lay(entries(draft, knowledge, DAY), shop), shop, knowledge, Shop(), SMALLEST)
    assert any("rules/faint-colour.yaml" in problem.place.file for problem in trial.problems)


def test_a_case_that_is_answered_otherwise_is_told(knowledge: Knowledge, shop: Path) -> None:
    draft = Draft.of({**SAID, "turns-up": "0.5"})
    trial = attempt(lay(entries(draft, knowledge, DAY), shop), shop, knowledge, Shop(), SMALLEST)
    assert trial.problems == ()
    assert [change.case.story for change in trial.changes] == ["Towels for the fete came out pale."]
    assert trial.changes[0].before.order == ("platen-runs-cool",)
    assert CAUSE in trial.changes[0].after.order
