"""What a shop says of itself: its name, units, currency, rates and presses, each with a sensible default. What it works
with."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from diagnose.knowledge.conditions import FactValue, Job, Test
from diagnose.knowledge.entry import CauseId, stands
from diagnose.knowledge.model import Chance, Check, Fix, Item, Knowledge, Spends, Wait
from diagnose.problems import Place, Problem

SOFT = ("cloth", "blend")
WAITED = 0.05  # of a minute of hands: whoever waits does other work, but the press and the order stand still
SPOILT = 0.05  # of usual presses, where a shop does not say: one in twenty. Chosen for presslore.
PRESS_NAME = "press.name"  # the fact of a job that says on which of the shop's presses it was pressed


@dataclass(frozen=True, slots=True, kw_only=True)
class Rates:
    """Prices in the shop's currency.

    ``minute``: a minute of work and press time. ``waiting``: a minute in which a step waits for something, None for
    what is usual. ``paper``: a printed sheet. ``scrap``: scrap cloth for a test press.
    ``blank``: a blank of unknown kind. ``help``: outside help, which comes after ``help_minutes``. ``asking``: the
    minutes that reading and answering any question takes, on top of its own.
    """

    minute: float = 0.5
    waiting: float | None = None
    paper: float = 0.4
    scrap: float = 0.5
    blank: float = 3.0
    help: float = 120.0
    help_minutes: float = 120.0
    asking: float = 1.0

    @property
    def minute_waited(self) -> float:
        """What a minute of waiting costs."""
        return self.minute * WAITED if self.waiting is None else self.waiting

    def price(self, minutes: float, spends: Spends, item: Item | None = None, waits: Wait | None = None) -> float:
        """What a step costs: its minutes, its waiting and what it uses up, with the item's own blank where it is
        known."""
        blank = item.blank_price if item else self.blank
        waited = waits.time * self.minute_waited if waits else 0.0
        return minutes * self.minute + waited + spends.paper * self.paper + spends.blank * blank + spends.money

    def worth(self, step: Check | Fix) -> float:
        """The minutes of a step, its waiting as so many minutes of hands as it costs."""
        return step.minutes + step.waits.time * self.minute_waited / self.minute

    def check_price(self, check: Check, item: Item | None) -> float:
        """What a check costs, the time to read and answer the question included."""
        return self.price(check.minutes + self.asking, check.spends, item, check.waits)

    def piece(self, item: Item | None) -> float:
        """What a spoilt piece costs: the blank, a printed sheet, and the minutes of a press."""
        blank = item.blank_price if item else self.blank
        return blank + self.paper + self.minute * self.test_minutes(item)

    def test_press(self, item: Item | None) -> float:
        """What one test press costs: its minutes, a sheet, and scrap cloth or a blank."""
        piece = self.blank if item is None else item.blank_price
        if item is not None and item.family in SOFT:
            piece = min(piece, self.scrap)
        return self.test_minutes(item) * self.minute + self.paper + piece

    def test_minutes(self, item: Item | None) -> float:
        return item.test_minutes if item else 5.0

    def call(self) -> float:
        """What calling for help costs."""
        return self.help + self.help_minutes * self.minute


@dataclass(frozen=True, slots=True, kw_only=True)
class Known:
    """Something known of one press: how often a cause ``turns_up`` in jobs on it, ``since`` when ("" where nobody
    knows), and what was found (``note``)."""

    cause: CauseId
    turns_up: Chance
    since: str = ""
    note: str

    @property
    def told(self) -> str:
        """The finding in one phrase: ``runs 6 °C cool at the left rear corner since March``."""
        return f"{self.note} since {self.since}" if self.since else self.note


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """One of the shop's presses. ``facts`` hold for every job on it, ``known`` is what was found out about it."""

    id: str
    title: str
    facts: Mapping[str, FactValue] = field(default_factory=dict)
    known: tuple[Known, ...] = ()

    def goes_with(self, job: Job) -> bool:
        """Whether such a job may be done on it."""
        return all(Test(fact, (value,)).holds(job) is not False for fact, value in self.facts.items())


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """``address`` holds the lines under the name on a card, ``handbook`` the web address of the shop's handbook ("" for
    none). ``temperature`` is ``C`` or ``F``, ``pressure`` is ``bar``, ``psi`` or ``kPa``: the units shown first.
    ``tolerance`` is the CIEDE2000 within which a print passes, None for the usual one. ``presses`` are by id, in the
    order written; ``spoilt`` is the share of usual presses that go wrong here."""

    name: str = ""
    address: tuple[str, ...] = ()
    handbook: str = ""
    currency: str = ""
    temperature: str = field(default="C", metadata=stands("units", "temperature"))
    pressure: str = field(default="bar", metadata=stands("units", "pressure"))
    tolerance: float | None = None
    rates: Rates = field(default_factory=Rates)
    presses: Mapping[str, Press] = field(default_factory=dict)
    spoilt: float = SPOILT

    def press_for(self, job: Job) -> Press | None:
        """The press that such a job goes on, where the shop has just one such."""
        fitting = [press for press in self.presses.values() if press.goes_with(job)]
        return fitting[0] if len(fitting) == 1 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """What a shop works with: the knowledge, what the shop says of itself, and which of its files had to be left out.
    ``left_out``: the places of the shop's files that could not be used; ``problems``: why, with ``more`` that are only
    counted."""

    knowledge: Knowledge
    shop: Shop = field(default_factory=Shop)
    left_out: tuple[Place, ...] = ()
    problems: tuple[Problem, ...] = ()
    more: int = 0
