"""A shop's files that do not serve are left out, each alone; what ships stays as it is, and what serves is used."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.knowledge.loading import load, load_shop
from diagnose.knowledge.shop import Shop as OwnShop
from diagnose.knowledge.shop import Stock
from diagnose.problems import PressloreError
from tests.knowledge.test_overlay import ADDED, CAUSE

TINY = Path(__file__).parent / "valid" / "smallest"
Shop = Callable[[str, str], Path]
BROKEN = {
    "rules": (
        "adds-to: faint-colour\nrules: [\n",
        ADDED.replace("draughty-door", "draughty-window"),  # a cause that nobody has described
        ADDED.replace("draughty-door", "dwell-short").replace("brings: likely", "brings: likly"),
        ADDED.replace("adds-to: faint-colour", "adds-to: fainted-colour"),
        "\tno yaml\n",
        "",
    ),
    "kb": (
        "causes:\n  dwell-short: {title: Short}\n",
        "retire:\n  checks: [probe-the-platen]\n",  # leaves shipped causes without a check
        "retire:\n  causes: [nothing-such]\n",
        "glossary:\n  platen: 5\n",
        CAUSE,  # a cause that no rule leads to
        "\x00",
    ),
}
names = st.sampled_from(("a.yaml", "b.yml", "c/d.yaml"))
files = st.dictionaries(
    st.sampled_from(tuple(BROKEN)).flatmap(lambda part: st.tuples(st.just(part), names)), st.integers(0, 5), max_size=4
)
shop_files = st.sampled_from(("", "name: 5\n", "presses: none\n", "rates: {minute: -1}\n", "name: [\n"))


def laid(shop: Path, cache: Path) -> Stock:
    return load_shop(shop, TINY, cache)


@settings(max_examples=25, deadline=None)
@given(broken=files, shop_file=shop_files)
def test_whatever_is_broken_what_ships_is_as_it_was(broken: dict[tuple[str, str], int], shop_file: str) -> None:
    with TemporaryDirectory() as folder:
        shop = Path(folder) / "shop"
        shop.mkdir()
        (shop / "shop.yaml").write_text(shop_file, encoding="utf-8")
        for (part, name), number in broken.items():
            path = shop / part / name
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(BROKEN[part][number], encoding="utf-8")
        cache = Path(folder) / "cache"
        stock, plain = laid(shop, cache), load(TINY, cache_dir=cache)
        assert replace(stock.knowledge, version=plain.version) == plain
        assert stock.shop == OwnShop()
        assert len(stock.left_out) == len(broken) + 1
        assert stock.problems
        assert all(problem.place.file for problem in stock.problems)
        assert laid(shop, cache) == stock


def test_what_serves_is_used_beside_what_does_not(tiny: Path, shop: Shop, tmp_path: Path) -> None:
    shop("shop.yaml", "name: The harbour workshop\n")
    shop("kb/door.yaml", CAUSE)
    shop("rules/faint-colour.yaml", ADDED)
    stock = laid(shop("kb/spoilt.yaml", "glossary: none\n"), tmp_path / "cache")
    assert "draughty-door" in stock.knowledge.causes
    assert stock.shop.name == "The harbour workshop"
    assert [place.file.rpartition("/")[2] for place in stock.left_out] == ["spoilt.yaml"]


def test_what_leans_on_a_file_left_out_goes_with_it(shop: Shop, tmp_path: Path) -> None:
    shop("kb/door.yaml", CAUSE.replace("turns-up: rarely", "turns-up: rarly"))
    stock = laid(shop("rules/faint-colour.yaml", ADDED), tmp_path / "cache")
    assert {place.file.rpartition("/")[2] for place in stock.left_out} == {"door.yaml", "faint-colour.yaml"}
    assert "draughty-door" not in stock.knowledge.causes


def test_a_file_that_spoils_what_ships_is_found_out(shop: Shop, tmp_path: Path) -> None:
    shop("kb/good.yaml", "glossary:\n  crease: {term: Crease, means: A fold., basis: common practice}\n")
    stock = laid(shop("kb/spoils.yaml", "retire:\n  checks: [probe-the-platen]\n"), tmp_path / "cache")
    assert [place.file.rpartition("/")[2] for place in stock.left_out] == ["spoils.yaml"]
    assert "crease" in stock.knowledge.glossary


def test_a_fault_in_what_ships_is_no_fault_of_the_shop(tiny: Path, shop: Shop, tmp_path: Path) -> None:
    (tiny / "kb" / "all.yaml").write_text("causes: none\n", encoding="utf-8")
    with pytest.raises(PressloreError, match=r"all\.yaml"):
        load_shop(shop("shop.yaml", "name: Harbour\n"), tiny, tmp_path / "cache")


PRESSES = """\
presses:
  - id: left
    title: The press by the window
    facts: {item.hard: false}
    known:
      - {cause: platen-runs-cool, turns-up: likely, since: March, note: runs 6 °C cool}
  - {id: right, title: The big press}
"""


def test_presses_are_read_and_kept(shop: Shop, tmp_path: Path) -> None:
    folder = shop("shop.yaml", PRESSES)
    first = laid(folder, tmp_path / "cache")
    [left, right] = first.shop.presses.values()
    [known] = left.known
    assert (left.title, left.facts, right.known) == ("The press by the window", {"item.hard": False}, ())
    assert (known.turns_up.value, known.told) == (0.71, "runs 6 °C cool since March")
    assert first.knowledge.facts["press.name"].one_of == ("left", "right")
    assert laid(folder, tmp_path / "cache") == first
    assert laid(folder / "shop.yaml", tmp_path / "cache") == first


def test_a_rule_may_ask_for_a_press_only_where_there_is_one(shop: Shop, tmp_path: Path) -> None:
    folder = shop("kb/door.yaml", CAUSE)
    shop("rules/faint-colour.yaml", ADDED.replace("brings:", "if: {press.name: left}\n    brings:"))
    assert '"press.name" is not among the facts' in str(laid(folder, tmp_path / "cache").problems[0])
    shop("shop.yaml", PRESSES)
    assert laid(folder, tmp_path / "cache").problems == ()
    shop("shop.yaml", PRESSES.replace("id: left", "id: window"))
    assert "press.name can never be left" in str(laid(folder, tmp_path / "cache").problems[0])
