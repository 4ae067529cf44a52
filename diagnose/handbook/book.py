"""The knowledge with its cross-references, as the pages need them: what points at what, both ways."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from statistics import fmean
from typing import TypeVar

from diagnose.casebook.report.report import Report
from diagnose.handbook.text import words_in
from diagnose.knowledge.conditions import Job
from diagnose.knowledge.model import Chance, Check, Defect, Fix, Item, Knowledge, Outcome, Rule, WorkedCase
from diagnose.knowledge.shop import Shop
from diagnose.knowledge.trial import on_trial, resting_on_trial
from diagnose.knowledge.ways import seen as seen_as
from diagnose.knowledge.ways import ways
from diagnose.reasoning import words
from diagnose.reasoning.beliefs import believe
from diagnose.reasoning.evidence import Evidence
from diagnose.reasoning.network import Network, network
from diagnose.speech.titles import marked, titled

STANDS_OUT = 1.25  # times the score of the next best
SHORT = 5  # words: a longer way of saying is a sentence, and no name
LOOSER = 120  # of the short ones, as many stand on a page at most
K = TypeVar("K")
V = TypeVar("V")


@dataclass(frozen=True)
class Handbook:
    """All that a page may be drawn from. ``changes`` is the text of the changelog, ``docs`` the hand-written
    files of the site by path, ``report`` what the shop's cases add up to (None: there are none)."""

    knowledge: Knowledge
    shop: Shop = field(default_factory=Shop)
    changes: str = ""
    docs: Mapping[str, bytes] = field(default_factory=dict)
    report: Report | None = None

    # --- which rules, checks, fixes and cases speak of what ---

    @cached_property
    def rules_by_cause(self) -> dict[str, list[tuple[Defect, Rule]]]:
        return _gathered(
            (rule.cause, (defect, rule)) for defect in self.knowledge.defects.values() for rule in defect.rules
        )

    @cached_property
    def checks_by_cause(self) -> dict[str, list[tuple[Check, Outcome, Chance]]]:
        return _gathered(
            (cause, (check, outcome, chance))
            for check in self.knowledge.checks.values()
            for outcome in check.outcomes
            for cause, chance in outcome.shows.items()
        )

    @cached_property
    def fixes_by_cause(self) -> dict[str, list[tuple[Fix, Chance]]]:
        found = _gathered(
            (cause, (fix, chance)) for fix in self.knowledge.fixes.values() for cause, chance in fix.cures.items()
        )
        return {cause: sorted(fixes, key=self._surest_first) for cause, fixes in found.items()}

    @cached_property
    def cases_by_item(self) -> dict[str, list[tuple[Defect, int, WorkedCase]]]:
        """By item: the worked cases pressed on it, each with its defect and its number in that defect's file."""
        return _gathered(
            (case.item, (defect, number, case))
            for defect in self.knowledge.defects.values()
            for number, case in enumerate(defect.cases, 1)
            if case.item
        )

    @cached_property
    def pairs(self) -> dict[tuple[str, str], list[tuple[str, str]]]:
        """By two look-alike defects (in the order of their ids): who tells them apart, and how."""
        return dict(
            sorted(
                _gathered(
                    (_ordered(defect.id, alike.defect), (defect.id, alike.tell))
                    for defect in self.knowledge.defects.values()
                    for alike in defect.look_alikes
                ).items()
            )
        )

    @cached_property
    def pairs_by_defect(self) -> dict[str, list[tuple[str, str]]]:
        """By defect: the other defect of each of its pairs, and how to tell the two apart."""
        told = ((one, (other, how[0][1])) for (one, other), how in self.pairs.items())
        told_back = ((other, (one, how[0][1])) for (one, other), how in self.pairs.items())
        return _gathered([*told, *told_back])

    # --- how likely things are ---

    def net(self, job: Job) -> Network:
        """The network for a job; items that are alike share one."""
        return network(self.knowledge, job)

    @cached_property
    def plain_net(self) -> Network:
        """The network for a job of which nothing is known."""
        return self.net({})

    def behind(self, defect: str) -> list[tuple[str, float]]:
        """The causes of a defect, each with the chance of being behind it when it alone is seen and nothing
        else is known; the likeliest first."""
        beliefs = believe(self.plain_net, Evidence(seen=(defect,)))
        named = {rule.cause for rule in self.knowledge.defects[defect].rules}
        chances = [(cause, beliefs.behind[self.plain_net.index[cause]]) for cause in named]
        return sorted(chances, key=lambda pair: (-round(pair[1], 9), pair[0]))

    @cached_property
    def all_behind(self) -> dict[str, list[tuple[str, float]]]:
        return {defect: self.behind(defect) for defect in self.knowledge.defects}

    @cached_property
    def by_commonness(self) -> list[str]:
        """Defects, the commonest first."""
        return sorted(self.commonness, key=lambda defect: (-round(self.commonness[defect], 9), defect))

    @cached_property
    def on_trial(self) -> frozenset[str]:
        """Causes that rest on nothing but rules on trial."""
        return resting_on_trial(self.knowledge)

    # --- small questions ---

    def title(self, kind: str, entry: str) -> str:
        """The title of an entry, marked where it is a check or fix on trial, or a cause that rests on nothing but rules
        on trial."""
        return marked(titled(getattr(self.knowledge, kind)[entry]), kind == "causes" and entry in self.on_trial)

    def names(self, defect: Defect) -> tuple[str, ...]:
        """What people call a defect: the names in its file, then the looser ways of telling of it, the shop's first."""
        told = (*self.knowledge.heard.get(seen_as(defect.id), ()), *self._ways.get(seen_as(defect.id), ()))
        short = [way for way in told if way.count(" ") < SHORT]
        return tuple(dict.fromkeys((*defect.said, *self.set_phrases.get(defect.id, ()), *short[:LOOSER])))

    @cached_property
    def _ways(self) -> Mapping[str, tuple[str, ...]]:
        """The ways of saying that ship, by what they tell."""
        return ways(self.knowledge)

    @cached_property
    def set_phrases(self) -> dict[str, list[str]]:
        """By defect: set phrases of everyday speech that stand in no list of its names, yet mean it above all."""
        known = self.knowledge
        groups = (group for group in known.words.values() if not group.plain)
        phrases = dict.fromkeys(phrase for group in groups for phrase in group.as_written)
        if not phrases:
            return {}
        lexicon = words.lexicon(known)
        ranked = ((words.rank_defects(lexicon, phrase)[:2], phrase) for phrase in phrases)
        return _gathered(
            (best[0].id, phrase) for best, phrase in ranked if _stands_out([match.score for match in best])
        )

    @cached_property
    def commonness(self) -> dict[str, float]:
        """By defect: how often it would be seen, whatever its cause, over all the items that are known."""
        nets = [self.net(item.job) for item in self.knowledge.items.values()] or [self.plain_net]
        return {defect: fmean(seen(net, defect) for net in nets) for defect in self.knowledge.defects}

    @cached_property
    def vocabulary(self) -> frozenset[str]:
        """Every word that stands in the names and descriptions of defects, causes, checks and fixes."""
        known = self.knowledge
        texts = [
            *(text for d in known.defects.values() for text in (d.title, d.looks, *self.names(d))),
            *(rule.why for d in known.defects.values() for rule in d.rules),
            *(text for c in known.causes.values() for text in (c.title, c.about)),
            *(text for c in known.checks.values() for text in (c.title, c.asks, *c.how)),
            *(text for f in known.fixes.values() for text in (f.title, *f.steps)),
        ]
        return frozenset(word for text in texts for word in words_in(text))

    def _surest_first(self, cure: tuple[Fix, Chance]) -> tuple[bool, float, float, str]:
        fix, chance = cure
        return on_trial(fix), -chance.value, self.shop.rates.worth(fix), fix.id

    def items_of(self, family: str) -> list[Item]:
        return [item for item in self.knowledge.items.values() if item.family == family]

    def family(self, family: str) -> str:
        """The name of a family of items."""
        return family.capitalize()


def _stands_out(scores: list[float]) -> bool:
    """Whether the first of two scores is well above the second."""
    return bool(scores) and (len(scores) == 1 or scores[0] >= STANDS_OUT * scores[1])


def seen(net: Network, defect: str) -> float:
    """How often a defect would be seen in such a job, whatever its cause."""
    node, spared = net.defects[defect], 1.0
    for cause, strength in node.links.items():
        spared *= 1.0 - net.priors[cause] * strength[0]
    return 1.0 - spared * (1.0 - node.leak[0])


def _ordered(one: str, other: str) -> tuple[str, str]:
    return (one, other) if one <= other else (other, one)


def _gathered(pairs: Iterable[tuple[K, V]]) -> dict[K, list[V]]:
    found: dict[K, list[V]] = {}
    for key, value in pairs:
        found.setdefault(key, []).append(value)
    return found
