"""Plain prompts: a number, one of a few letters, or some words. A person with gloves and twenty seconds reads them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from diagnose.cli.screen import Screen


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


def ask(screen: Screen, *, numbers: int, letters: Sequence[str], names: Mapping[str, str] = LETTERS) -> Reply:
    """Ask until something usable is typed. Raises EOFError or KeyboardInterrupt where the person leaves."""
    screen.line("   ".join(f"{letter} {names[letter]}" for letter in letters), "dim")
    while True:
        typed = _read(screen, "> ")
        reply = understand(typed, numbers=numbers, letters=letters)
        if reply is not None:
            return reply
        screen.line(_offer(numbers, letters))


def ask_words(screen: Screen, question: str, letters: Sequence[str] = ()) -> Reply:
    """Ask for words. An empty line is an empty reply."""
    screen.line(question, "title")
    typed = _read(screen, "> ").strip()
    if typed.lower() in letters:
        return Reply(letter=typed.lower())
    return Reply(words=typed)


def understand(typed: str, *, numbers: int, letters: Sequence[str]) -> Reply | None:
    """What a typed line means; None where it is empty or a number that is not on offer."""
    text = typed.strip()
    if text.lower() in letters:
        return Reply(letter=text.lower())
    if text.isdecimal():
        return Reply(number=int(text)) if 1 <= int(text) <= numbers else None
    return Reply(words=text) if text else None


def _offer(numbers: int, letters: Sequence[str]) -> str:
    figures = f"a number from 1 to {numbers}" if numbers > 1 else "1"
    return f"Type {figures}" + (f", or one of: {' '.join(letters)}" if letters else "") + "."


def _read(screen: Screen, prompt: str) -> str:
    screen.stream.write(screen.styled(prompt, "key"))
    screen.stream.flush()
    return input()
