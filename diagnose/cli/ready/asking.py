"""The few questions before a press: the goods, what is set, and what of a list is not so. Enter is the usual answer."""

from dataclasses import replace

from diagnose.cli.asking.prompts import ITEM_LETTERS, Reply, ask, ask_words, offered
from diagnose.cli.ready.pages import short_cautions
from diagnose.cli.ready.told import ToldJob, understand
from diagnose.cli.shop.shelf import Shelf
from diagnose.cli.terminal.screen import Screen
from diagnose.foresight.job import to_ask
from diagnose.knowledge.model import Item
from diagnose.knowledge.preparing import Statement
from diagnose.press import quantities
from diagnose.speech.amounts import degrees_between, seconds_between
from diagnose.speech.saying import say
from diagnose.speech.titles import refusal

ITEM = say("what-is-to-be-pressed")
UNSET = {"u": "not set yet"}
WHY = {"?": "what and why"}
GAP = 3
NUMBERS = say("type-numbers")


def ask_all(screen: Screen, own: Shelf, told: ToldJob) -> ToldJob:
    """What was told, with what the person answers to what was not."""
    if not told.item:
        told = replace(told, item=_item(screen, own))
    known = understand(told, own).job.item
    screen.line(f"Item: {known.title if known else 'not a known kind'}", "good")
    short_cautions(screen, own, known)
    if known and known.settings and told.set is None and told.dwell is None:
        told = _settings(screen, own, told, known)
    return _list(screen, own, told)


def _item(screen: Screen, own: Shelf) -> str:
    while True:
        reply = ask_words(screen, ITEM, ITEM_LETTERS)
        if reply.letter:
            return _from_list(screen, own)
        if not reply.words:
            return ""
        taken = understand(ToldJob(item=reply.words), own)
        if not taken.not_understood:
            return reply.words
        screen.line(refusal(taken.refused) if taken.refused else say("item-not-known"))


def _from_list(screen: Screen, own: Shelf) -> str:
    items = sorted(own.knowledge.items.values(), key=lambda item: item.title.lower())
    for number, item in enumerate(items, 1):
        screen.hang(f"{number:>2}", item.title, style="key")
    reply = ask(screen, numbers=len(items), letters=("n",), names={"n": "none of these"})
    return items[reply.number - 1].id if reply.number else ""


def _settings(screen: Screen, own: Shelf, told: ToldJob, item: Item) -> ToldJob:
    """What is set; Enter is the middle of the item's window."""
    assert item.settings is not None
    window = (
        f"{degrees_between(item.settings.temperature, own.shop.temperature)}, {seconds_between(item.settings.dwell)}"
    )
    while True:
        reply = ask_words(screen, say("set-to-what", window=window), UNSET)
        if reply.letter:
            return told
        if not reply.words:
            middle = (sum(item.settings.temperature) / 2, sum(item.settings.dwell) / 2)
            return replace(told, set=middle[0], dwell=middle[1])
        try:
            heat, time = _read(reply.words)
            return replace(told, set=heat, dwell=time)
        except quantities.Unclear as unclear:
            screen.line(f"{unclear}.")


def _read(typed: str) -> tuple[float | None, float | None]:
    """Heat and time in any order: ``196C 60s``, ``1:00 385 F``, ``385F/50s``; None for one that is not there. A bare
    number is the time once the heat is told."""
    heat = time = None
    parts = _parts(typed)
    for part in [*(part for part in parts if not _bare(part)), *filter(_bare, parts)]:
        if _bare(part) and heat is not None and time is None:
            time = quantities.dwell(part)
            continue
        try:
            heat = quantities.temperature(part)
        except quantities.Unclear as no_heat:
            if _bare(part):
                raise
            try:
                time = quantities.dwell(part)
            except quantities.Unclear:
                raise no_heat from None
    return heat, time


def _bare(part: str) -> bool:
    return part.replace(".", "", 1).isdigit()


def _parts(typed: str) -> list[str]:
    """Words, with a unit that stands apart joined to its number."""
    parts: list[str] = []
    for word in typed.translate(str.maketrans(",;/", "   ")).split():
        if (parts and word[0].isalpha() and parts[-1][-1].isdigit()) or (word[0] == "°" and parts):
            parts[-1] += word
        else:
            parts.append(word)
    return parts


def _list(screen: Screen, own: Shelf, told: ToldJob) -> ToldJob:
    asked = to_ask(understand(told, own).job, own.knowledge)
    asked = [one for one in asked if one.id not in (*told.so, *told.not_so, *told.unsure)]
    while True:
        screen.line(say("is-all-this-so"), "title")
        _table(screen, [statement.title for statement in asked])
        reply = ask_words(screen, say("numbers-that-are-not-so"), WHY)
        if reply.letter:
            _why(screen, asked)
            continue
        picked = _picked(reply, len(asked))
        if picked is None:
            screen.line(NUMBERS)
            continue
        wrong, unsure = ([asked[number - 1].id for number in numbers] for numbers in picked)
        return replace(told, not_so=(*told.not_so, *wrong), unsure=(*told.unsure, *unsure), rest_so=True)


def _table(screen: Screen, titles: list[str]) -> None:
    """Short lines with their numbers, as many beside each other as fit, to be read down the columns."""
    room = max(map(len, titles), default=0) + len("12 ") + GAP
    columns = max(1, (screen.width + GAP) // room)
    rows = -(-len(titles) // columns)
    for row in range(rows):
        cells = [f"{number + 1:>2} {titles[number]}" for number in range(row, len(titles), rows)]
        screen.whole("".join(cell.ljust(room) for cell in cells).rstrip())


def _why(screen: Screen, asked: list[Statement]) -> None:
    for number, statement in enumerate(asked, 1):
        screen.hang(f"{number:>2}", f"{statement.holds} {statement.why}", style="key")


def _picked(reply: Reply, most: int) -> tuple[list[int], list[int]] | None:
    """The numbers that are not so, and those nobody is sure of; None where anything else was typed."""
    wrong: list[int] = []
    unsure: list[int] = []
    for part in reply.words.replace(",", " ").replace(" ?", "?").split():
        number = part.removesuffix("?")
        if not offered(number, most):
            return None
        (unsure if part.endswith("?") else wrong).append(int(number))
    return wrong, unsure
