"""A spoiled piece played through the dialogue: every question is answered by what is so, every fix is tried.

Nothing is told but what the person says at first; what was heard of that is taken as it was heard, right or wrong.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field

from diagnose.cli.asking.flags import Flags, TakenFlags, take
from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, CannotTell, Cured, DidNotSee, HandedOver, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.dialogue.taking import after
from diagnose.dialogue.telling import after_this
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.evidence import BETTER, SAME
from diagnose.reasoning.words import Lexicon
from tests.spoiled.pieces import Piece

MOST_STEPS = 60
SURELY = 0.5  # a fix that cures a cause at least as often as not, by the rules, puts it right
LIKE = ("item.hard", "item.shape")  # what is asked of goods that are on no list


@dataclass(frozen=True, slots=True, kw_only=True)
class Played:
    """A dialogue that is over. ``heard``: the defects that it began with; ``questions``: those asked, what had to be
    asked for want of understanding included; ``fixes``: those tried, and ``wrong`` how many of them put nothing right;
    ``minutes``: hands-on, to the cure or the call; ``cured``: whether every cause was put right;
    ``foretold``: with each question of the dialogue itself, how many more it said would come."""

    piece: Piece
    session: Session
    heard: tuple[str, ...]
    questions: int
    fixes: tuple[str, ...]
    wrong: int
    minutes: float
    cured: bool
    foretold: tuple[int, ...]

    @property
    def foretold_too_many(self) -> list[int]:
        """By how many each question said too much of what was still to come; below 0 too little."""
        return [told - left for left, told in enumerate(reversed(self.foretold))]

    @property
    def handed_over(self) -> bool:
        return isinstance(self.session.over, HandedOver)


Opening = tuple[Session, int]  # what was told at first, and the questions that this took
Opens = Callable[[Piece], Opening]


def heard(knowledge: Knowledge, lexicon: Lexicon) -> Opens:
    """Opens with the person's words, as the command takes them."""

    def opening(piece: Piece) -> Opening:
        taken = take(Flags(item=piece.item, words=(piece.says,)), knowledge, lexicon, Session())
        goods, asked = _goods(piece, taken)
        session = after(after(taken.session, goods), meant(piece, taken.unsure))
        asked += bool(taken.unsure)
        if session.evidence.seen:
            return session, asked
        return session.make(Saw(_picked(piece, taken.near_defects))), asked + 1

    return opening


def handed_over_as_ids(piece: Piece) -> Opening:
    """Opens with what a perfect listener takes from the goods and the fault."""
    return Session((_pressed(piece), Saw(piece.defects))), 0


def play(piece: Piece, opening: Opening, knowledge: Knowledge, shop: Shop) -> Played:
    """The whole dialogue, to the cure, the call or the sixtieth step."""
    session, asked = opening
    now = Consultation(knowledge, shop, session)
    game = _Game(piece, knowledge, shop, questions=asked, minutes=asked * shop.rates.asking, left=[*piece.cured_by])
    for _ in range(MOST_STEPS):
        now = now.then(after(now.session, game.reply(now)))
        if now.session.over:
            break
    return Played(
        piece=piece,
        session=now.session,
        heard=session.evidence.seen,
        questions=game.questions,
        fixes=tuple(game.fixes),
        wrong=game.wrong,
        minutes=game.minutes,
        cured=not game.left,
        foretold=tuple(game.foretold),
    )


@dataclass(slots=True)
class _Game:
    """The person at the press, and what is counted. ``left``: the causes that are still there."""

    piece: Piece
    knowledge: Knowledge
    shop: Shop
    questions: int
    minutes: float
    left: list[str]
    fixes: list[str] = field(default_factory=list)
    wrong: int = 0
    foretold: list[int] = field(default_factory=list)

    def reply(self, now: Consultation) -> tuple[Move, ...]:
        if now.advice.kind == "call":
            return (HandedOver(),)
        if now.advice.kind == "fix":
            return self._tried(now, now.advice.id)
        self.foretold.append(after_this(now))
        return (self._answered(now.advice.id),)

    def _answered(self, check: str) -> Move:
        self.questions += 1
        self.minutes += self.shop.rates.asking
        if check not in self.piece.seen:
            return CannotTell(check)
        self.minutes += self.knowledge.checks[check].minutes
        return Answered(check, self.piece.seen[check])

    def _tried(self, now: Consultation, fix: str) -> tuple[Move, ...]:
        """What the test piece shows: where one of two causes is put right, what the other brings on is left."""
        self.fixes.append(fix)
        self.minutes += self.knowledge.fixes[fix].minutes + self.shop.rates.test_minutes(now.item)
        put_right = [cause for cause in self.left if self._puts_right(fix, cause)]
        self.left = [cause for cause in self.left if cause not in put_right]
        if not self.left:
            return (Cured(fix),)
        if not put_right:
            self.wrong += 1
            return (TriedFix(fix, SAME),)
        lasting = self._brought(self.left)
        gone = tuple(defect for defect in now.evidence.left if defect not in lasting)
        new = tuple(defect for defect in lasting if defect not in now.evidence.left)
        return (TriedFix(fix, BETTER, gone), *([Saw(new)] if new else []))

    def _puts_right(self, fix: str, cause: str) -> bool:
        cures = self.knowledge.fixes[fix].cures
        return fix in self.piece.cured_by[cause] or (cause in cures and cures[cause].value >= SURELY)

    def _brought(self, causes: Sequence[str]) -> tuple[str, ...]:
        """The piece's defects that some of its causes bring on."""
        rules = self.knowledge.defects
        return tuple(d for d in self.piece.defects if any(rule.cause in causes for rule in rules[d].rules))


def _goods(piece: Piece, taken: TakenFlags) -> tuple[tuple[Move, ...], int]:
    """What is told where the goods were not understood, and the questions that it takes: the nearest are offered, then
    it is asked what they are like."""
    if taken.session.item:
        return (), 0
    if piece.goods in taken.near_items:
        return (Pressed(piece.goods),), 1
    return (_pressed(piece),), 1 + bool(taken.near_items)


def _pressed(piece: Piece) -> Pressed:
    """The goods by name, or what they are like where they are on no list."""
    return Pressed(piece.goods) if piece.goods else Pressed("", {fact: piece.facts[fact] for fact in LIKE})


def meant(piece: Piece, readings: Sequence[Sequence[Move]]) -> Sequence[Move]:
    """Of the readings that are offered the one that tells nothing but what is so, () where none does."""
    return next((reading for reading in readings if all(_is_so(piece, move) for move in reading)), ())


def _is_so(piece: Piece, move: Move) -> bool:
    match move:
        case Saw(defects):
            return {*defects} <= {*piece.defects}
        case DidNotSee(defects):
            return not {*defects} & {*piece.defects}
        case Answered(check, outcome):
            return piece.seen.get(check) == outcome
    return False


def _picked(piece: Piece, near: Sequence[str]) -> tuple[str, ...]:
    """What is picked where no defect was understood: of the nearest the one that is there, else all from the list."""
    return next(((defect,) for defect in near if defect in piece.defects), piece.defects)
