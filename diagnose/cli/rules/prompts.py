"""How the dialogue on a new rule asks: a line of words, one or several of a list, a chance, several lines."""

from collections.abc import Callable, Mapping, Sequence

from diagnose.casebook.proposing.values import Wrong, words_for_chances
from diagnose.cli.asking.prompts import Reply, ask, ask_words, several
from diagnose.cli.terminal.screen import Screen
from diagnose.knowledge.model import Knowledge
from diagnose.speech.amounts import percent
from diagnose.speech.saying import say

Check = Callable[[str], object]
BASIC = {"?": "help", "b": "back"}


class Back(Exception):
    """The person wants the question before."""


def line(screen: Screen, question: str, help_text: str, *, optional: str = "", check: Check | None = None) -> str:
    """One line of words. ``optional`` says what an empty line means; without it one is asked for again. ``check``
    raises Wrong for words that cannot be taken. Raises Back."""
    while True:
        reply = ask_words(screen, f"{question} {optional}".strip(), BASIC, alarmed=False)
        if reply.letter:
            _aside(screen, reply, help_text)
        elif not reply.words and not optional:
            screen.line(say("type-a-few-words"))
        elif not reply.words or _taken(screen, reply.words, check):
            return reply.words


def lines(screen: Screen, question: str, help_text: str, check: Check, *, optional: bool = False) -> tuple[str, ...]:
    """Several lines, ended by an empty one. Raises Back."""
    kept: list[str] = []
    while True:
        ended = say("enter-ends-the-list") if kept else say("enter-for-none") if optional else ""
        asked = say("one-to-a-line", question=question) if not kept else say("and-then-so-far", kept=len(kept))
        reply = ask_words(screen, f"{asked} {ended}".strip(), BASIC, alarmed=False)
        if reply.letter:
            _aside(screen, reply, help_text)
        elif not reply.words and (kept or optional):
            return tuple(kept)
        elif reply.words and _taken(screen, reply.words, check):
            kept.append(reply.words)


def one_of(
    screen: Screen, question: str, help_text: str, texts: Sequence[str], letters: Mapping[str, str] | None = None
) -> Reply:
    """One of a numbered list, by its number; or one of some letters, or words. Raises Back."""
    _asked(screen, question, texts)
    return reply_to(screen, help_text, len(texts), letters or {})


def some_of(
    screen: Screen, question: str, help_text: str, texts: Sequence[str], letters: Mapping[str, str]
) -> tuple[list[int], str]:
    """Several of a numbered list, counted from 0; or a letter. Raises Back."""
    _asked(screen, question, texts)
    while True:
        reply = reply_to(screen, help_text, len(texts), letters, more="several numbers count as well")
        numbers = several(reply, len(texts))
        if numbers or reply.letter:
            return [number - 1 for number in numbers], reply.letter
        screen.line(say("type-one-or-several-numbers", texts=len(texts)))


def chance(screen: Screen, knowledge: Knowledge, question: str, help_text: str, check: Check) -> str:
    """A chance: a word of the scale by its number or itself, or a number. Raises Back."""
    words = words_for_chances(knowledge)
    texts = [f"{word} ({percent(value)})" for word, value in words.items()]
    _asked(screen, question, texts)
    while True:
        reply = reply_to(screen, help_text, len(texts), {}, more="or a share, such as 0.6 or 60 %")
        if reply.number:
            return list(words)[reply.number - 1]
        if _taken(screen, reply.words, check):
            return reply.words


def reply_to(screen: Screen, help_text: str, numbers: int, letters: Mapping[str, str], more: str = "") -> Reply:
    """What is typed below a list, with help given on the way. Raises Back."""
    names = {**letters, **BASIC}
    while True:
        reply = ask(screen, numbers=numbers, letters=tuple(names), names=names, more=more)
        if reply.letter not in BASIC:
            return reply
        _aside(screen, reply, help_text)


def sentence(wrong: Wrong) -> str:
    """What is wrong, with a stop behind it."""
    said = str(wrong)
    return said if said.endswith("?") else f"{said}."


def _asked(screen: Screen, question: str, texts: Sequence[str]) -> None:
    screen.line(question, "title")
    width = len(str(len(texts)))
    for number, text in enumerate(texts, 1):
        screen.hang(f"{number:>{width}}", text, style="key", indent=2)


def _aside(screen: Screen, reply: Reply, help_text: str) -> None:
    if reply.letter == "b":
        raise Back
    screen.line(help_text)


def _taken(screen: Screen, words: str, check: Check | None) -> bool:
    try:
        if check:
            check(words)
    except Wrong as wrong:
        screen.line(sentence(wrong))
        return False
    return True
