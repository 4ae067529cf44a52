"""A bundle is laid over a shop's folder whole or not at all, after everything was tried on a copy."""

import os
import shutil
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from diagnose.casebook.sharing import taking
from diagnose.casebook.sharing.bundle import Bundle
from diagnose.casebook.sharing.contents import contents
from diagnose.casebook.sharing.sharing import share
from diagnose.casebook.sharing.taking import Taking, land, plan
from diagnose.casebook.sharing.unpacking import unpack
from diagnose.knowledge.loading import inspect
from diagnose.problems import PressloreError
from tests.casebook import quay
from tests.casebook.quay import lay_out
from tests.casebook.sharing.zips import KB, RULES, bundled

SMALLEST = Path(__file__).parents[2] / "knowledge" / "valid" / "smallest"


@pytest.fixture(scope="module")
def good(tmp_path_factory: pytest.TempPathFactory) -> Bundle:
    return unpack(share(lay_out(tmp_path_factory.mktemp("quay")), SMALLEST).data, "quay.zip")


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "shop").mkdir()
    return tmp_path / "shop"


def planned(bundle: Bundle, folder: Path) -> Taking:
    return plan(bundle, "quay.zip", folder, SMALLEST)


def changed(bundle: Bundle, name: str, old: str, new: str) -> Bundle:
    assert old in bundle.files[name]
    files = {**bundle.files, name: bundle.files[name].replace(old, new)}
    return unpack(bundled({name: text.encode() for name, text in files.items()}), "quay.zip")


def refused(bundle: Bundle, folder: Path) -> str:
    before = everything(folder)
    with pytest.raises(PressloreError) as caught:
        planned(bundle, folder)
    assert everything(folder) == before
    return str(caught.value)


def everything(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() if path.is_file() else b"" for path in folder.rglob("*")}


def test_it_lands_in_folders_of_its_own_and_is_the_shops_from_then_on(good: Bundle, shop: Path) -> None:
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
    assert knowledge.causes["draughty-door"].origin == "this shop"
    assert planned(good, shop).there


def test_planning_writes_nothing(good: Bundle, shop: Path) -> None:
    found = planned(good, shop)
    assert everything(shop) == {}
    assert "draughty-door" in found.after.causes
    assert "draughty-door" not in found.before.causes
    assert not found.there


def test_what_was_taken_can_be_shared_again(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
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


def test_an_earlier_bundle_of_the_same_shop(good: Bundle, shop: Path) -> None:
    land(planned(good, shop))
    newer = changed(good, RULES, "brings: very likely", "brings: likely")
    assert "it came with an earlier bundle: delete its folders" in refused(newer, shop)


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
        ("words heard", KB, "causes:", "heard:\n  faint-colour: [x]\ncauses:", '"heard" has no place'),
        ("a shipped fix changed", KB, "causes:", "adds-to:\n  fixes: {press-longer: {dwell-short: .01}}\ncauses:",
         '"dwell-short" is no cause that the bundle brings along'),
        ("a shipped check changed", KB, "causes:",
         "adds-to:\n  checks: {probe-the-platen: {reads-low: {dwell-short: 0}}}\ncauses:",
         '"dwell-short" is no cause that the bundle brings along'),
        ("a shipped caution", KB, "swinging-door:\n", "hot-platen:\n", '"hot-platen" among the cautions stands at'),
        ("trial rules", RULES, "status: settled", "status: trial", "rules on trial have no place"),
        ("a trial rule", RULES, "    brings:", "    status: trial\n    brings:", "a rule on trial has no place"),
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

    monkeypatch.setattr(taking.os, "rename", failing)
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
