"""What the session amounts to: the beliefs, the causes that come up and the next step, for one state of it."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from diagnose.dialogue.asking_first import asking_first, never_to_be_met
from diagnose.dialogue.session import Session
from diagnose.knowledge.conditions import FactValue, Job, Usual, learnt
from diagnose.knowledge.model import Item, Knowledge
from diagnose.knowledge.shop import PRESS_NAME, Known, Press, Shop
from diagnose.pace import Far, unheard
from diagnose.reasoning.beliefs import Beliefs, believe
from diagnose.reasoning.doubt import doubted
from diagnose.reasoning.evidence import LATELY, THEN, Evidence, Weighed
from diagnose.reasoning.network import Network, Read, network, read
from diagnose.reasoning.planning import Advice, Desk, advise
from diagnose.reasoning.ranking import Suspect, suspects
from diagnose.reasoning.reasons import Finding, Reason, Turn, decibans, heaviest_first, reasons, turns
from diagnose.reasoning.trouble import PlannedQuestion

if TYPE_CHECKING:
    from diagnose.foresight.last_good import Then
    from diagnose.foresight.readings import IdleFigure, Reading
    from diagnose.knowledge.preparing import Statement
    from diagnose.press.pressing import Result
    from diagnose.reasoning.shaking import Steadiness

TURNING_CHECKS = 3


@dataclass(frozen=True)
class Consultation:
    """A session looked at through the knowledge and the shop's prices. Everything is worked out when asked for,
    and once. The same three values always give the same answers."""

    knowledge: Knowledge
    shop: Shop
    session: Session

    def then(self, session: Session) -> "Consultation":
        """The consultation on another session. What figures say takes a reckoning of heat: it is handed on where they
        and the item are the same."""
        other = Consultation(self.knowledge, self.shop, session)
        alike = (session.item, session.figures) == (self.session.item, self.session.figures)
        if alike and "readings" in vars(self):
            vars(other)["readings"] = self.readings
        return other

    @cached_property
    def item(self) -> Item | None:
        return self.knowledge.items.get(self.session.item)

    @cached_property
    def press(self) -> Press | None:
        """The shop's press: the one that was named, or the only one there is for such an item."""
        if self.session.press:
            return self.shop.presses.get(self.session.press)
        return self.shop.press_for(self.item.job if self.item else {})

    @cached_property
    def known(self) -> tuple[Known, ...]:
        """What is known of the press."""
        return self.press.known if self.press else ()

    @cached_property
    def job(self) -> Job:
        """What is known of the job: as is usual for the item and as the press is, with what the person said laid over
        that, and what answers tell of it."""
        return learnt(self._said_job, [facts for _, facts in self.read])

    @cached_property
    def _said_job(self) -> dict[str, FactValue | Usual]:
        usual = {**(self.item.job if self.item else {}), **(self.press.facts if self.press else {})}
        named = {PRESS_NAME: self.press.id} if self.press else {}
        return {**usual, **self.session.facts, **named}

    @cached_property
    def read(self) -> tuple[Read, ...]:
        """What the answers tell of the job."""
        answers = self.session.evidence.answers.items()
        return read(self.knowledge, self._said_job, {check: outcome for check, (outcome, _) in answers})

    @cached_property
    def net(self) -> Network:
        return network(self.knowledge, self._said_job, self.known, self.read)

    @cached_property
    def evidence(self) -> Evidence:
        """The session's evidence with what figures say; answers to checks and named causes that do not go with the
        job, and answers that a figure has settled, are left aside."""
        evidence = self.session.evidence
        answers = {check: answer for check, answer in evidence.answers.items() if check in self.net.checks}
        named = tuple(one for one in (*evidence.weighed, *self._recalled) if one.cause in self.net.index)
        fitting = replace(evidence, answers=answers, weighed=named)
        if not self.readings:
            return fitting
        from diagnose.foresight.readings import weighing

        return weighing(fitting, self.readings)

    @property
    def _recalled(self) -> Iterator[Weighed]:
        """What the last cases on this press and the last good piece say."""
        yield from (Weighed(LATELY, found.cause, found.times) for found in self.session.found_lately)
        for each in self.then_and_now:
            for cause, ratio in each.ratios.items():
                yield Weighed(THEN + each.kind, cause, ratio, each.period)

    @cached_property
    def then_and_now(self) -> "tuple[Then, ...]":
        """The last good piece held against this one, as far as both were told. Goods say nothing more where it was
        answered what of them is new."""
        good = self.session.last_good
        if good is None:
            return ()
        from diagnose.foresight.last_good import CHECK, figures_then, goods_then

        used = {} if CHECK in self.session.evidence.answers else self.session.used_now
        known = self.knowledge
        return (*figures_then(good.figures, self.session.figures_now, known), *goods_then(good.used, used, known))

    @property
    def compared(self) -> frozenset[str]:
        """The check that need not be asked, because goods were held against those of the last good piece."""
        if not any(isinstance(each.was, str) for each in self.then_and_now):
            return frozenset()
        from diagnose.foresight.last_good import CHECK

        return frozenset((CHECK,))

    @cached_property
    def readings(self) -> "tuple[Reading, ...]":
        """What was measured, and what it says."""
        if not self.session.figures:
            return ()
        from diagnose.foresight.readings import readings

        return readings(self.session.figures, self.item, self.knowledge)

    @cached_property
    def reckoned(self) -> "Result | None":
        """What the item got in the press by the figures, where they are enough to reckon with. It is evidence
        once, with the readings, each of which counts as far off as all of them bring the dose off."""
        if not self.session.figures:
            return None
        from diagnose.foresight.measures import Bench, gone_through

        return gone_through(self.session.figures, Bench(self.item, self.knowledge))

    @property
    def idle(self) -> "tuple[IdleFigure, ...]":
        """Figures that were told and say nothing, and why."""
        if not self.session.figures:
            return ()
        from diagnose.foresight.measures import Bench
        from diagnose.foresight.readings import idle

        return tuple(idle(self.session.figures, self.readings, Bench(self.item, self.knowledge)))

    @cached_property
    def settled(self) -> dict[str, int]:
        """Checks that a figure takes the place of, each with the number of fixes tried before it was read."""
        if not self.readings:
            return {}
        from diagnose.foresight.readings import settled

        return settled(self.readings)

    @property
    def said(self) -> frozenset[str]:
        """Checks whose answer was told when a defect was named."""
        left = [self.knowledge.defects[defect] for defect in self.evidence.left]
        return frozenset(check for defect in left for check in defect.also_answers)

    @cached_property
    def doubted(self) -> dict[str, str]:
        """Answers that do not go with the rest, by check; not those that were looked at again, or cannot be."""
        found = doubted(self.net, self.evidence, self.beliefs)
        stand = self.session.looked_again | self.said
        return {check: outcome for check, outcome in found.items() if check not in stand}

    @property
    def barred(self) -> "tuple[Statement, ...]":
        """Why such goods should not be pressed at all, by what is told and else by what is usual; () where they may
        be."""
        from diagnose.foresight.settings import barred

        taken = {fact: value.value if isinstance(value, Usual) else value for fact, value in self.job.items()}
        return barred(self.knowledge, taken)

    @cached_property
    def beliefs(self) -> Beliefs:
        return believe(self.net, self.evidence)

    @cached_property
    def suspects(self) -> list[Suspect]:
        return suspects(self.net, self.beliefs)

    @cached_property
    def desk(self) -> Desk:
        """What planning needs besides beliefs."""
        closed = self._closed
        return Desk(
            knowledge=self.knowledge,
            rates=self.shop.rates,
            item=self.item,
            closed=closed | never_to_be_met(self.knowledge, self.job, closed),
            doubted=self.doubted,
        )

    @property
    def _closed(self) -> frozenset[str]:
        return self.session.closed | self.session.set_aside | set(self.settled) | self.said | self.compared

    @cached_property
    def advice(self) -> Advice:
        found = advise(self.net, self.beliefs, self.evidence, self.desk)
        return asking_first(found, self.knowledge, self.job, self._closed)

    def steadiness(self, far: Far = unheard) -> "Steadiness":
        """How far the step that is advised hangs on the numbers of the rules. Takes some seconds."""
        from diagnose.reasoning.shaking import steadiness

        return steadiness(self.net, self.evidence, self.desk, self.advice, far=far)

    @cached_property
    def reasons(self) -> dict[int, list[Reason]]:
        """By cause index, for the causes that come up."""
        found = reasons(self.net, self.evidence, self.beliefs, [suspect.index for suspect in self.suspects])
        plain = network(self.knowledge, self._said_job, (), self.read) if self.known else self.net
        for each in self.known:
            index = self.net.index.get(each.cause, -1)
            usual = plain.priors[index] if index in found else 0.0
            if usual:  # the odds before any finding carry over to the odds after them all
                weight = decibans(self.net.priors[index]) - decibans(usual)
                found[index] = heaviest_first([*found[index], Reason(Finding("press", each.cause, each.told), weight)])
        return found

    @cached_property
    def turns(self) -> list[Turn]:
        """What would put another cause first, among the checks best worth asking."""
        asked = [question.id for question in self._questions()[:TURNING_CHECKS]]
        return turns(self.net, self.evidence, self.beliefs, asked)

    def _questions(self) -> list[PlannedQuestion]:
        return [option.step for option in self.advice.options if isinstance(option.step, PlannedQuestion)]
