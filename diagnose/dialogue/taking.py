"""What was heard, as moves that can each be struck out, put right, and laid over the session there was."""

from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import dataclass, replace

from diagnose.dialogue.hearing import Heard
from diagnose.dialogue.moves import (
    Answered,
    DidNotSee,
    FoundLately,
    LastGood,
    Measured,
    Move,
    Named,
    Pressed,
    Saw,
    TriedFix,
    Used,
)
from diagnose.dialogue.session import Session


@dataclass(frozen=True, slots=True)
class Telling:
    """One thing that was heard, and the words that carried it ("" where nobody knows)."""

    move: Move
    words: str = ""


def tellings(heard: Heard, item: str = "") -> list[Telling]:
    """What was heard, one move each. ``item``: the one that is pressed as far as was said before; facts told without
    an item are facts of it."""
    said = heard.spoken
    return [Telling(move, said.get(key, "")) for key, move in _moves(heard, item)]


def news(told: Iterable[Telling], session: Session) -> list[Telling]:
    """What the session does not hold yet."""
    return [each for each in told if not _held(each.move, session)]


def corrected_by(told: list[Telling], anew: list[Telling], *, added: bool) -> list[Telling]:
    """What was told, put right by what was told then: the item, a figure, an answer to the same check take the place of
    the former, a defect that is denied goes. Defects that are named again take the place of all that were named, unless
    they are ``added``."""
    gone = {defect for each in anew if isinstance(each.move, DidNotSee) for defect in each.move.defects}
    again = not added and any(isinstance(each.move, Saw) for each in anew)
    kept = [each for each in told if not (again and isinstance(each.move, Saw)) and each.move != Saw(tuple(gone))]
    instead = {_subject(each.move): each for each in anew}
    put_right = {_subject(each.move): instead.pop(_subject(each.move), each) for each in kept}
    return sorted([*put_right.values(), *instead.values()], key=_order)


def after(session: Session, moves: Iterable[Move]) -> Session:
    """The session after what was told. Another item takes the place of the first, with all that was said and recalled
    of it; a defect that is denied after it was seen is taken back."""
    for move in moves:
        if isinstance(move, Pressed) and session.item not in ("", move.item):
            others = (one for one in session.moves if not isinstance(one, Pressed | LastGood | FoundLately | Used))
            session = Session((replace(move, press=move.press or session.press), *others))
        elif isinstance(move, DidNotSee):
            session = Session(tuple(_taken_back(session.moves, set(move.defects)))).make(move)
        else:
            session = session.make(move)
    return session


def gone_of(left: Iterable[str], *, seen: Collection[str], went: Collection[str]) -> tuple[str, ...]:
    """Which of the defects that were ``left`` before a fix have gone, where somebody says what is left after it: those
    said to have gone, else those that are not among what is ``seen`` then, where anything is."""
    if went:
        return tuple(defect for defect in left if defect in went and defect not in seen)
    return tuple(defect for defect in left if defect not in seen) if seen else ()


def denies(move: Move, left: Collection[str]) -> bool:
    """Whether a move says that something is not there which was left before: after a fix it has gone by that."""
    return isinstance(move, DidNotSee) and {*move.defects} <= {*left}


def _moves(heard: Heard, item: str) -> Iterator[tuple[str, Move]]:
    if heard.item or heard.facts:
        yield "item", Pressed(heard.item or item, dict(heard.facts))
    yield from ((f"defect {defect}", Saw((defect,))) for defect in heard.defects)
    yield from ((f"not-seen {defect}", DidNotSee((defect,))) for defect in heard.not_seen)
    yield from ((f"fix {fix}", TriedFix(fix, change)) for fix, change in heard.tried)
    yield from ((f"figure {name}", Measured({name: value})) for name, value in heard.figures)
    yield from ((f"answer {check}", Answered(check, outcome)) for check, outcome in heard.answers)
    yield from ((f"cause {cause}", Named(cause)) for cause in heard.causes)


_ORDER = (Pressed, Saw, DidNotSee, TriedFix, Measured, Answered, Named)


def _order(telling: Telling) -> int:
    return next((at for at, kind in enumerate(_ORDER) if isinstance(telling.move, kind)), len(_ORDER))


def _subject(move: Move) -> object:
    """What a move speaks of: of two that speak of the same the later counts."""
    match move:
        case Pressed():
            return Pressed
        case Measured(figures):
            return Measured, tuple(figures)
        case Answered(check):
            return Answered, check
    return move


def _held(move: Move, session: Session) -> bool:
    evidence = session.evidence
    match move:
        case Pressed(item, facts):
            return item in ("", session.item) and facts.items() <= session.facts.items()
        case Saw(defects):
            return {*defects} <= {*evidence.left}
        case DidNotSee(defects):
            return {*defects} <= {*evidence.not_seen, *evidence.gone}
        case Answered(check, outcome):
            return evidence.answers.get(check, ("",))[0] == outcome
        case Named(cause):
            return (cause, evidence.period) in evidence.named
        case Measured(figures):
            return bool(session.figures) and figures.items() <= _figures(session).items()
    return False


def _figures(session: Session) -> Mapping[str, float]:
    """The figures told since the last fix."""
    period = session.evidence.period
    return {name: value for at, told in session.figures if at == period for name, value in told.items()}


def _taken_back(moves: Iterable[Move], defects: set[str]) -> Iterator[Move]:
    for move in moves:
        if not isinstance(move, Saw):
            yield move
        elif left := tuple(defect for defect in move.defects if defect not in defects):
            yield Saw(left)
