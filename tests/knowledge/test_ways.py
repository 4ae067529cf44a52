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
    write(tiny, OF_DEFECT, "# as told at the counter\nlike weak tea\n\ntea coloured\nso light\n")
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


def test_what_ships_is_not_read_with_the_knowledge(told: Path) -> None:
    (folder,) = read_folders((told,), Collector())
    assert [file.name for file in folder.files if file.kind == "ways"] == []
    for knowledge in (load(told), inspect(told)[0]):
        assert knowledge
        assert knowledge.heard == {}
        written = json.dumps(knowledge, default=lambda each: repr(each))
        assert [way for lines in ways(knowledge, told).values() for way in lines if way in written] == []


def test_a_shops_own_ways_are_known_at_once_whatever_they_tell(told: Path, shop: Shop, tmp_path: Path) -> None:
    shop(OF_DEFECT, "so light\nno strength in it\n")
    shop(OF_CHECK, "= agrees\nthe very same\n\n= reads-low\nwell under\n\n= agrees\nno difference\n")
    shop("kb/ways/idle.txt", "moin\n\n# at the door\nmoin\n")
    own = shop(OF_CAUSE, "clock was wrong\n")
    said = {
        "defect faint-colour": ("so light", "no strength in it"),
        "answer probe-the-platen agrees": ("the very same", "no difference"),
        "answer probe-the-platen reads-low": ("well under",),
        "cause dwell-short": ("clock was wrong",),
        "idle": ("moin",),
    }
    found, problems = inspect(told, own)
    assert found
    assert found.heard == said
    assert {problem.code for problem in problems} <= {"way-of-two"}
    for _ in ("compiled", "kept"):
        assert load(told, own, cache_dir=tmp_path / "cache").heard == said
        assert load_shop(own, told, tmp_path / "shops").knowledge.heard == said


def test_the_version_is_of_what_is_compiled_however_much_was_read(told: Path, shop: Shop) -> None:
    own = shop("shop.yaml", "name: The quay\n")
    few, many = (read_folders((told, own), Collector(), all_ways=every) for every in (False, True))
    assert len(few[0].files) < len(many[0].files)
    before = load(told, own).version
    assert (digest(few), digest(many)) == (before, before)
    for name in (OF_DEFECT, OF_CHECK, OF_CAUSE, "kb/ways/idle.txt"):
        write(told, name, "other words\n")
        assert load(told, own).version == before
    versions = {before}
    for name, text in (
        (OF_DEFECT, "a\n"),
        (OF_CHECK, "= agrees\na b\n"),
        (OF_CAUSE, "c\n"),
        ("kb/ways/idle.txt", "d\n"),
    ):
        shop(name, text)
        versions.add(load(told, own).version)
    assert len(versions) == 5


@pytest.mark.parametrize("name", [OF_DEFECT, OF_CAUSE, "kb/ways/idle.txt"])
@pytest.mark.parametrize("heading", ["= words", "= further", "= agrees"])
def test_a_heading_where_nothing_is_parted_is_a_problem(told: Path, shop: Shop, name: str, heading: str) -> None:
    own = shop(name, f"hm\n{heading}\nno strength in it\n")
    (problem,) = inspect(told, own)[1]
    assert (problem.code, problem.place.line) == ("misplaced-heading", 2)
    assert f'the heading "{heading}" - expected headings in files of checks alone' in str(problem)


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
    shop(OF_CAUSE, "clock was wrong\n")
    stock = load_shop(own, told, tmp_path / "cache")
    assert [place.file for place in stock.left_out] == [str(own / OF_DEFECT)]
    assert stock.knowledge.heard == {"cause dwell-short": ("clock was wrong",)}


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
