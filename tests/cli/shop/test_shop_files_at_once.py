"""Many commands change one shop's files at once: what one of them said is kept is there in the end."""

import io
import multiprocessing
import sys
from pathlib import Path

import pytest

from diagnose.casebook.proposing import trying
from diagnose.casebook.sharing.bundle import Sender
from diagnose.casebook.sharing.sharing import share
from diagnose.cli.program import run
from diagnose.cli.rules import bundles
from diagnose.cli.rules import command as rules
from diagnose.cli.shop import shelf
from diagnose.knowledge import loading, taken
from diagnose.knowledge.loading import inspect
from tests.casebook.quay import lay_out

SMALLEST = Path(__file__).parents[2] / "knowledge" / "valid" / "smallest"
FORK = multiprocessing.get_context("fork")
OVERTAKEN = ("meanwhile", "another presslore")
SETTLED = "adds-to: faint-colour\nstatus: trial\ndate: 2026-11-20\nrules:\n"


def waiting(folder: Path, causes: list[str]) -> Path:
    """A shop with a rule on trial for each of these causes, all in one file."""
    kb = "causes:\n" + "".join(
        f"  {one}:\n    title: The cause {one}\n    family: heat\n    turns-up: .01\n    about: It is there.\n"
        "    basis: common practice\n"
        for one in causes
    )
    kb += (
        "fixes:\n  mend-all:\n    title: Mend all\n    steps: [Mend it.]\n    minutes: 1\n    basis: common practice\n"
    )
    kb += "    cures:\n" + "".join(f"      {one}: likely\n" for one in causes)
    rule = "  - cause: {}\n    brings: rarely\n    why: It does.\n    basis: common practice\n"
    check = "adds-to:\n  checks:\n    probe-the-platen:\n      reads-low:\n"
    kb += check + "".join(f"        {one}: .01\n" for one in causes)
    return lay_out(
        folder,
        **{"rules__faint-colour": SETTLED + "".join(map(rule.format, causes)), "kb__waiting": kb, "kb__door": kb},
    )


def new_rule(name: str) -> list[str]:
    title, asks = f"Draught number {name}", f"Is it {name}?"
    said = {
        "defect": "faint-colour",
        "new-cause": title,
        "family": "heat",
        "about": "It cools.",
        "turns-up": "0.05",
        "brings": "likely",
        "why": "It cools.",
        "basis": "common practice",
        "new-fix": f"Stop {name}",
        "step": "Stop it.",
        "minutes": "1",
        "cures": "likely",
        "new-check": f"Look for {name}",
        "kind": "look",
        "asks": asks,
        "how": "Look.",
        "check-minutes": "1",
        "quiet": f"No {name}",
        "telling": f"Yes {name}",
        "shows": "very likely",
        "otherwise": "almost never",
        "story": f"Pale with {name}.",
        "item": "tea-towel",
        "answer": "new-check=telling",
    }
    return ["rules", "new", *(word for key, text in said.items() for word in (f"--{key}", text)), "--yes", "--json"]


def work(calls: list[tuple[str, list[str]]], told: Path, failed: Path) -> None:
    """Run commands one after the other; the label of each that ended well is told."""
    for module in (loading, shelf, bundles, rules, trying):
        module.shipped_folder = lambda: SMALLEST  # type: ignore[attr-defined]
    for label, args in calls:
        sys.stdout, sys.stderr = io.StringIO(), io.StringIO()
        code, said = run(args), sys.stderr.getvalue()
        with (told if code == 0 else failed).open("ab") as file:
            file.write(f"{label} {' '.join(said.split())}\n".encode())


def crowd(jobs: list[list[tuple[str, list[str]]]], told: Path, failed: Path) -> None:
    everybody = [FORK.Process(target=work, args=(calls, told, failed)) for calls in jobs]
    for one in everybody:
        one.start()
    for one in everybody:
        one.join()
    assert [one.exitcode for one in everybody] == [0] * len(jobs)


def in_a_row(who: int, count: int, shop: Path) -> list[tuple[str, list[str]]]:
    at = ["--shop", str(shop)]
    calls = []
    for number in range(count):
        name = f"w{who}n{number}"
        promote = ["rules", "promote", "faint-colour", f"cause-{name}", "--case", f"case-{name}"]
        calls.append((name, [*(promote if number % 2 else new_rule(name)), *at]))
    return calls


@pytest.mark.parametrize(
    ("processes", "count"),
    [pytest.param(4, 4, marks=pytest.mark.slow), pytest.param(8, 24, marks=pytest.mark.thorough)],
)
def test_no_change_that_was_acknowledged_is_lost(tmp_path: Path, processes: int, count: int) -> None:
    shop, told, failed = tmp_path / "shop", tmp_path / "told", tmp_path / "failed"
    causes = [f"cause-w{who}n{number}" for who in range(processes) for number in range(1, count, 2)]
    waiting(shop, causes)
    (shop / "kb" / "door.yaml").unlink()
    bundle = tmp_path / "quay.zip"
    shared = share(lay_out(tmp_path / "quay"), SMALLEST, sender=Sender(name="The quay", shop="bdfg-hjkm-nprs"))
    bundle.write_bytes(shared.data)
    take = [("take", ["rules", "take", str(bundle), "--yes", "--shop", str(shop)])]
    lay = [(f"shop{number}", ["shop", "new", str(tmp_path / "new-shop")]) for number in range(2)]
    crowd([*(in_a_row(who, count, shop) for who in range(processes)), take, lay], told, failed)
    knowledge, problems = inspect(SMALLEST, shop)
    assert problems == []
    assert knowledge is not None
    kept = [line.split()[0] for line in told.read_text().splitlines()]
    there = {case for rule in knowledge.defects["faint-colour"].rules for case in rule.confirmed_by}
    there |= {check.title.removeprefix("Look for ") for check in knowledge.checks.values()}
    there |= {rule.cause for rule in knowledge.defects["faint-colour"].rules}
    lost = [one for one in kept if one.startswith("w") and not {one, f"case-{one}"} & there]
    assert lost == []
    assert len([one for one in kept if one.startswith("w")]) >= processes
    assert ("take" in kept) == bool(taken.read(shop).bundles)
    assert len([one for one in kept if one.startswith("shop")]) == 1
    refused = failed.read_text().splitlines() if failed.exists() else []
    assert [one for one in refused if not one.startswith("shop") and not any(map(one.__contains__, OVERTAKEN))] == []
