"""Texts made to keep somebody waiting: long runs of blanks, digits, letters, signs, denials and names."""

RUNS = ("65" + " " * 1_000 + "x", "65" + "\u00a8" * 1_000 + "x", "65" + " \n" * 1_000 + "x", "65" + " \u0301" * 1_000)
LONG = (
    "1" * 100_000,
    "a" * 100_000,
    "1/" * 50_000,
    "1 " * 50_000,
    "\"'" * 50_000,
    "((" * 50_000,
    "65 % " * 20_000,
    "5.5 mm " * 20_000,
    "no ghost " * 10_000,
    "nothing doubled " * 10_000,
    "no " + "or ghost " * 10_000,
    "no ghosting " * 10_000,
    "pale, doubled; " * 10_000,
    "polyester cotton " * 10_000,
    "mug for " * 10_000,
    "a\u0301\u0316" * 30_000,
    "\ufdfa" * 50_000,
    "\n" * 100_000,
)
HOSTILE = (*RUNS, *LONG)
