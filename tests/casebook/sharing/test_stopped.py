"""Whoever takes a bundle, takes it back or lays out a shop may be stopped before any single call to the system: then
the shop's files are as before or as after, and the next one goes on from there."""

import os
import shutil
import signal
import sys
from collections.abc import Callable
from pathlib import Path

import pytest

from diagnose.casebook.sharing.bundle import Bundle, Sender
from diagnose.casebook.sharing.landing import land, take_back
from diagnose.casebook.sharing.sharing import share
from diagnose.casebook.sharing.taking import plan
from diagnose.cli.shop.new_shop import ToldShop, files, write
from diagnose.knowledge.folders import digest, read_folders
from diagnose.knowledge.loading import inspect
from diagnose.problems import Collector
from tests.casebook.quay import RULES, lay_out

pytestmark = pytest.mark.slow

SMALLEST = Path(__file__).parents[2] / "knowledge" / "valid" / "smallest"
QUAY = Sender(name="The quay", shop="bdfg-hjkm-nprs")
CALLS = ("open", "os.", "shutil.", "fcntl.")


def stopped_at(number: int, work: Callable[[], object]) -> bool:
    """Do the work in a process of its own that is killed before its call to the system of this number. Whether it came
    to an end before that."""
    child = os.fork()
    if child == 0:
        left = [number]

        def count(event: str, _: object) -> None:
            if event.startswith(CALLS):
                left[0] -= 1
                if left[0] == 0:
                    os.kill(os.getpid(), signal.SIGKILL)

        sys.addaudithook(count)
        work()
        os._exit(0)
    code = os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])
    assert code in (0, -signal.SIGKILL)
    return code == 0


def state(shop: Path) -> str:
    found = Collector()
    told = digest(read_folders((SMALLEST, shop), found)[1:])
    assert list(found) == []
    return told


def each_stop(shop: Path, copy: Path, work: Callable[[Path], object]) -> tuple[set[str], int]:
    """The states in which the shop's folder is left by all stops, and how many there were."""
    states, number = set(), 0
    while True:
        number += 1
        shutil.rmtree(copy, ignore_errors=True)
        shutil.copytree(shop, copy)
        at_end = stopped_at(number, lambda: work(copy))
        states.add(state(copy))
        if at_end:
            return states, number


@pytest.fixture(scope="module")
def bundles(tmp_path_factory: pytest.TempPathFactory) -> tuple[Bundle, Bundle]:
    """A bundle and a newer one of the same shop."""
    folder = tmp_path_factory.mktemp("quay")
    one = share(lay_out(folder), SMALLEST, sender=QUAY).bundle
    newer = {"rules__faint-colour": RULES.replace("brings: very likely", "brings: likely")}
    return one, share(lay_out(folder, **newer), SMALLEST, sender=QUAY).bundle


@pytest.fixture
def shop(tmp_path: Path) -> Path:
    (tmp_path / "shop" / "kb").mkdir(parents=True)
    (tmp_path / "shop" / "shop.yaml").write_text("name: The pier\n", encoding="utf-8")
    return tmp_path / "shop"


def taken(bundle: Bundle, shop: Path) -> None:
    land(plan(bundle, "quay.zip", shop, SMALLEST))


@pytest.mark.parametrize("again", [False, True])
def test_a_taking_that_is_stopped(bundles: tuple[Bundle, Bundle], shop: Path, tmp_path: Path, again: bool) -> None:
    if again:
        taken(bundles[0], shop)
    before, copy = state(shop), tmp_path / "copy"
    shutil.copytree(shop, copy)
    planned = plan(bundles[again], "quay.zip", copy, SMALLEST)
    states, number = each_stop(shop, copy, lambda _: land(planned))
    after = state(copy)
    assert (states, number > 40) == ({before, after}, True)
    assert before != after
    assert inspect(SMALLEST, copy)[1] == []


def test_a_taking_back_that_is_stopped(bundles: tuple[Bundle, Bundle], shop: Path, tmp_path: Path) -> None:
    for bundle in bundles:
        taken(bundle, shop)
    before, copy = state(shop), tmp_path / "copy"
    number = 0
    states, number = each_stop(shop, copy, lambda folder: take_back(folder, SMALLEST))
    after = state(copy)
    assert (states, number > 40) == ({before, after}, True)
    assert before != after


@pytest.mark.parametrize("number", range(5, 120, 5))
def test_after_a_stop_the_same_bundle_is_taken_and_nothing_is_left_over(
    bundles: tuple[Bundle, Bundle], shop: Path, number: int
) -> None:
    planned = plan(bundles[0], "quay.zip", shop, SMALLEST)
    stopped_at(number, lambda: land(planned))
    anew = plan(bundles[0], "quay.zip", shop, SMALLEST)
    if not anew.there:
        land(anew)
    taken(bundles[1], shop)
    assert inspect(SMALLEST, shop)[1] == []
    assert [path for path in shop.iterdir() if path.name.startswith(".taking-")] == []
    assert len(list((shop / "rules").iterdir())) == 2


def test_a_shop_that_is_stopped_while_it_is_laid_out(tmp_path: Path) -> None:
    told, whole, seen, number = ToldShop(name="The pier"), sorted(files(ToldShop(name="x"))), set(), 0
    while True:
        number += 1
        folder = tmp_path / f"n{number}" / "pier"
        at_end = stopped_at(number, lambda to=folder: write(to, told))  # type: ignore[misc]
        there = sorted(path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file())
        assert there in ([], whole)
        assert folder.exists() == bool(there)
        seen.add(bool(there))
        if at_end:
            break
    assert (seen, number > 20) == ({True, False}, True)
