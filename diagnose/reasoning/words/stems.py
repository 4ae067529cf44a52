"""Light stemming of English inflections: blurred, blurring, blurry and blur share one stem."""

from functools import lru_cache

IRREGULAR = {
    "came": "come", "ran": "run", "went": "go", "gone": "go", "goes": "go", "stuck": "stick", "tore": "tear",
    "torn": "tear", "bled": "bleed", "lost": "lose", "burnt": "burn", "shrank": "shrink", "shrunk": "shrink",
    "shrunken": "shrink", "bent": "bend", "broke": "break", "broken": "break", "shone": "shine",
    "worn": "wear", "wore": "wear", "grew": "grow", "grown": "grow", "stood": "stand", "lay": "lie",
    "lying": "lie", "lain": "lie", "taken": "take", "took": "take", "sank": "sink", "sunk": "sink",
    "sprung": "spring", "sprang": "spring", "fell": "fall", "fallen": "fall", "feet": "foot",
    "leaves": "leaf", "halves": "half", "shown": "show", "drawn": "draw", "slid": "slide",
    "swollen": "swell", "hidden": "hide", "eaten": "eat", "saw": "see", "seen": "see", "molten": "melt",
    "clung": "cling", "lifted": "lift", "wiped": "wipe", "shook": "shake", "mice": "mouse",
}  # fmt: skip
ENDINGS = ("iness", "iest", "ier", "ing", "ness", "ish", "ed", "ly")
_VOWELS = frozenset("aeiouy")


@lru_cache(maxsize=20_000)
def stem(word: str) -> str:
    """The stem of a folded word. Short words and numbers are their own stems."""
    word = IRREGULAR.get(word, word)
    if len(word) < 4 or not word.isalpha():
        return word
    return _bare(_without_ending(without_plural(word)))


def without_plural(word: str) -> str:
    if word.endswith("ies"):
        return word[:-3] + "y"
    if word.endswith(("sses", "xes", "ches", "shes", "zes")):
        return word[:-2]
    if word.endswith("s") and not word.endswith(("ss", "us", "is")):
        return word[:-1]
    return word


def _without_ending(word: str) -> str:
    for ending in ENDINGS:
        rest = word[: -len(ending)]
        if word.endswith(ending) and len(rest) >= 3 and not _VOWELS.isdisjoint(rest):
            return word if word.endswith("eed") else rest
    return word


def _bare(word: str) -> str:
    """The word without a final e, y or i, and with a doubled last letter written once."""
    while len(word) > 3 and word[-1] in "eyi":
        word = word[:-1]
    if len(word) > 3 and word[-1] == word[-2] and word[-1] not in _VOWELS:
        word = word[:-1]
    return word
