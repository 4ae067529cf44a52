"""Bundles made to do harm, and good ones damaged by the thousand: each is read whole or refused in plain words, within
bounds of memory and time."""

import io
import os
import random
import resource
import signal
import struct
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from diagnose.casebook.sharing.bundle import MOST_BYTES, MOST_FILE_BYTES, Bundle, Sender
from diagnose.casebook.sharing.contents import contents
from diagnose.casebook.sharing.sharing import share
from diagnose.casebook.sharing.unpacking import read_bundle, unpack
from diagnose.problems import PressloreError
from tests.casebook.quay import lay_out
from tests.casebook.sharing.zips import GOOD, KB, bundled, odd, zipped

SMALLEST = Path(__file__).parents[2] / "knowledge" / "valid" / "smallest"
ROOM = 400_000_000  # bytes of address space beyond what the process has
LONGEST = 300  # seconds for all of a run: a hang is meant, on the slowest machine
LOCAL, CENTRAL, END = b"PK\x03\x04", b"PK\x01\x02", b"PK\x05\x06"
FIELDS = {  # where a number stands in a header, and how many bytes it has
    LOCAL: [(4, 2), (6, 2), (8, 2), (14, 4), (18, 4), (22, 4), (26, 2), (28, 2)],
    CENTRAL: [(4, 2), (6, 2), (8, 2), (10, 2), (16, 4), (20, 4), (24, 4), (28, 2), (30, 2), (32, 2), (38, 4), (42, 4)],
    END: [(4, 2), (6, 2), (8, 2), (10, 2), (12, 4), (16, 4), (20, 2)],
}
ABSURD = (0, 1, 2, 3, 8, 9, 12, 14, 99, 0x7FFF, 0xFFFF, 0x7FFFFFFF, 0xFFFFFFFE, 0xFFFFFFFF, 46, 500_001)


def within_bounds(work: Callable[[], object]) -> None:
    """Do something in a process of its own that may have only so much memory and time. It must come to its end."""
    child = os.fork()
    if child == 0:
        code = 3
        try:
            taken = int(Path("/proc/self/statm").read_text().split()[0]) * os.sysconf("SC_PAGE_SIZE")
            resource.setrlimit(resource.RLIMIT_AS, (taken + ROOM, taken + ROOM))
            signal.alarm(LONGEST)
            work()
            code = 0
        except BaseException as error:
            os.write(2, f"not refused in plain words: {error!r}\n".encode())
        finally:
            os._exit(code)
    assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0


def looked_at(data: bytes) -> bool:
    """Whether a bundle is one; any error but the one that reaches a person goes through."""
    try:
        contents(unpack(data, "x"), "x")
    except PressloreError as error:
        said = str(error)
        if not said or any(not (sign.isprintable() or sign == "\n") for sign in said) or len(said) > 100_000:
            raise AssertionError(f"not to be shown: {said[:200]!r}") from error
        return False
    return True


def damaged(data: bytes, chance: random.Random) -> bytes:
    """A bundle with something wrong with its bytes."""
    found = bytearray(data)
    for _ in range(chance.randint(1, 4)):
        chance.choice((_number, _bytes, _cut, _doubled))(found, chance)
    return bytes(found)


def _number(data: bytearray, chance: random.Random) -> None:
    kind = chance.choice((LOCAL, CENTRAL, END))
    places = [at for at in range(len(data) - 46) if data[at : at + 4] == kind] or [0]
    at, size = chance.choice(FIELDS[kind])
    at += chance.choice(places)
    value = chance.choice((*ABSURD, len(data), chance.getrandbits(32))) % 256**size
    data[at : at + size] = value.to_bytes(size, "little")


def _bytes(data: bytearray, chance: random.Random) -> None:
    at = chance.randrange(len(data) + 1)
    data[at : at + chance.randint(0, 6)] = chance.randbytes(chance.randint(0, 6))


def _cut(data: bytearray, chance: random.Random) -> None:
    at = chance.randrange(len(data) + 1)
    del data[at : at + chance.randint(1, 200)]


def _doubled(data: bytearray, chance: random.Random) -> None:
    at, to = chance.randrange(len(data) + 1), chance.randrange(len(data) + 1)
    data[to:to] = data[at : at + chance.randint(1, 400)]


def rewritten(files: dict[str, str], chance: random.Random) -> bytes:
    """A whole bundle, vouched for by its manifest, in whose texts something was changed."""
    changed = {}
    for name, text in files.items():
        lines = text.split("\n")
        for _ in range(chance.randint(0, 3)):
            at, other = chance.randrange(len(lines)), chance.randrange(len(lines))
            odd_line = chance.choice((lines[other], "  " + lines[at], lines[at][2:], "", *ODD_LINES))
            lines[at : at + chance.randint(0, 2)] = [odd_line]
        changed[name] = "\n".join(lines).encode("utf-8", "surrogatepass")
    return bundled(changed, chance.choice((zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)))


ODD_LINES = (
    "a: &a [*a, *a]", "? [x]: y", "<<: {a: b}", "- - - -", "causes: null", "rules: []", "rules: x",
    "\x1b]52;c;aGk=\x07",
    'title: "\\e[2J"', "cautions: {x: {}}", "fixes: [1, 2]", "{" * 300,
    "!!python/object/apply:os.system [x]",
    "[" * 3000, "a: " + "x" * 20_000, "status: 1", "adds-to: {}", "\ud800", "\u202e", "date: 9999-99-99",
    "if: {a: [1]}",
    "    steps: 5", "    minutes: .inf", "    turns-up: .nan", "    cures: {x: 1e999}",
)  # fmt: skip


@pytest.fixture(scope="module")
def quay(tmp_path_factory: pytest.TempPathFactory) -> tuple[bytes, Bundle]:
    found = share(lay_out(tmp_path_factory.mktemp("quay")), SMALLEST, sender=Sender(name="The quay"))
    return found.data, found.bundle


@pytest.mark.parametrize("number", [400, pytest.param(20_000, marks=pytest.mark.thorough)])
def test_damaged_bytes_are_read_or_refused(quay: tuple[bytes, Bundle], number: int) -> None:
    chance, squeezed = random.Random(5), bundled(GOOD, zipfile.ZIP_DEFLATED)
    within_bounds(lambda: [looked_at(damaged(chance.choice((quay[0], squeezed)), chance)) for _ in range(number)])


@pytest.mark.parametrize("number", [200, pytest.param(10_000, marks=pytest.mark.thorough)])
def test_changed_texts_are_read_or_refused(quay: tuple[bytes, Bundle], number: int) -> None:
    chance, files = random.Random(6), dict(quay[1].files)
    within_bounds(lambda: [looked_at(rewritten(files, chance)) for _ in range(number)])


def test_damage_does_not_pass_for_a_bundle(quay: tuple[bytes, Bundle]) -> None:
    """Of a bundle's own bytes each counts: one that is changed is noticed, or says the same as before."""
    data, whole = quay
    chance = random.Random(7)
    for _ in range(300):
        at = chance.randrange(len(data))
        changed = data[:at] + bytes([data[at] ^ 1 << chance.randrange(8)]) + data[at + 1 :]
        try:
            found = unpack(changed, "x")
        except PressloreError:
            continue
        assert (dict(found.files), found.sender, found.date) == (dict(whole.files), whole.sender, whole.date)


def overlapping(entries: int) -> bytes:
    """A zip all of whose entries point at the same squeezed bytes."""
    squeezed = io.BytesIO()
    with zipfile.ZipFile(squeezed, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("kb/a.yaml", b"a: b\n" * 90_000)
    data = squeezed.getvalue()
    at, end = data.index(CENTRAL), data.index(END)
    central = data[at:end]
    names = [central.replace(b"kb/a.yaml", f"kb/{number:06}"[:9].encode()) for number in range(entries)]
    number = min(entries, 0xFFFF)
    last = struct.pack("<4s4H2LH", END, 0, 0, number, number, sum(map(len, names)), at, 0)
    return data[:at] + b"".join(names) + last


HEAD = b"adds-to: faint-colour\nstatus: settled\ndate: 2026-11-20\nrules:\n"
RULE = b"  - {cause: dwell-short, brings: likely, why: x, basis: common practice}\n"
ANCHORS = b"a: &a [x]\n" + b"".join(
    b"%c: &%c [*%c, *%c, *%c, *%c]\n" % (n, n, n - 1, n - 1, n - 1, n - 1) for n in range(98, 123)
)


def empty_causes(number: int) -> bytes:
    return b"causes:\n" + b"".join(b"  a%d: {}\n" % one for one in range(number))


@pytest.mark.parametrize(
    ("what", "data"),
    [
        ("200 entries on the same bytes", lambda: overlapping(200)),
        ("30,000 entries on the same bytes", lambda: overlapping(30_000)),
        ("many entries", lambda: bundled({f"kb/a{n}.yaml": b"" for n in range(15_000)})),
        ("a bomb", lambda: bundled({**GOOD, KB: bytes(200_000_000)}, zipfile.ZIP_DEFLATED)),
        ("a manifest like a bomb", lambda: zipped([("manifest.json", b"[" * 450_000), *GOOD.items()])),
        ("a link", lambda: zipped([(odd(KB, 0o120777), b"/etc/passwd")])),
        ("control characters", lambda: bundled({**GOOD, "kb/\x1b]0;x\x07.yaml": b"a"})),
        ("turned names", lambda: bundled({**GOOD, "kb/\u202elmay.yaml": b"a"})),
        ("anchors within anchors", lambda: bundled({**GOOD, KB: ANCHORS})),
        ("brackets", lambda: bundled({**GOOD, KB: b"a: " + b"[" * 200_000})),
        ("one long line", lambda: bundled({**GOOD, KB: b"a: " + b"x " * 200_000})),
        ("many keys", lambda: bundled({**GOOD, KB: empty_causes(20_000)})),
        ("many problems", lambda: bundled({**GOOD, KB: empty_causes(900)})),
        ("many rules", lambda: bundled({**GOOD, "rules/faint-colour.yaml": HEAD + RULE * 3_000})),
    ],
)  # fmt: skip
def test_made_to_do_harm(what: str, data: Callable[[], bytes]) -> None:
    made = data()
    within_bounds(lambda: _refused(made))


def _refused(data: bytes) -> None:
    if looked_at(data):
        raise AssertionError("taken for a bundle")


def test_a_wrong_check_sum_is_noticed(quay: tuple[bytes, Bundle]) -> None:
    data = bytearray(quay[0])
    at = data.rindex(CENTRAL) + 16
    data[at] ^= 0xFF
    with pytest.raises(PressloreError, match="cut off or damaged"):
        unpack(bytes(data), "x")


def test_what_is_no_plain_file_is_never_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.zip")
    (tmp_path / "large.zip").write_bytes(b"PK\x03\x04")
    os.truncate(tmp_path / "large.zip", 20_000_000_000)
    for name in ("pipe.zip", "large.zip", "none.zip", "."):
        with pytest.raises(PressloreError):
            read_bundle(tmp_path / name)
    assert MOST_FILE_BYTES < MOST_BYTES
