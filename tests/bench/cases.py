"""Spoiled presses, drawn from the rules that ship: what the dialogue costs until the print is good, against a
fixed checklist, questions at random, and knowing the causes from the start."""

from collections.abc import Mapping, Sequence
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from itertools import repeat
from multiprocessing import get_context
from statistics import fmean
from typing import NamedTuple

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, Move, Pressed, Saw
from diagnose.dialogue.session import Session
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.ranking import SHOWN
from tests.bench.rows import Row
from tests.bench.workshop import UNKNOWN, Press, spoiled, spoiled_by_one

SIZES = {"one cause": 100, "any causes": 50}  # presses in each group
MOST_STEPS = 80
ASKED_AT_RANDOM = 5


class Outcome(NamedTuple):
    """What one way of going about one press came to."""

    minutes: float
    money: float
    cured: bool  # without calling for help
    checks: int
    fixes: int


# --- four ways of going about it; each ends with a good print, by itself or with help ---


def dialogue(press: Press, shop: Shop) -> tuple[int, int]:
    """What presslore advises, step by step."""
    return followed(press, opened(press, shop))


def followed(press: Press, now: Consultation) -> tuple[int, int]:
    """What a consultation advises, step by step: how many checks and fixes that took."""
    for _ in range(MOST_STEPS):
        advice = now.advice
        if advice.kind == "call":
            break
        if advice.kind == "check":
            again = advice.id in now.evidence.answers
            now = _told(now, Answered(advice.id, press.check(advice.id), again))
            continue
        change = press.fix(advice.id)
        if change is None:
            return _counted(now, 1)
        now = _told(now, change)
    press.call()
    return _counted(now, 0)


def checklist(press: Press, shop: Shop) -> tuple[int, int]:
    """No question: every fix that may help with such sights, the likeliest first, down the list."""
    start = opened(press, shop)
    for done, fix in enumerate(_likeliest(start), 1):
        if press.fix(fix) is None:
            return 0, done
    press.call()
    return 0, len(_likeliest(start))


def random_questions(press: Press, shop: Shop) -> tuple[int, int]:
    """Some questions about the suspects, picked blindly; then the likeliest fix, again and again."""
    now = opened(press, shop)
    suspected = {suspect.index for suspect in now.suspects}
    fitting = sorted(c for c, node in now.net.checks.items() if suspected & set(node.links))
    asked = sorted(fitting, key=lambda check: press.luck("asked", check))[:ASKED_AT_RANDOM]
    for check in asked:
        now = _told(now, Answered(check, press.check(check)))
    while fixes := _likeliest(now):
        change = press.fix(fixes[0])
        if change is None:
            return _counted(now, 1)
        now = _told(now, change)
    press.call()
    return _counted(now, 0)


def knowing(press: Press, shop: Shop) -> tuple[int, int]:
    """Somebody who sees the causes: the fix with the best chance over price, until all are gone; help at
    once where something unknown will not go away."""
    done: list[str] = []
    lasting = [d for d, causes in press.sights.items() if UNKNOWN in causes and not press.fades(d)]
    while not lasting and (fixes := _cures(press, done)):
        done.append(fixes[0])
        if press.fix(fixes[0]) is None:
            return 0, len(done)
    press.call()
    return 0, len(done)


def _cures(press: Press, done: Sequence[str]) -> list[str]:
    wanted = set().union(*press.sights.values()) & press.alive
    ranked = []
    for fix, cures in press.net.cures.items():
        gain = sum(cure for cause, cure in cures.items() if cause in wanted)
        if fix not in done and (gain or not wanted):
            ranked.append((-gain / press.price(fix) if wanted else press.price(fix), fix))
    return [fix for _, fix in sorted(ranked)]


def opened(press: Press, shop: Shop) -> Consultation:
    moves = (Pressed(press.item.id), Saw(tuple(press.sights)))
    return Consultation(press.knowledge, shop, Session(moves))


def _told(now: Consultation, move: Move) -> Consultation:
    return now.then(now.session.make(move))


def _counted(now: Consultation, fixes: int) -> tuple[int, int]:
    return len(now.evidence.answers), len(now.evidence.tried) + fixes


def _likeliest(now: Consultation) -> list[str]:
    """The fixes not yet tried, by their chance of putting right what is behind the sights."""
    tried = {tried.fix for tried in now.evidence.tried}
    chances = {
        fix: sum(now.beliefs.behind[cause] * cure for cause, cure in cures.items())
        for fix, cures in now.net.cures.items()
        if fix not in tried
    }
    return sorted((fix for fix, chance in chances.items() if chance >= SHOWN), key=lambda f: (-chances[f], f))


# --- measuring ---

ADVICE = "presslore's advice"
WAYS = {
    ADVICE: dialogue,
    "fixed checklist": checklist,
    "random questions": random_questions,
    "knowing the causes": knowing,
}
GROUPS = {"one cause": spoiled_by_one, "any causes": spoiled}


@cache
def shipped() -> Knowledge:
    return load(shipped_folder())


def outcomes(number: int, group: str) -> list[Outcome]:
    """What each of the ways comes to on the same press."""
    shop = Shop()
    found = []
    for way in WAYS.values():
        press = GROUPS[group](number, shipped(), shop.rates)
        checks, fixes = way(press, shop)
        found.append(Outcome(press.minutes, press.money, not press.helped, checks, fixes))
    return found


def run(sizes: Mapping[str, int] = SIZES) -> list[Row]:
    """Minutes and money to a good print, and the share cured without help. Takes a minute on two cores."""
    rows: list[Row] = []
    with ProcessPoolExecutor(2, mp_context=get_context("spawn")) as pool:
        for group, size in sizes.items():
            each = pool.map(outcomes, range(size), repeat(group), chunksize=2)
            found = dict(zip(WAYS, zip(*each, strict=True), strict=True))
            rows += [_row(group, way, found) for way in WAYS]
    return rows


def _row(group: str, way: str, found: Mapping[str, Sequence[Outcome]]) -> Row:
    name, measured = f"{group}, {way}", _said(found[way])
    if way != ADVICE:
        return Row(name=name, measured=measured)
    money = {other: fmean(outcome.money for outcome in each) for other, each in found.items()}
    ok = money[ADVICE] < min(money["fixed checklist"], money["random questions"])
    return Row(name=name, measured=measured, limit="cheaper than checklist and chance", ok=ok)


def _said(each: Sequence[Outcome]) -> str:
    minutes, money, cured, checks, fixes = (fmean(values) for values in zip(*each, strict=True))
    return f"{minutes:.0f} min, {money:.2f} in money, {cured:.0%} cured, {checks:.1f} checks, {fixes:.1f} fixes"
