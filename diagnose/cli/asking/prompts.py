"""Plain prompts: a number, one of a few letters, or some words. A person with gloves and twenty seconds reads them."""

import sys
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from diagnose.cli.asking import alarms
from diagnose.cli.terminal.screen import Screen
from diagnose.files.reading import read_stream
from diagnose.speech.saying import say

ITEM_QUESTION = say("what-was-pressed-in-words")
ITEM_LETTERS: Mapping[str, str] = {"l": "list"}


MOST_DIGITS = 9
SHORTEST_WISH = 3  # letters


@dataclass(frozen=True, slots=True)
class Reply:
    """What was typed: ``number`` (from 1, 0 for none) where a number was offered, ``letter`` where a letter was,
    else ``words``."""

    number: int = 0
    letter: str = ""
    words: str = ""


LETTERS: Mapping[str, str] = {
    "?": "why and how",
    "u": "cannot tell",
    "b": "back",
    "w": "what I believe",
    "s": "save, leave",
}
SPELT: Mapping[str, str] = {
    "yes": "y",
    "ok": "y",
    "right": "y",
    "no": "n",
    "none": "n",
    "list": "l",
    "back": "b",
    "done": "d",
    "help": "?",
    "why": "?",
    "how": "?",
    "save": "s",
    "leave": "s",
    "quit": "s",
    "exit": "s",
}  # letters typed as words; they count where the letter is on offer
WISHES: Mapping[str, str] = {
    "cannot-tell": "u",
    "try": "t",
    "stop": "s",
    "back": "b",
    "why": "?",
    "yes": "y",
    "no": "n",
}  # and so do whole sentences that say nothing else


class Left(Exception):
    """The person saved and left."""


def ask(
    screen: Screen,
    *,
    numbers: int,
    letters: Sequence[str],
    names: Mapping[str, str] = LETTERS,
    more: str = "",
    unshown: str = "",
    alarmed: bool = True,
) -> Reply:
    """Ask until something usable is typed. ``more`` says what else may be typed; ``unshown`` are letters that are taken
    as well, for those who say them in words. Unless ``alarmed`` is false, a danger that is typed is told
    first, and the answer asked for anew. Raises Left where ``s`` is unshown and the person wants to stop, EOFError or
    KeyboardInterrupt where they leave otherwise."""
    screen.choices([*(f"{letter} {names[letter]}" for letter in letters), *([more] if more else [])])
    while True:
        typed = _typed(screen, alarmed)
        reply = understand(
            typed, numbers=numbers, letters=_on_offer({letter: names[letter] for letter in letters}, unshown)
        )
        if reply is not None:
            return _staying(reply, unshown)
        screen.line(_offer(numbers, letters, more))


def ask_words(
    screen: Screen, question: str, letters: Mapping[str, str], unshown: str = "", *, alarmed: bool = True
) -> Reply:
    """Ask for words, or one of some letters. An empty line is an empty reply. ``unshown`` and ``alarmed``: as for
    ``ask``."""
    screen.line(question, "title")
    screen.choices([f"{letter} {name}" for letter, name in letters.items()])
    typed = _typed(screen, alarmed).strip()
    if letter := _letter(typed, _on_offer(letters, unshown)):
        return _staying(Reply(letter=letter), unshown)
    return Reply(words=typed)


def understand(typed: str, *, numbers: int, letters: Mapping[str, str]) -> Reply | None:
    """What a typed line means; None where it is empty or a number that is not on offer."""
    text = typed.strip()
    if letter := _letter(text, letters):
        return Reply(letter=letter)
    if text.isdecimal():
        number = offered(text, numbers)
        return Reply(number=number) if number else None
    return Reply(words=text) if text else None


def several(reply: Reply, numbers: int) -> list[int]:
    """The numbers in a reply, one or several with spaces or commas between; [] where it is anything else."""
    parts = [str(reply.number)] if reply.number else reply.words.replace(",", " ").split()
    found = [offered(part, numbers) for part in parts]
    return list(dict.fromkeys(found)) if all(found) else []


def offered(text: str, numbers: int) -> int:
    """The number from 1 up to ``numbers`` that a text is; 0 where it is none of them, however many digits it has."""
    number = int(text) if text.isdecimal() and len(text) <= MOST_DIGITS else 0
    return number if number <= numbers else 0


def _staying(reply: Reply, unshown: str) -> Reply:
    """The reply of a person who goes on. Raises Left for one who wants to stop, where no letter for it is on offer."""
    if reply.letter == "s" and "s" in unshown:
        raise Left
    return reply


def _on_offer(letters: Mapping[str, str], unshown: str) -> Mapping[str, str]:
    return {**dict.fromkeys(unshown, ""), **letters}


def _letter(text: str, letters: Mapping[str, str]) -> str:
    """The letter on offer that was typed, as it is, by its name, as a word or a sentence; "" where none was."""
    plain = text.strip().lower()
    by_name = {name: letter for letter, name in letters.items() if name}
    letter = plain if plain in letters else by_name.get(plain) or SPELT.get(plain) or _wished(plain)
    return letter if letter in letters else ""


def _wished(plain: str) -> str:
    if len(plain) < SHORTEST_WISH:
        return ""
    from diagnose.dialogue.wishes import wish  # what reads words is loaded when there are some

    return WISHES.get(wish(plain), "")


def _offer(numbers: int, letters: Sequence[str], more: str) -> str:
    figures = {0: "", 1: "1"}.get(numbers, f"a number from 1 to {numbers}")
    either = " or ".join(filter(None, (figures, f"one of: {' '.join(letters)}" if letters else "")))
    return f"Type {either}{f', {more}' if more.startswith('or ') else ''}."


def standard_input(most: int) -> bytes:
    """All that comes by standard input, nothing where that is closed. Raises PressloreError past ``most`` bytes."""
    return read_stream(sys.stdin.buffer, shown="standard input", most=most) if sys.stdin else b""


def _typed(screen: Screen, alarmed: bool) -> str:
    """The next line that cries out no danger: the one way in of all that is typed."""
    while True:
        typed = _read(screen)
        if not (alarmed and alarms.sounded(screen, typed)):
            return typed


def _read(screen: Screen) -> str:
    screen.prompt("> ")
    if hasattr(sys.stdin, "reconfigure") and sys.stdin.errors != "replace":
        sys.stdin.reconfigure(errors="replace")  # a letter that cannot be read is no reason to stop
    try:
        return input()
    except RuntimeError:  # standard input is closed
        raise EOFError from None
