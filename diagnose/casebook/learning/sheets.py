"""Patterns entered on sheets: everything about them that does not change while the numbers are learnt.

A sheet holds patterns with the same number of loud findings, as flat lists of whole numbers that ``tables`` makes
arrays of. The meaning of everything is that of ``reasoning.factors``.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from diagnose.casebook.learning.jobs import Wiring
from diagnose.reasoning.evidence import BETTER, SAME, Evidence
from diagnose.reasoning.factors import FADED, FANCIED, log_of

NOTICED = -1  # in place of a number: how surely a cure is noticed
LOUD, QUIET, TRIED, DAMPED, WEIGHED = 8, 3, 3, 3, 3  # entries of each in a sheet's lists


@dataclass(slots=True)
class LinkLists:
    """Every list of links that sheets refer to, one behind the other: ``start`` of each, and their causes and
    numbers."""

    start: list[int] = field(default_factory=lambda: [0])
    cause: list[int] = field(default_factory=list)
    number: list[int] = field(default_factory=list)
    _known: dict[object, int] = field(default_factory=dict)

    def ref(self, key: object, links: Sequence[tuple[int, int]]) -> int:
        """The place of these links, kept under the key."""
        if key not in self._known:
            self._known[key] = len(self.start) - 1
            self.cause += [cause for cause, _ in links]
            self.number += [number for _, number in links]
            self.start.append(len(self.cause))
        return self._known[key]


@dataclass(slots=True)
class Sheet:
    """Patterns with ``width`` loud findings. ``loud``: pattern, finding, links, level, period, until, only, sight: a
    cause may explain the finding while it outlives ``period``; or, where ``until`` is set, if that fix put it
    right, being silent if it outlived that (``only``: without a pull). ``sight`` marks a defect seen. ``quiet``:
    pattern, links, period. ``tried``: pattern, turn, what the fix cures. ``damped``: pattern, turn, links that "no
    better" speaks against. ``weighed``: pattern, cause, period; and ``ratios``: the logs of what a figure
    leaves of its being there, and of its not. ``constant``: the part of the log likelihood that no number changes."""

    width: int
    count: list[float] = field(default_factory=list)
    net: list[int] = field(default_factory=list)
    leaks: list[float] = field(default_factory=list)
    loud: list[int] = field(default_factory=list)
    quiet: list[int] = field(default_factory=list)
    tried: list[int] = field(default_factory=list)
    damped: list[int] = field(default_factory=list)
    weighed: list[int] = field(default_factory=list)
    ratios: list[float] = field(default_factory=list)
    constant: float = 0.0


def width(evidence: Evidence, wiring: Wiring) -> int:
    """How many loud findings there are."""
    answers = sum(outcome != wiring.checks[check].outcomes[0] for check, (outcome, _) in evidence.answers.items())
    return len(evidence.seen) + answers + sum(tried.change == BETTER for tried in evidence.tried)


@dataclass(frozen=True, slots=True)
class SheetEntry:
    """One pattern to be entered: ``evidence`` names nothing that the wiring does not know."""

    wiring: Wiring
    net: int
    evidence: Evidence
    count: float

    def put(self, sheet: Sheet, links: LinkLists) -> None:
        """Enter the pattern on the sheet."""
        pattern = len(sheet.count)
        sheet.count.append(self.count)
        sheet.net.append(self.net)
        for turn, tried in enumerate(self.evidence.tried, 1):
            cured = self.wiring.cures.get(tried.fix, ())
            if cured:
                sheet.tried += (pattern, turn, links.ref((self.net, tried.fix), cured))
        for weighed in self.evidence.weighed:
            sheet.weighed += (pattern, self.wiring.causes.index(weighed.cause), weighed.period)
            sheet.ratios += (log_of(weighed.there), log_of(weighed.absent))
        for finding, (leak, loud) in enumerate(self._louds(sheet, pattern, links)):
            sheet.leaks += leak
            sheet.loud += (pattern, finding, *loud)

    def _louds(
        self, sheet: Sheet, pattern: int, links: LinkLists
    ) -> Iterator[tuple[tuple[float, float], tuple[int, ...]]]:
        """The loud findings, each with its leak's pull; quiet ones go to the sheet."""
        evidence, defects = self.evidence, self.wiring.defects
        went = {defect: turn for turn, tried in enumerate(evidence.tried, 1) for defect in tried.gone}
        for defect in evidence.seen:
            found, until = defects[defect], went.get(defect, 0)
            b, c = found.leak[1]
            ref = links.ref((self.net, defect), found.links)
            yield (b * FADED if until else b, c), (ref, 1, evidence.period, until, 0, 1)
        for check, (outcome, period) in evidence.answers.items():
            found = self.wiring.checks[check]
            level, ref = found.outcomes.index(outcome), links.ref((self.net, check), found.links)
            if level:
                yield found.leak[level], (ref, level, period, 0, 0, 0)
            else:
                sheet.constant += self.count * log_of(found.leak[0][1])
                sheet.quiet += (pattern, ref, period)
        told = sum([log_of(defects[defect].leak[0][1]) for defect in evidence.seen])
        sheet.constant += self.count * (self.wiring.hushed - told)
        yield from self._changes(sheet, pattern, links)

    def _changes(
        self, sheet: Sheet, pattern: int, links: LinkLists
    ) -> Iterator[tuple[tuple[float, float], tuple[int, ...]]]:
        for turn, tried in enumerate(self.evidence.tried, 1):
            if tried.change not in (BETTER, SAME):
                continue
            shown = {cause for defect in self.evidence.seen for cause, _ in self.wiring.defects[defect].links}
            noticed = tuple([cause for cause, _ in self.wiring.cures.get(tried.fix, ()) if cause in shown])
            ref = links.ref(noticed, [(cause, NOTICED) for cause in noticed])
            if tried.change == BETTER:
                yield (FANCIED, 1.0 - FANCIED), (ref, 1, 0, turn, 1, 0)
            else:
                sheet.constant += self.count * log_of(1.0 - FANCIED)
                sheet.damped += (pattern, turn, ref)
