"""A bundle is laid over a shop's folder whole or not at all, after everything was tried on a copy."""

import os
import shutil
from collections.abc import Mapping
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.casebook.proposing.promoting import promoted, settled_step, trial_rule
from diagnose.casebook.sharing.bundle import NOBODY, Bundle, Sender
from diagnose.casebook.sharing.contents import contents
from diagnose.casebook.sharing.landing import ChangedMeanwhile, land, take_back
from diagnose.casebook.sharing.sharing import share
from diagnose.casebook.sharing.taking import Taking, plan
from diagnose.casebook.sharing.unpacking import unpack
from diagnose.knowledge import taken
from diagnose.knowledge.loading import inspect, load_shop, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.problems import PressloreError
from tests.casebook import quay
from tests.casebook.quay import lay_out
from tests.casebook.sharing.zips import KB, RULES, bundled

QUAY = Sender(name="The quay", shop="bdfg-hjkm-nprs")
SMALLEST = Path(__file__).parents[2] / "knowledge" / "valid" / "smallest"


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> Bundle:
    folder = lay_out(tmp_path_factory.mktemp("quay"))
    return unpack(share(folder, SMALLEST, sender=QUAY).data, "quay.zip")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "shop").mkdir()
    return tmp_path / "shop"


def planned(bundle: Bundle, folder: Path) -> Taking:
    return plan(bundle, "quay.zip", folder, SMALLEST)


def changed(bundle: Bundle, name: str, old: str, new: str, sender: Sender = QUAY) -> Bundle:
    assert old in bundle.files[name]
    return rebundled({**bundle.files, name: bundle.files[name].replace(old, new)}, sender)


def rebundled(files: Mapping[str, str], sender: Sender = QUAY) -> Bundle:
    said = {"name": sender.name, "id": sender.shop}
    return unpack(bundled({name: text.encode() for name, text in files.items()}, shop=said), "quay.zip")


def refused(bundle: Bundle, folder: Path) -> str:
    before = everything(folder)
    with pytest.raises(PressloreError) as caught:
        planned(bundle, folder)
    assert everything(folder) == before
    return str(caught.value)


def everything(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() if path.is_file() else b"" for path in folder.rglob("*")}


def confirmed_here(shop: Path, bundle: Bundle, cases: tuple[str, ...] = ("c1", "c2", "c3")) -> None:
    """Write down that cases of this shop confirmed the rule that was taken."""
    knowledge, _ = inspect(SMALLEST, shop)
    assert knowledge is not None
    promoted(trial_rule(knowledge, "faint-colour", "draughty-door"), cases, shop).save()
    assert bundle.short in str(knowledge.causes["draughty-door"].place)


def test_it_lands_in_folders_of_its_own_on_trial_and_says_whose_it_is(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    own = f"taken-{good.short}"
    assert sorted(path for path in everything(shop) if path.endswith(".yaml")) == [
        f"kb/{own}/entries.yaml",
        f"rules/{own}/faint-colour.yaml",
    ]
    text = (shop / "rules" / own / "faint-colour.yaml").read_text(encoding="utf-8")
    assert text.startswith(f"# Taken from another shop's bundle of 2026-11-20, SHA-256 {good.digest}.\n")
    knowledge, problems = inspect(SMALLEST, shop)
    assert problems == []
    assert knowledge is not None
    whose = f"the bundle {good.spoken} of “The quay”"
    rule = knowledge.defects["faint-colour"].rules[-1]
    assert {knowledge.causes["draughty-door"].origin, knowledge.fixes["shut-the-door"].origin, rule.origin} == {whose}
    assert (rule.status, rule.confirmed_by) == ("trial", ())
    assert planned(good, shop).there


def test_planning_writes_nothing(good: Bundle, shop: Path) -> None:
    found = planned(good, shop)
    assert everything(shop) == {}
    assert "draughty-door" in found.after.causes
    assert "draughty-door" not in found.before.causes
    assert not found.there


def test_what_was_taken_can_be_shared_again(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    with pytest.raises(PressloreError, match="no rule of its own is settled"):
        share(shop, SMALLEST)
    confirmed_here(shop, good)
    again = unpack(share(shop, SMALLEST).data, "again.zip")
    assert again.files == good.files


def test_ids_of_ones_own_are_named_and_kept(good: Bundle, tmp_path: Path) -> None:
    said = refused(good, lay_out(tmp_path / "own"))
    for one in (
        '"draughty-door" among the causes',
        '"shut-the-door" among the fixes',
        '"look-at-the-door" among the checks',
        '"swinging-door" among the cautions',
        'the rule "draughty-door" → "faint-colour"',
    ):
        assert one in said
    assert "own/kb/door.yaml:2:3 already - keep yours" in said


def in_force(shop: Path) -> Knowledge:
    knowledge, problems = inspect(SMALLEST, shop)
    assert problems == []
    assert knowledge is not None
    return knowledge


def test_a_newer_bundle_takes_the_place_of_the_same_shops_earlier_one(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    newer = changed(good, RULES, "brings: very likely", "brings: likely")
    found = planned(newer, shop)
    assert found.replaces is not None
    assert (found.replaces.digest, found.kept) == (good.digest, 0)
    land(found)
    rules = [rule for rule in in_force(shop).defects["faint-colour"].rules if rule.cause == "draughty-door"]
    assert [(rule.brings.word, rule.status) for rule in rules] == [("likely", "trial")]
    assert [one.digest for one in taken.read(shop).bundles] == [newer.digest]
    assert planned(newer, shop).there


def test_only_the_id_makes_it_the_same_shop(good: Bundle, shop: Path) -> None:
    """Whoever writes another's name into a bundle takes nobody's place: its ids clash like those of any stranger."""
    land(planned(good, shop))
    for sender in (Sender(name="The quay", shop="zzzz-zzzz-zzzz"), Sender(name="The quay"), NOBODY):
        stranger = changed(good, RULES, "brings: very likely", "brings: likely", sender)
        assert f"it came with {in_force(shop).causes['draughty-door'].origin}" in refused(stranger, shop)


def test_a_stranger_of_the_same_name_is_pointed_out(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    other = {name: text.replace("door", "gate") for name, text in good.files.items()}
    found = planned(rebundled(other, Sender(name="The quay", shop="zzzz-zzzz-zzzz")), shop)
    assert [one.digest for one in found.alike] == [good.digest]
    assert found.replaces is None
    land(found)
    assert len({rule.origin for rule in in_force(shop).defects["faint-colour"].rules}) == 3


def test_cases_that_confirmed_a_rule_stay_with_it_while_it_stays_as_it_was(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    confirmed_here(shop, good, ("c1", "c2", "c3"))
    assert in_force(shop).defects["faint-colour"].rules[-1].status == "settled"
    newer = changed(good, KB, "Is the door shut?", "Is the door quite shut?")
    found = planned(newer, shop)
    assert found.kept == 1
    land(found)
    rule = in_force(shop).defects["faint-colour"].rules[-1]
    assert (rule.status, rule.confirmed_by) == ("settled", ("c1", "c2", "c3"))


@pytest.mark.parametrize(
    ("name", "old", "new"),
    [
        (RULES, "brings: very likely", "brings: likely"),
        (KB, "title: The door to the quay stands open", "title: The window stands open"),
        (KB, "steps: [Shut it.]", "steps: [Lean on it.]"),
    ],
)
def test_a_rule_that_says_something_else_is_on_trial_again(
    good: Bundle, shop: Path, name: str, old: str, new: str
) -> None:
    land(planned(good, shop))
    confirmed_here(shop, good)
    land(planned(changed(good, name, old, new), shop))
    rule = in_force(shop).defects["faint-colour"].rules[-1]
    assert (rule.status, rule.confirmed_by) == ("trial", ())


def test_a_taking_can_be_taken_back(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    confirmed_here(shop, good, ("c1",))
    before = in_force(shop)
    newer = changed(good, RULES, "brings: very likely", "brings: likely")
    land(planned(newer, shop))
    assert [one.digest for one in take_back(shop, SMALLEST)] == [newer.digest]
    assert in_force(shop) == before
    with pytest.raises(PressloreError, match="no taking of a bundle to take back"):
        take_back(shop, SMALLEST)
    land(planned(newer, shop))
    assert [one.digest for one in taken.read(shop).bundles] == [newer.digest]


def test_what_ones_own_files_lean_on_is_not_taken_back(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    (shop / "rules" / "haze.yaml").write_text(
        "adds-to: faint-colour\nstatus: trial\ndate: 2026-11-20\nrules:\n  - {cause: draughty-door, brings: rarely, "
        'if: {item.polyester: "< 50"}, why: So., basis: common practice}\n'
    )
    before = everything(shop)
    with pytest.raises(PressloreError, match="your own files lean on the bundle"):
        take_back(shop, SMALLEST)
    assert everything(shop) == before


def test_bundles_taken_before_there_was_a_record_stay_in_force(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    (shop / "taken.json").unlink()
    assert in_force(shop).causes["draughty-door"].origin == f"the bundle {good.spoken} of a shop that gives no name"
    gate = {name: text.replace("door", "gate") for name, text in good.files.items()}
    land(planned(rebundled(gate, Sender(shop="zzzz-zzzz-zzzz")), shop))
    assert [one.digest == good.digest for one in taken.read(shop).bundles] == [True, False]
    assert {"draughty-door", "draughty-gate"} <= set(in_force(shop).causes)


def test_a_folder_that_the_record_does_not_name_is_passed_over(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    (shop / "rules" / "taken-0123").mkdir()
    (shop / "rules" / "taken-0123" / "haze.yaml").write_text("no: rules\n", encoding="utf-8")
    assert "draughty-door" in in_force(shop).causes


@pytest.mark.parametrize("text", ["", "{", "[]", '{"bundles": [{"folder": "../x"}], "before": null}', "[" * 50_000])
def test_a_damaged_record_is_a_problem_and_names_itself(good: Bundle, shop: Path, text: str) -> None:
    land(planned(good, shop))
    (shop / "taken.json").write_text(text, encoding="utf-8")
    problems = inspect(SMALLEST, shop)[1]
    assert [problem.code for problem in problems] == ["taken-record"]
    assert load_shop(shop, SMALLEST).knowledge.causes.keys() == load_shop(SMALLEST, SMALLEST).knowledge.causes.keys()


def test_somebody_elses_change_is_not_run_over(good: Bundle, shop: Path) -> None:
    found = planned(good, shop)
    lay_out(shop)
    before = everything(shop)
    with pytest.raises(ChangedMeanwhile):
        land(found)
    assert everything(shop) == before


@pytest.mark.parametrize(
    ("old", "new", "caution"),
    [
        ("steps: [Shut it.]", "steps: [Take the platen off while it is hot.]", "hot-platen"),
        ("steps: [Shut it.]", "steps: [Take the \uff50\uff4c\uff41\uff54\uff45\uff4e off.]", "hot-platen"),
        ("how: [Look.]", "how: [Feel the platen with your hand.]", "hot-platen"),
    ],
)
def test_a_bundle_may_not_leave_out_a_caution(good: Bundle, shop: Path, old: str, new: str, caution: str) -> None:
    said = refused(changed(good, KB, old, new), shop)
    assert f'leaves out the caution "{caution}"' in said


def test_a_bundle_that_names_the_caution_is_taken(good: Bundle, shop: Path) -> None:
    hot = changed(good, KB, "steps: [Shut it.]", "steps: [Shut it while the press is hot.]")
    hot = changed(hot, KB, "cautions: [swinging-door]", "cautions: [swinging-door, hot-platen]")
    land(planned(hot, shop))
    assert in_force(shop).fixes["shut-the-door"].cautions == ("swinging-door", "hot-platen")


def test_sharing_names_the_cautions_that_words_call_for(tmp_path: Path, shop: Path) -> None:
    hot = quay.KB.replace("steps: [Shut it.]", "steps: [Shut it while the press is hot.]")
    hot = hot.replace("    cautions: [swinging-door]\n", "    cautions: []\n")
    found = share(lay_out(tmp_path / "quay", kb__door=hot[: hot.index("cautions:\n  swing")]), SMALLEST)
    assert "cautions: [hot-platen]" in found.bundle.files[KB]
    land(planned(found.bundle, shop))


@pytest.mark.parametrize(
    ("what", "name", "old", "new", "said"),
    [
        ("an anchor", KB, "    family: heat", "    family: &a heat", "kb/entries.yaml:"),
        ("a tag", KB, "    family: heat", "    family: !!python/name:os.system heat", "kb/entries.yaml:"),
        ("a tab", KB, "    family: heat", "\tfamily: heat", "a tab"),
        ("a control character", KB, "family: heat", "family: heat\x1b", "control character"),
        ("turned text", KB, "title: Shut", "title: \u202eShut", "turns the direction of reading"),
        ("a wrong structure", KB, "    minutes: 1\n", "    minutes: soon\n", "kb/entries.yaml:"),
        ("what is retired", KB, "causes:", "retire:\n  fixes: [press-longer]\ncauses:", '"retire" has no place'),
        ("a scale", KB, "causes:",
         "scale: [{word: likely, value: .1, source: chosen for presslore}]\ncauses:", '"scale" has no place'),
        ("words heard", KB, "causes:", "heard:\n  faint-colour: [x]\ncauses:", 'unknown key "heard"'),
        ("a shipped fix changed", KB, "causes:", "adds-to:\n  fixes: {press-longer: {dwell-short: .01}}\ncauses:",
         '"dwell-short" is no cause that the bundle brings along'),
        ("a shipped check changed", KB, "causes:",
         "adds-to:\n  checks: {probe-the-platen: {reads-low: {dwell-short: 0}}}\ncauses:",
         '"dwell-short" is no cause that the bundle brings along'),
        ("a shipped caution", KB, "swinging-door:\n", "hot-platen:\n", '"hot-platen" among the cautions stands at'),
        ("trial rules", RULES, "status: settled", "status: trial", "rules on trial have no place"),
        ("a trial rule", RULES, "    brings:", "    status: trial\n    brings:", "a rule on trial has no place"),
        ("confirmed elsewhere", RULES, "    brings:", "    confirmed-by: [x, y, z]\n    brings:",
         "numbers of a shop's cases"),
        ("what calls for a caution", KB, "    text: Keep", "    called-for-by: [press]\n    text: Keep",
         '"called-for-by" has no place in a bundle'),
        ("what words entail", KB, "        looks: Open\n", "        looks: Open\n        also: {saw: [faint-colour]}\n",
         '"also" has no place in a bundle'),
        ("what a defect entails", RULES, "adds-to: faint-colour\n",
         "defect: too-light\ntitle: x\nlooks: x\notherwise: rarely\nbasis: x\nalso: {saw: [ghosting]}\n",
         '"also" has no place in a bundle'),
        ("two alphabets", KB, "title: Shut the door", "title: Use \u0430cetone", "letters from two alphabets"),
        ("a hidden sign", KB, "title: Shut the door", 'title: "Use ace\\xADtone"', "not shown (U+00AD"),
        ("a sign by its number", KB, "title: Shut the door", 'title: "Shut\\u202E"', "not shown (U+202E"),
        ("case numbers", RULES, "    brings:", "    learned-from: [x]\n    brings:", "numbers of a shop's cases"),
        ("a worked case", RULES, "rules:", "cases:\n  - {story: x, saw: [faint-colour], first: draughty-door}\nrules:",
         "worked cases have no place"),
        ("a shipped defect", RULES, "adds-to: faint-colour",
         "defect: faint-colour\ntitle: x\nlooks: x\notherwise: rarely\nbasis: common practice",
         '"faint-colour" among the defects stands at'),
        ("an unknown cause", RULES, "cause: draughty-door", "cause: gull", 'gull'),
        ("an unknown caution", KB, "cautions: [swinging-door]", "cautions: [swinging]", "swinging"),
    ],
)  # fmt: skip
def test_what_a_bundle_may_not_do(
    good: Bundle, shop: Path, what: str, name: str, old: str, new: str, said: str
) -> None:
    assert said in refused(changed(good, name, old, new), shop), what


@given(st.sampled_from([KB, RULES]), st.text(max_size=80), st.integers(0, 400))
def test_any_text_ends_well(name: str, text: str, at: int) -> None:
    usual = {KB: quay.KB, RULES: quay.RULES}[name]
    for whole in (text, usual[:at] + text + usual[at:]):
        try:
            assert contents(Bundle(date="2026-11-20", files={name: whole}, digest="0" * 64), "x")
        except PressloreError as error:
            assert error.problems  # noqa: PT017 - either end is a good one


def test_a_rule_in_place_of_one_that_ships_is_told(good: Bundle, shop: Path) -> None:
    more = "rules:\n  - cause: platen-runs-cool\n    brings: likely\n    why: x\n    basis: common practice\n"
    found = planned(changed(good, RULES, "rules:\n", more), shop)
    assert [(rule.cause, rule.defect) for rule in found.instead] == [("platen-runs-cool", "faint-colour")]


def test_worked_cases_must_still_hold(good: Bundle, shop: Path) -> None:
    everywhere = changed(good, KB, "turns-up: 0.16", "turns-up: 0.99")
    said = refused(everywhere, shop)
    assert "worked cases would no longer hold" in said
    assert "the worked case no longer holds: now draughty-door" in said


def test_a_folder_with_faults_of_its_own_is_mended_first(good: Bundle, shop: Path) -> None:
    lay_out(shop, kb__door="causes: {}\n")
    said = refused(good, shop)
    assert "has faults of its own: mend them first" in said
    assert f"{shop}/rules/faint-colour.yaml:" in said


@pytest.mark.parametrize("fails_at", [1, 2])
def test_it_lands_whole_or_not_at_all(good: Bundle, shop: Path, monkeypatch: pytest.MonkeyPatch, fails_at: int) -> None:
    real, calls = os.rename, []

    def failing(source: Path, target: Path) -> None:
        calls.append(target)
        if len(calls) == fails_at:
            raise OSError(28, "No space left on device")
        real(source, target)

    monkeypatch.setattr(os, "rename", failing)
    with pytest.raises(PressloreError, match=r"cannot be written to \(No space left on device\); nothing was taken"):
        land(planned(good, shop))
    assert [name for name in everything(shop) if "taken" in name or "taking" in name] == []


def test_one_that_was_cut_short_is_put_right(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    shutil.rmtree(shop / "rules" / f"taken-{good.short}")
    (shop / "kb" / f"taken-{good.short}" / "half.yaml").write_text("causes:", encoding="utf-8")
    found = planned(good, shop)
    assert not found.there
    land(found)
    assert inspect(SMALLEST, shop)[1] == []
    assert planned(good, shop).there


def test_what_is_done_comes_on_trial_and_stays_settled_while_not_a_word_changes(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    fix, check = in_force(shop).fixes["shut-the-door"], in_force(shop).checks["look-at-the-door"]
    assert (fix.status, check.status) == ("trial", "trial")
    settled_step(fix, ("c1", "c2", "c3")).save()
    settled_step(check, ("c1", "c2", "c3")).save()
    assert in_force(shop).fixes["shut-the-door"].confirmed_by == ("c1", "c2", "c3")
    newer = changed(good, KB, "Shut it.", "Push it shut.")
    land(planned(newer, shop))
    after = in_force(shop)
    assert after.fixes["shut-the-door"].steps == ("Push it shut.",)
    assert (after.fixes["shut-the-door"].status, after.fixes["shut-the-door"].confirmed_by) == ("trial", ())
    assert (after.checks["look-at-the-door"].status, after.checks["look-at-the-door"].confirmed_by) == (
        "settled",
        ("c1", "c2", "c3"),
    )


@pytest.mark.parametrize("said", ["status: settled", "confirmed-by: [c1, c2, c3]"])
def test_no_bundle_settles_its_own_steps(said: str, good: Bundle, shop: Path) -> None:
    told = refused(changed(good, KB, "    minutes: 1\n", f"    minutes: 1\n    {said}\n"), shop)
    assert f'"{said.partition(":")[0]}" has no place in a bundle: each shop settles itself' in told


@pytest.mark.parametrize(
    ("steps", "said"),
    [
        ("Wipe it with ace\u034fne.", "a sign that shows nothing (U+034F"),
        ("Wipe it w\u3164ith care.", "a sign that shows nothing (U+3164"),
        ("Make it h\u043et.", "letters from two alphabets"),
        ("Wipe it with \u0430\u0441\u0435.", "of one that passes for another"),
    ],
)
def test_disguised_words_are_refused(steps: str, said: str, good: Bundle, shop: Path) -> None:
    assert said in refused(changed(good, KB, "Shut it.", steps), shop)


def test_what_a_check_needs_is_looked_at_for_cautions(good: Bundle, shop: Path) -> None:
    told = plan_on_what_ships(changed(good, KB, "needs: []", "needs: [a can of acetone]"), shop)
    assert "says “acetone” and leaves out the caution" in told


def plan_on_what_ships(bundle: Bundle, folder: Path) -> str:
    with pytest.raises(PressloreError) as caught:
        plan(bundle, "quay.zip", folder, shipped_folder())
    return str(caught.value)
