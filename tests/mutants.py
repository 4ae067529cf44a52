"""Files as they come out of a bad stick, a careless editor or a hostile hand: made from a good one, by a seed."""

import random
import re

# What a value may be swapped for: of a wrong kind, too large, too long, or with a meaning of its own to some reader.
VALUES = [
    *b"null true no [] {} 5 -1 0 -0 .nan .inf -.inf 1e999 1e-999 0x1f 1_000 2026-02-30 80..50 >= con ../../x".split(),
    *b"""~ ' " : - & * ! % @ ` | > ? [ { } --- ... <script> {{7*7}} __proto__ *a &a !!int !!binary <<: "\0" """.split(),
    *rb""" "\e]52;c;eA==\a" "\u202e" "\ud800" "\x00" """.split(),
    b"&a [*a]", b"!!python/object/apply:os.system [true]", b"!!int x", b"<<: {a: b}", b"<<: *a", b"[x, y", b"{a: b}",
    b"9" * 400, b"a" * 5000, b"[" * 300, b"{a: " * 200, b"- " * 200, b"", b"\t", "²".encode(), "١٢".encode(),
    b"\x00", b"\x1b[31m", b"\xff\xfe", b"\xc3", b"\xed\xa0\x80", b"\xe2\x80\xa8",
]  # fmt: skip


def mutant(data: bytes, chance: random.Random) -> bytes:
    """The file with one to four things done to it."""
    for _ in range(chance.choice([1, 1, 1, 2, 4])):
        data = chance.choice([flipped, cut, doubled, swapped, swapped, swapped, moved, indented])(data, chance)
    return data


def flipped(data: bytes, chance: random.Random) -> bytes:
    """A few bytes are others."""
    spoilt = bytearray(data)
    for _ in range(chance.choice([1, 1, 3, 20])):
        if spoilt:
            spoilt[chance.randrange(len(spoilt))] = chance.randrange(256)
    return bytes(spoilt)


def cut(data: bytes, chance: random.Random) -> bytes:
    """Some lines, or the end, are missing."""
    lines = data.splitlines(keepends=True)
    if chance.random() < 0.2:
        return data[: chance.randrange(len(data) + 1)]
    start = chance.randrange(len(lines) + 1)
    return b"".join([*lines[:start], *lines[start + chance.randint(1, 4) :]])


def doubled(data: bytes, chance: random.Random) -> bytes:
    """Some lines stand there again, once or very often."""
    lines = data.splitlines(keepends=True)
    start = chance.randrange(len(lines) + 1)
    again = lines[start : start + chance.randint(1, 8)] * chance.choice([1, 1, 1, 2, 40])
    return b"".join([*lines[:start], *again, *lines[start:]])


def swapped(data: bytes, chance: random.Random) -> bytes:
    """One value is another."""
    values = list(re.finditer(rb"(?<=[:\-,\[\{\"] )[^\n,\]}]+|(?<=[:,\[])[^\n ,\]}:]+", data))
    if not values:
        return data + chance.choice(VALUES)
    one = chance.choice(values)
    return data[: one.start()] + chance.choice(VALUES) + data[one.end() :]


def moved(data: bytes, chance: random.Random) -> bytes:
    """One line has come to stand elsewhere."""
    lines = data.splitlines(keepends=True)
    if lines:
        line = lines.pop(chance.randrange(len(lines)))
        lines.insert(chance.randrange(len(lines) + 1), line)
    return b"".join(lines)


def indented(data: bytes, chance: random.Random) -> bytes:
    """One line begins further to the right or left."""
    lines = data.splitlines(keepends=True)
    if lines:
        number = chance.randrange(len(lines))
        lines[number] = b"  " + lines[number] if chance.random() < 0.5 else lines[number].removeprefix(b"  ")
    return b"".join(lines)
