"""Ways of saying: read from plain files, laid over one another, apart from the compiled knowledge."""

import json
from collections.abc import Callable
from pathlib import Path

import pytest

from diagnose.knowledge import loading
from diagnose.knowledge.folders import digest, read_folders, shipped_folder
from diagnose.knowledge.limits import MOST_WAYS_FILES
from diagnose.knowledge.loading import inspect, load, load_shop
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.ways import stamp, ways
from diagnose.problems import Collector

Shop = Callable[[str, str], Path]
OF_DEFECT = "kb/ways/defects/faint-colour.txt"
OF_CHECK = "kb/ways/checks/probe-the-platen.txt"
OF_CAUSE = "kb/ways/causes/dwell-short.txt"


def write(folder: Path, name: str, text: str) -> None:
    path = folder / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


@pytest.fixture
def told(tiny: Path) -> Path:
    """The tiny folder, with ways of saying of each kind."""
    write(tiny, OF_DEFECT, "# as told at the counter\nlike weak tea\n\n= words\ntea coloured\n\n= further\nso light\n")
    write(tiny, OF_CHECK, "= reads-low\nten degrees short\nprobe says less\n\n= agrees\nspot on\n")
    write(tiny, OF_CAUSE, "opened it too soon\nopened it too soon\n")
    write(tiny, "kb/ways/idle.txt", "hello there\r\n")
    return tiny


@pytest.fixture(scope="module")
def shipped() -> tuple[Knowledge, dict[str, tuple[str, ...]]]:
    knowledge = load(shipped_folder())
    return knowledge, dict(ways(knowledge))


def test_every_way_stands_under_what_it_tells(told: Path) -> None:
    assert ways(load(told), told) == {
        "answer probe-the-platen reads-low": ("ten degrees short", "probe says less"),
        "answer probe-the-platen agrees": ("spot on",),
        "cause dwell-short": ("opened it too soon",),
        "defect faint-colour": ("like weak tea", "tea coloured", "so light"),
        "idle": ("hello there",),
    }
    assert inspect(told)[1] == []


def test_a_shops_lines_are_added(told: Path, shop: Shop) -> None:
    shop("shop.yaml", "name: The quay\n")
    own = shop(OF_CAUSE, "clock was wrong\nopened it too soon\n")
    for folder in (own, own / "shop.yaml"):
        assert ways(load(told), told, folder)["cause dwell-short"] == ("opened it too soon", "clock was wrong")


def test_what_tells_of_a_defect_is_known_at_once_and_nothing_else_is_read(told: Path) -> None:
    knowledge = load(told)
    assert knowledge.heard == {"faint-colour": ("like weak tea",)}
    assert knowledge.words["faint-colour"].members == ("tea coloured",)
    (folder,) = read_folders((told,), Collector())
    assert [file.name for file in folder.files if file.kind == "ways"] == [OF_DEFECT]
    assert "ten degrees short" not in json.dumps(knowledge, default=lambda each: repr(each))


def test_the_version_is_of_what_is_compiled_however_much_was_read(told: Path) -> None:
    few, many = (read_folders((told,), Collector(), all_ways=every) for every in (False, True))
    assert len(few[0].files) < len(many[0].files)
    before = load(told).version
    assert (digest(few), digest(many)) == (before, before)
    write(told, OF_CAUSE, "clock was wrong\n")
    assert load(told).version == before
    write(told, OF_DEFECT, "no strength in it\n")
    assert load(told).version != before


def test_of_what_a_shop_retires_nothing_is_said_any_more(told: Path, shop: Shop) -> None:
    own = shop("kb/retired.yaml", "retire:\n  checks: [probe-the-platen]\n")
    assert {problem.code for problem in inspect(told, own)[1]} == {"cause-without-check"}
    shop(OF_CHECK, "= agrees\nthe very same\n")
    assert {problem.code for problem in inspect(told, own)[1]} == {"cause-without-check", "way-of-nothing"}


def test_of_an_outcome_that_a_shop_does_without_nothing_is_said_any_more(told: Path, shop: Shop) -> None:
    shipped = (told / "kb" / "all.yaml").read_text(encoding="utf-8")
    check = shipped[shipped.index("checks:\n") : shipped.index("fixes:\n")]
    write(told, OF_CHECK, "= timer-jumps\nseconds get lost\n= agrees\nspot on\n")
    own = shop("kb/probing.yaml", check.replace("timer-jumps:", "timer-stops:"))
    assert inspect(told, own)[1] == []
    said = ways(load(told, own), told, own)
    assert [telling for telling in said if telling.startswith("answer")] == ["answer probe-the-platen agrees"]


def test_lines_that_do_not_pass_are_left_out_and_the_rest_serves(told: Path, shop: Shop) -> None:
    own = shop(OF_CAUSE, "clock was wrong\n--\n" + "x" * 201 + "\n\x1b[31mred\n" + "a " * 41 + "\n")
    shop("kb/ways/causes/dwell-shrt.txt", "no time\n")
    assert ways(load(told), told, own)["cause dwell-short"] == ("opened it too soon", "clock was wrong")
    assert len(inspect(told, own)[1]) == 5


def test_a_broken_file_of_a_shops_is_left_out_and_named(told: Path, shop: Shop, tmp_path: Path) -> None:
    own = shop(OF_DEFECT, "fine so far\n\x1b[31mred\n")
    stock = load_shop(own, told, tmp_path / "cache")
    assert [place.file for place in stock.left_out] == [str(own / OF_DEFECT)]
    assert stock.knowledge.heard == {"faint-colour": ("like weak tea",)}


def test_past_the_number_of_files_none_is_read(told: Path, shop: Shop) -> None:
    for number in range(MOST_WAYS_FILES + 1):
        own = shop(f"kb/ways/causes/c{number}.txt", "")
    shop(OF_CAUSE, "clock was wrong\n")
    assert ways(load(told), told, own)["cause dwell-short"] == ("opened it too soon",)
    assert [problem.code for problem in inspect(told, own)[1]] == ["too-many-files"]


def test_the_cache_is_not_asked_for_ways(told: Path, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    load(told, cache_dir=tmp_path / "cache")
    write(told, OF_CHECK, "= agrees\nthe very same\n")
    monkeypatch.setattr(loading, "_compile", lambda *_: pytest.fail("compiled again"))
    assert ways(load(told, cache_dir=tmp_path / "cache"), told)["answer probe-the-platen agrees"] == ("the very same",)


def test_the_stamp_is_of_every_way_of_saying_and_of_nothing_else(told: Path, shop: Shop) -> None:
    before = stamp(told)
    shop("kb/more.yaml", "{}\n")
    write(told, "kb/more.yaml", "glossary: {}\n")
    assert stamp(told) == before
    stamps = [before]
    for name in (OF_DEFECT, OF_CHECK, OF_CAUSE, "kb/ways/idle.txt"):
        write(told, name, "other words\n")
        stamps.append(stamp(told))
    stamps.append(stamp(told, shop(OF_CAUSE, "clock was wrong\n")))
    assert len(set(stamps)) == 6


def test_what_ships_tells_of_every_defect_and_cause_and_nearly_every_outcome(
    shipped: tuple[Knowledge, dict[str, tuple[str, ...]]],
) -> None:
    knowledge, told = shipped
    assert {f"defect {name}" for name in knowledge.defects} <= told.keys()
    assert {f"cause {name}" for name in knowledge.causes} <= told.keys()
    assert min(len(lines) for telling, lines in told.items() if telling.startswith("answer")) >= 13
    assert sum(telling.startswith("answer") for telling in told) >= 530
    assert len(told["idle"]) >= 250
