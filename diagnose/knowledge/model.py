"""What presslore knows, as frozen values: causes, checks, fixes, defects with their rules, items and facts.

Every value keeps its place (file, line, column) and its origin (``shipped``, ``this shop`` or a bundle's). Chances
carry the word they were written with beside the number, so that a screen can show both.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from typing import Any, Final, NamedTuple, get_args

from diagnose.knowledge.conditions import ALWAYS, Condition, FactValue, Usual, facts_asked
from diagnose.knowledge.entry import NEVER as NEVER
from diagnose.knowledge.entry import SETTLED as SETTLED
from diagnose.knowledge.entry import SHIPPED as SHIPPED
from diagnose.knowledge.entry import THIS_SHOP as THIS_SHOP
from diagnose.knowledge.entry import TRIAL as TRIAL
from diagnose.knowledge.entry import CauseId, CautionId, CheckId, DefectId, FixId, ItemId, TermId, stands
from diagnose.knowledge.entry import Chance as Chance
from diagnose.knowledge.entry import Entry as Entry
from diagnose.knowledge.entry import Instead as Instead
from diagnose.knowledge.entry import Shape as Shape
from diagnose.knowledge.entry import from_a_bundle as from_a_bundle
from diagnose.knowledge.limits import MOST_DEFECTS, MOST_LINES
from diagnose.knowledge.materials import BodyPlan, FamilyBody, Material
from diagnose.knowledge.measures import Measure
from diagnose.knowledge.numbers import Learned
from diagnose.knowledge.preparing import ITEMS_PARTS, Handling, Salvage, Statement
from diagnose.problems import Place

WRONG: Final = {"eye": 0.10, "instrument": 0.07, "memory": 0.13}  # judgement: nobody has counted it at a press
MEETS: Final = ("colour", "place", "edges", "stray", "surface", "later", "")
RESTS_ON: Final = {"look": "eye", "try": "eye", "measure": "instrument", "ask": "memory"}  # by the kind of a check
WORKING_DAY = 480.0  # minutes
OF_PRESS = "press."  # what the ids of facts of the press begin with


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause(Entry):
    """Something that can be put right, and brings defects on. ``shapes``: the first that holds counts."""

    family: str
    turns_up: Chance
    shapes: tuple[Shape, ...] = field(default=(), metadata=stands("when"))
    about: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Outcome:
    """One answer to a check. ``shows`` gives, by cause, how surely it appears when that cause is there;
    ``otherwise`` how often it appears with none of them. The first outcome of a check has neither. ``also_saw`` and
    ``also_answers``: the defects, and by check the outcomes, that whoever tells of this one has told as well;
    ``facts``: what is then known of the job; ``next_spoils``: how often the next piece of the order is spoiled as well
    where this is so, 0 where it tells nothing of that."""

    id: str
    looks: str
    said: tuple[str, ...] = ()
    also_saw: tuple[DefectId, ...] = field(default=(), metadata=stands("also", "saw"))
    also_answers: Mapping[CheckId, str] = field(default_factory=dict, metadata=stands("also", "answers"))
    facts: Condition = field(default=ALWAYS, metadata=stands("facts"))
    shows: Mapping[CauseId, Chance] = field(default_factory=dict)
    otherwise: Chance = NEVER
    next_spoils: Chance = NEVER


@dataclass(frozen=True, slots=True, kw_only=True)
class Spends:
    """What a step uses up: sheets of paper, blanks, and money beyond those (in the shop's currency)."""

    paper: float = 0.0
    blank: float = 0.0
    money: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Wait:
    """What a step waits for with no hand in it, as it reads after "an hour for": ``the press to cool``. The time is
    ``minutes`` and working ``days`` together."""

    what: str = field(default="", metadata=stands("for"))
    minutes: float = 0.0
    days: float = 0.0

    @property
    def time(self) -> float:
        """In minutes of working days: a night, when nobody is there, keeps nobody waiting."""
        return self.minutes + self.days * WORKING_DAY


NO_WAIT = Wait()


@dataclass(frozen=True, slots=True, kw_only=True)
class Check(Entry):
    """A look, a question, a measurement or a small trial. ``minutes`` are those of hands alone. ``outcomes``: the first
    is the quiet one, and where two causes pull apart a later outcome outranks an earlier one. ``rests_on``: what the
    answer is taken from, of ``WRONG``; "" where that goes by its kind. ``status``: ``trial`` where it came in a
    bundle and the shop has not settled it yet; ``confirmed_by`` names the shop's own cases that speak for it."""

    kind: str
    rests_on: str = ""
    asks: str
    how: tuple[str, ...]
    needs: tuple[str, ...] = ()
    minutes: float
    waits: Wait = NO_WAIT
    spends: Spends = Spends()
    condition: Condition = ALWAYS
    outcomes: tuple[Outcome, ...]
    cautions: tuple[CautionId, ...] = ()
    status: str = SETTLED
    confirmed_by: tuple[str, ...] = ()

    @property
    def wrong(self) -> float:
        """How often its answer is another than what there is."""
        return WRONG[self.rests_on or RESTS_ON[self.kind]]

    @property
    def asks_for(self) -> frozenset[str]:
        """The facts of the job that it is there to ask for: those that each of its outcomes tells of, and nothing of a
        cause."""
        if not self.outcomes or any(not outcome.facts.tests or outcome.shows for outcome in self.outcomes):
            return frozenset()
        return frozenset.intersection(*[frozenset(facts_asked([outcome.facts])) for outcome in self.outcomes])

    def outcome(self, outcome_id: str) -> Outcome:
        """The outcome with this id; KeyError where the check has none such."""
        for outcome in self.outcomes:
            if outcome.id == outcome_id:
                return outcome
        raise KeyError(outcome_id)


@dataclass(frozen=True, slots=True, kw_only=True)
class Fix(Entry):
    """What is done about one or more causes. ``cures``: the chance that each is gone afterwards. ``by_figure``: the
    measure that says what to set, in place of all steps but the last, where it was taken. ``status`` and
    ``confirmed_by`` as of a check."""

    steps: tuple[str, ...]
    by_figure: str = ""
    minutes: float
    waits: Wait = NO_WAIT
    spends: Spends = Spends()
    condition: Condition = ALWAYS
    cures: Mapping[CauseId, Chance]
    cautions: tuple[CautionId, ...] = ()
    status: str = SETTLED
    confirmed_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Rule:
    """This cause brings on this defect, this strongly, under this condition, because ..., on whose word.

    ``brings`` is the chance that the cause alone, without any other, brings the defect on.
    ``learned_from`` names the shop's own cases that a learned rule came from, ``confirmed_by`` further ones.
    """

    cause: CauseId
    defect: str
    brings: Chance
    condition: Condition = ALWAYS
    why: str
    basis: tuple[str, ...]
    status: str
    date: str
    learned_from: tuple[str, ...] = ()
    confirmed_by: tuple[str, ...] = ()
    place: Place
    origin: str = SHIPPED


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkedCase:
    """One spoiled press as an example that must hold: after these sights and answers, ``first`` leads
    (several: they fill the first places in any order) and none of ``never`` comes up."""

    story: str
    job: Mapping[str, FactValue] = field(default_factory=dict)
    item: ItemId = ""
    saw: tuple[DefectId, ...]
    not_seen: tuple[DefectId, ...] = ()
    answers: Mapping[CheckId, str] = field(default_factory=dict)
    tried: tuple[FixId, ...] = ()
    first: tuple[CauseId, ...]
    never: tuple[CauseId, ...] = ()
    place: Place


@dataclass(frozen=True, slots=True)
class LookAlike:
    """Another defect this one is mistaken for, and how to tell the two apart."""

    defect: DefectId
    tell: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Defect(Entry):
    """What is wrong to the eye or hand. ``meets``: which of those meets it, by ``MEETS``, "" where that is not said.
    ``otherwise``: how often it is seen with none of its causes. ``also_saw`` and ``also_answers`` as of an outcome."""

    meets: str = ""
    looks: str
    said: tuple[str, ...]
    also_saw: tuple[DefectId, ...] = field(default=(), metadata=stands("also", "saw"))
    also_answers: Mapping[CheckId, str] = field(default_factory=dict, metadata=stands("also", "answers"))
    look_alikes: tuple[LookAlike, ...] = ()
    otherwise: Chance
    rules: tuple[Rule, ...]
    cases: tuple[WorkedCase, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Settings:
    """How an item is pressed: °C, seconds, pressure in the trade's words; windows as (least, most). ``handling``: what
    is done otherwise than with other such goods, by part; ``pre_press`` its seconds where they are others."""

    temperature: tuple[float, float]
    dwell: tuple[float, float]
    pressure: str
    peel: str
    settle: float
    note: str = ""
    pre_press: tuple[float, float] | None = None
    handling: Mapping[str, str] = field(default_factory=dict, metadata=stands(gathers=ITEMS_PARTS))


@dataclass(frozen=True, slots=True, kw_only=True)
class Item(Entry):
    """A kind of item. ``facts`` are what is known of any such item, e.g. its share of polyester; ``may_be``: what some
    of them are instead, now and then. ``body`` is how it differs from its family in what it is made of and how it is
    heated."""

    family: str
    facts: Mapping[str, FactValue]
    may_be: Mapping[str, tuple[Instead, ...]] = field(default_factory=dict)
    said: tuple[str, ...]
    settings: Settings | None = None
    body: BodyPlan | None = None
    blank_price: float
    test_minutes: float
    cautions: tuple[CautionId, ...] = ()

    @property
    def job(self) -> dict[str, FactValue | Usual]:
        """What is known of a job with such an item as long as nobody has told."""
        return {fact: self._usual(value, self.may_be.get(fact, ())) for fact, value in self.facts.items()}

    @property
    def listed(self) -> dict[str, FactValue | Usual]:
        """The goods taken as they are listed; the kind of press stays open."""
        return {**self.job, **{fact: value for fact, value in self.facts.items() if not fact.startswith(OF_PRESS)}}

    @staticmethod
    def _usual(value: FactValue, instead: tuple[Instead, ...]) -> FactValue | Usual:
        others = [(each.value, each.turns_up.value) for each in instead]
        return Usual(((value, 1.0 - sum([share for _, share in others])), *others)) if others else value


@dataclass(frozen=True, slots=True, kw_only=True)
class Refused(Entry):
    """A stuff that no print takes to, and why. ``said``: the words it goes by; ``instead``: what to offer."""

    said: tuple[str, ...]
    why: str
    instead: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Danger(Entry):
    """What may hurt somebody now: the ``steps`` to take, whom to ``call``, what ``never`` to do. ``said``: how people
    cry it out; what ships is heard by its grammar (``reasoning.words.dangers``), a shop's own by these words alone."""

    steps: tuple[str, ...]
    call: str
    never: tuple[str, ...]
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Elsewhere(Entry):
    """Another craft or trade that people ask about: one sentence ``says`` so, ``turn_to`` with whom to turn to.
    ``said``: how people ask."""

    says: str
    turn_to: str
    said: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CareStatement:
    """One thing the customer is told. ``kind`` is one of the kinds in ``diagnose.knowledge.care``; ``only_for``: the
    items of the note that it fits, by id (none: all of them)."""

    kind: str
    text: str
    only_for: tuple[str, ...] = field(default=(), metadata=stands("only-for"))
    basis: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CareNote(Entry):
    """How the customer looks after some items. ``tell``: what to say to one who brings such a piece back with one
    of the note's defects; ``short``: the note in a message ("" for none). The statements stand in the order of the
    care-labelling standards, each on its own basis."""

    basis: tuple[str, ...] = field(default=(), init=False)
    items: tuple[ItemId, ...]
    defects: tuple[DefectId, ...]
    tell: str
    short: str = ""
    statements: tuple[CareStatement, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Fact:
    """Something a condition may ask about the job: one of some words, a number, or yes or no."""

    id: str
    title: str
    asks: str = field(metadata=stands("ask"))
    one_of: tuple[str, ...] = ()
    words: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    unit: str = field(default="", metadata=stands("number", "unit"))
    least: float | None = field(default=None, metadata=stands("number", "least"))
    most: float | None = field(default=None, metadata=stands("number", "most"))
    yes_no: bool = False
    place: Place


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution(Entry):
    """How a step can hurt somebody or ruin goods. ``at_a_press``: when it is read before a press
    (``diagnose.knowledge.cautions``), "" where only goods and steps bring it. ``called_for_by``: words of a step that
    call for it, a ``*`` for any ending; ``not_by``: words that are passed over before those are looked for."""

    text: str
    at_a_press: str = ""
    called_for_by: tuple[str, ...] = ()
    not_by: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Term(Entry):
    """A word of the trade and what it means; ``see`` names related terms."""

    title: str = field(metadata=stands("term"))
    means: str
    see: tuple[TermId, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class WordGroup:
    """Everyday words and phrases that mean the same here. ``as_written``: phrases that count in no other form
    of their words. ``plain``: the words carry no meaning of their own, and are passed over."""

    id: str
    note: str
    members: tuple[str, ...]
    as_written: tuple[str, ...] = ()
    plain: bool = False
    place: Place
    origin: str = SHIPPED


@dataclass(frozen=True, slots=True, kw_only=True)
class Source(Entry):
    """A published source: who, when, what kind, what rests on it here, how much of it was read. It is its own basis."""

    basis: tuple[str, ...] = field(default=(), init=False)
    authors: str
    year: str
    kind: str
    says: str
    read: str


@dataclass(frozen=True, slots=True)
class ScaleWord:
    """A word for a chance, its number, and where that number comes from."""

    word: str
    value: float
    source: str


def _kind(one: str, called: str = "", most: int = 0) -> dict[str, Any]:
    return {"one": one, "called": called, "most": most}


@dataclass(frozen=True, slots=True, kw_only=True, init=False, eq=False, repr=False)
class Entries:
    """All kinds of entries, each by id in the order written: the one table of kinds. A field's name is where entries
    stand in a file of ``kb/`` (a defect is a whole file of ``rules/``); ``EntryKind`` says what else it tells."""

    facts: Mapping[str, Fact] = field(default_factory=dict, metadata=_kind("fact"))
    causes: Mapping[str, Cause] = field(default_factory=dict, metadata=_kind("cause"))
    checks: Mapping[str, Check] = field(default_factory=dict, metadata=_kind("check"))
    fixes: Mapping[str, Fix] = field(default_factory=dict, metadata=_kind("fix"))
    defects: Mapping[str, Defect] = field(default_factory=dict, metadata=_kind("defect", most=MOST_DEFECTS))
    items: Mapping[str, Item] = field(default_factory=dict, metadata=_kind("item"))
    cautions: Mapping[str, Caution] = field(default_factory=dict, metadata=_kind("caution"))
    glossary: Mapping[str, Term] = field(default_factory=dict, metadata=_kind("term", "words of the glossary"))
    sources: Mapping[str, Source] = field(default_factory=dict, metadata=_kind("source"))
    words: Mapping[str, WordGroup] = field(default_factory=dict, metadata=_kind("group", "groups of words"))
    refused: Mapping[str, Refused] = field(default_factory=dict, metadata=_kind("stuff", "stuffs that are refused"))
    dangers: Mapping[str, Danger] = field(default_factory=dict, metadata=_kind("danger"))
    elsewhere: Mapping[str, Elsewhere] = field(default_factory=dict, metadata=_kind("craft", "other crafts"))
    care: Mapping[str, CareNote] = field(default_factory=dict, metadata=_kind("note", "care notes"))
    handling: Mapping[str, Handling] = field(
        default_factory=dict, metadata=_kind("line", "lines on handling", most=MOST_LINES)
    )
    salvage: Mapping[str, Salvage] = field(
        default_factory=dict, metadata=_kind("salvage", "ways with a spoiled piece", most=MOST_LINES)
    )
    ready: Mapping[str, Statement] = field(
        default_factory=dict, metadata=_kind("statement", "statements before a press")
    )
    materials: Mapping[str, Material] = field(default_factory=dict, metadata=_kind("material"))
    bodies: Mapping[str, FamilyBody] = field(default_factory=dict, metadata=_kind("body", "make-ups"))
    readings: Mapping[str, Measure] = field(default_factory=dict, metadata=_kind("reading"))


class EntryKind(NamedTuple):
    """A kind of entry: its ``name``, the class that its entries are ``made`` of, what ``one`` is in the code of a
    problem, what several are ``called`` within a sentence, and how many a folder may hold (0: as many as of all)."""

    name: str
    made: type[Any]
    one: str
    called: str
    most: int


KINDS: Final = {
    each.name: EntryKind(
        name=each.name, made=get_args(each.type)[1], **{**each.metadata, "called": each.metadata["called"] or each.name}
    )
    for each in fields(Entries)
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Knowledge(Entries):
    """Everything. ``version`` is a digest of the files' content. ``heard``: a shop's own ways of saying, by what they
    tell (``defect ghosting``, ``answer CHECK OUTCOME``, ``cause ID``, ``idle``); what ships is read by
    ``diagnose.knowledge.ways`` alone. ``unlearned``: the numbers that the shop's cases have changed, as they were
    before."""

    version: str
    scale: Mapping[str, ScaleWord]
    scale_note: str
    heard: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    unlearned: tuple[Learned, ...] = ()
