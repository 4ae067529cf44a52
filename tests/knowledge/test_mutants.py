"""Rule files spoilt in every way: a value or problems, never an exception, in bounded time and memory."""

import random
import resource
import time
from pathlib import Path

import pytest

from diagnose.knowledge.loading import inspect, load_shop
from tests.casebook.quay import lay_out
from tests.mutants import mutant

VALID = Path(__file__).parent / "valid"
GOOD = sorted(folder for folder in VALID.iterdir() if folder.is_dir())
DAILY, ALL, OF_SHOPS = 300, 18_000, 4_000
LOT = 1_000
SLOWEST = 60.0  # seconds for one small file, on a machine with other work: a hang is what is looked for
MORE = 400 << 10  # kilobytes that a lot may add to the most this process ever held


def spoilt(folder: Path, into: Path, chance: random.Random) -> Path:
    """A copy of the folder in which one file, or more, is a mutant."""
    files = sorted(path for path in folder.rglob("*") if path.is_file())
    bad = {chance.choice(files) for _ in range(chance.choice([1, 1, 1, 3]))}
    for path in files:
        data = path.read_bytes()
        there = into / path.relative_to(folder)
        there.parent.mkdir(parents=True, exist_ok=True)
        there.write_bytes(mutant(data, chance) if path in bad else data)
    return into


def check_some(first: int, number: int, into: Path) -> None:
    held = most_held()
    for seed in range(first, first + number):
        chance = random.Random(f"rules {seed}")
        folder = spoilt(chance.choice(GOOD), into / str(seed), chance)
        begun = time.monotonic()
        knowledge, problems = inspect(folder)
        assert time.monotonic() - begun < SLOWEST, seed
        assert knowledge is not None or problems, seed
        assert all(problem.code and problem.wrong and str(problem) for problem in problems), seed
    assert most_held() - held < MORE


def serve_some(first: int, number: int, into: Path) -> None:
    """What is wrong in a shop's folder never keeps it from working: it gets what serves."""
    held = most_held()
    shop = lay_out(into / "quay")
    for seed in range(first, first + number):
        chance = random.Random(f"shop {seed}")
        folder = spoilt(shop, into / str(seed), chance)
        begun = time.monotonic()
        stock = load_shop(folder, VALID / "smallest", into / "cache")
        assert time.monotonic() - begun < SLOWEST, seed
        assert "faint-colour" in stock.knowledge.defects, seed
    assert most_held() - held < MORE


def most_held() -> int:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss


def test_no_mutant_of_a_few_hundred_is_an_exception(tmp_path: Path) -> None:
    check_some(0, DAILY, tmp_path)


def test_a_shop_with_mutants_is_served(tmp_path: Path) -> None:
    serve_some(0, DAILY // 3, tmp_path)


@pytest.mark.thorough
@pytest.mark.parametrize("first", range(0, ALL, LOT))
def test_no_mutant_of_ten_thousands_is_an_exception(first: int, tmp_path: Path) -> None:
    check_some(first, LOT, tmp_path)


@pytest.mark.thorough
@pytest.mark.parametrize("first", range(0, OF_SHOPS, LOT))
def test_a_shop_with_any_of_thousands_is_served(first: int, tmp_path: Path) -> None:
    serve_some(first, LOT, tmp_path)


def test_a_mutant_is_made_by_its_seed() -> None:
    data = (VALID / "smallest" / "kb" / "all.yaml").read_bytes()
    made = [mutant(data, random.Random(seed)) for seed in range(200)]
    assert made == [mutant(data, random.Random(seed)) for seed in range(200)]
    assert len({*made} - {data}) > 190
