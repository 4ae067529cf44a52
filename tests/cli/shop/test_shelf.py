"""Where the shop's own prices come from, and what is said of a shop.yaml that does not serve."""

import json
import os
import re
from pathlib import Path

import pytest

from diagnose.cli import exits
from diagnose.cli.shop import shelf
from tests.cli.playing import PLAIN, play

CALL = ["diagnose", "--saw", "ghosting", "--json"]


def cost(**environment: str) -> float:
    code, out, _ = play(CALL, environment={**PLAIN, **environment})
    assert code == exits.GOOD
    whole: float = json.loads(out)["expected_cost"]
    return whole


def test_prices_come_from_the_nearest_shop_file() -> None:
    usual = cost()
    Path("shop.yaml").write_text("rates: {minute: 5}\n", encoding="utf-8")
    assert cost() > usual
    dear = Path("dear")
    dear.mkdir()
    (dear / "shop.yaml").write_text("rates: {minute: 50}\n", encoding="utf-8")
    assert cost(**{shelf.SHOP_VARIABLE: "dear"}) > cost()
    assert play([*CALL, "--shop", "dear"]) == play([*CALL, "--shop", "dear/shop.yaml"])


def test_a_shop_sets_the_price_of_waiting() -> None:
    usual = cost()
    Path("shop.yaml").write_text("rates: {waiting: 2}\n", encoding="utf-8")
    assert cost() > usual
    Path("shop.yaml").write_text("rates: {waiting: 0}\n", encoding="utf-8")
    assert cost() < usual


def test_the_currency_is_shown() -> None:
    Path("shop.yaml").write_text("currency: GBP\n", encoding="utf-8")
    _, out, _ = play(["diagnose", "--item", "tea towel", "--saw", "pale", "--saw", "ghosting"])
    assert "about GBP 0." in out


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("rates: {minute: cheap}\n", "shop.yaml:1:"),
        ("rates: {waiting: -1}\n", "shop.yaml:1:18: -1 - expected at least 0"),
        ("rates: {minutes: 1}\n", "did you mean minute"),
        ("rates: {minute: -1}\n", "shop.yaml:1:"),
        ("units: {temperature: K}\n", "shop.yaml:1:"),
        ("- a list\n", "shop.yaml:1:1"),
        ("rates: {minute: 1\n", "shop.yaml:"),
        ("rates: {minute: 1}\nrates: {minute: 2}\n", "stands twice"),
        ("\tname: Harbour\n", "shop.yaml:1:"),
    ],
)
def test_a_shop_file_with_a_mistake_is_named_with_the_place(text: str, says: str) -> None:
    Path("shop.yaml").write_text(text, encoding="utf-8")
    code, out, err = play(CALL)
    assert code == exits.GOOD
    assert json.loads(out)["left_out"] == ["shop.yaml"]
    assert says in err
    assert err.endswith("1 file of this shop is left out: shop.yaml; presslore rules check tells why.\n")
    code, out, err = play(["rules", "check"])
    assert code == exits.PROBLEMS
    assert re.fullmatch(r"[12] problems?\.\n", err)
    assert says in out


def test_a_shop_that_is_not_there_is_named() -> None:
    Path("empty").mkdir()
    for name in ("nowhere", "empty"):
        for call in ([*CALL, "--shop", name], ["defects", "--shop", name], ["rules", "check", "--shop", name]):
            code, out, err = play(call)
            assert (code, out) == (exits.PROBLEMS, "")
            assert err.startswith(f"{name}: ")
            assert "presslore shop new" in err


def test_a_shop_file_that_is_no_text_is_left_out() -> None:
    Path("picture.yaml").write_bytes(b"\xff\xd8")
    code, out, err = play([*CALL, "--shop", "picture.yaml"])
    assert (code, json.loads(out)["left_out"]) == (exits.GOOD, ["picture.yaml"])
    assert err.startswith("picture.yaml")


# --- a shop that nobody named, and that is somebody else's ---

DEAR = "rates: {minute: 5}\n"


def own(monkeypatch: pytest.MonkeyPatch, **owners: int) -> None:
    """Have some names belong to others than they do; everything else is as it is."""
    look = Path.stat

    def told(self: Path, *, follow_symlinks: bool = True) -> os.stat_result:
        found = look(self, follow_symlinks=follow_symlinks)
        owner = owners.get(self.stem, 1000)
        return os.stat_result((*found[:4], owner, *found[5:]))

    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    monkeypatch.setattr(Path, "stat", told)


def below(name: str) -> Path:
    """A folder to work in, below one of this name with a shop.yaml."""
    there = Path(name, "deep")
    there.mkdir(parents=True)
    (there.parent / "shop.yaml").write_text(DEAR, encoding="utf-8")
    return there


@pytest.mark.parametrize("strange", ["quay", "shop"])
def test_a_shop_of_somebody_elses_above_is_not_used_and_it_is_said(
    strange: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    usual = cost()
    monkeypatch.chdir(below("quay"))
    dear = cost()
    assert dear > usual
    own(monkeypatch, **{strange: 1001})
    code, out, err = play(CALL)
    assert (code, json.loads(out)["expected_cost"]) == (exits.GOOD, usual)
    assert " ".join(err.split()).count("shop.yaml is not used: it belongs to somebody else.") == 1
    assert f"--shop {Path.cwd().parent}" in " ".join(err.split())
    assert cost(**{shelf.SHOP_VARIABLE: str(Path.cwd().parent)}) == dear
    assert json.loads(play([*CALL, "--shop", str(Path.cwd().parent)])[1])["expected_cost"] == dear


def test_a_shop_in_a_folder_that_all_may_write_to_is_not_used(monkeypatch: pytest.MonkeyPatch) -> None:
    usual = cost()
    monkeypatch.chdir(below("common"))
    Path("..").resolve().chmod(0o1777)
    assert cost() == usual
    assert "anybody may write to its folder" in " ".join(play(CALL)[2].split())
    assert play(["shop", "show"])[0] == exits.PROBLEMS
    Path("..").resolve().chmod(0o775)
    assert cost() > usual


def test_the_systems_own_shop_is_used(monkeypatch: pytest.MonkeyPatch) -> None:
    usual = cost()
    monkeypatch.chdir(below("quay"))
    own(monkeypatch, quay=0, shop=0)
    assert cost() > usual


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root gives files away")
def test_a_file_that_was_laid_there_by_somebody_else(monkeypatch: pytest.MonkeyPatch) -> None:
    usual = cost()
    monkeypatch.chdir(below("quay"))
    os.chown("../shop.yaml", 1001, 1001)
    assert cost() == usual


def lay_rules(shop: Path) -> None:
    (shop / "kb").mkdir()
    (shop / "kb" / "own.yaml").write_text("glossary: {}\n", encoding="utf-8")


@pytest.mark.parametrize(
    ("part", "said"),
    [
        ("shop.yaml", "anybody may write to shop.yaml"),
        ("kb", "anybody may write to its folder"),
        ("kb/own.yaml", "anybody may write to own.yaml"),
    ],
)
def test_no_part_of_it_may_be_anybodys_to_write(part: str, said: str, monkeypatch: pytest.MonkeyPatch) -> None:
    usual = cost()
    monkeypatch.chdir(below("common"))
    lay_rules(Path(".."))
    assert cost() > usual
    path = Path("..", part)
    path.chmod(path.stat().st_mode | 0o002)
    assert cost() == usual
    assert said in " ".join(play(CALL)[2].split())


@pytest.mark.parametrize("strange", ["kb", "own"])
def test_no_part_of_it_may_be_somebody_elses(strange: str, monkeypatch: pytest.MonkeyPatch) -> None:
    usual = cost()
    monkeypatch.chdir(below("quay"))
    lay_rules(Path(".."))
    own(monkeypatch, **{strange: 1001})
    assert cost() == usual
    assert "it belongs to somebody else" in " ".join(play(CALL)[2].split())


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root gives files away")
def test_no_link_in_it_may_lead_to_somebody_elses(monkeypatch: pytest.MonkeyPatch) -> None:
    usual = cost()
    monkeypatch.chdir(below("quay"))
    theirs = Path("..", "..", "theirs").absolute()
    lay_rules_in = theirs / "kb"
    lay_rules_in.mkdir(parents=True)
    os.chown(theirs, 1001, 1001)
    Path("..", "kb").symlink_to(lay_rules_in)
    assert cost() == usual  # kb itself is ours, but who owns the folder round it may put another there
    os.chown(theirs, 0, 0)
    assert cost() > usual


def test_what_cannot_be_looked_at_stops_nobody(monkeypatch: pytest.MonkeyPatch) -> None:
    """A shop.yaml above that leads into a locked folder, and a folder above that keeps us out."""
    usual = cost()
    deep = Path("locked", "deep")
    deep.mkdir(parents=True)
    (deep.parent / "shop.yaml").symlink_to("/nowhere/shop.yaml")
    monkeypatch.chdir(deep)
    look, look_at_link = Path.stat, Path.lstat

    def refused(self: Path, *, follow_symlinks: bool = True) -> os.stat_result:
        if self.name == "shop.yaml" and follow_symlinks:
            raise PermissionError(13, "Permission denied", str(self))
        return look(self, follow_symlinks=follow_symlinks)

    monkeypatch.setattr(Path, "stat", refused)
    code, out, err = play(CALL)
    assert (code, json.loads(out)["expected_cost"]) == (exits.GOOD, usual)
    assert "shop.yaml is not used: it cannot be looked at" in " ".join(err.split())

    def kept_out(self: Path) -> os.stat_result:
        if self.name == "shop.yaml":
            raise PermissionError(13, "Permission denied", str(self))
        return look_at_link(self)

    monkeypatch.setattr(Path, "lstat", kept_out)
    assert play(CALL)[::2] == (exits.GOOD, "")
