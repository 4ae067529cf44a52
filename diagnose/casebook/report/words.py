"""What a report says in sentences: the same on the screen, on a page of its own and in the handbook."""

from collections.abc import Sequence

from diagnose.casebook.report.charts import Words
from diagnose.casebook.report.report import CauseShare, Report
from diagnose.casebook.report.run_chart import IN_A_ROW, Run, Shift
from diagnose.speech.amounts import minutes, money

CAUSES = "What was behind the cases"
LOSSES = "What the money went on"
WEEKS = "Spoilt pieces by week"
FIXES = "Which fix really cured"
UNEXPLAINED = "The dearest cases without a known cause"
ABOUT_CAUSES = (
    "The expected number of cases that each cause was behind, by the rules of today: a case with two likely causes "
    "counts for both in part."
)
ABOUT_LOSSES = "What each case cost, shared out among what was behind it by how likely each was."
ABOUT_FIXES = (
    "How often each fix was tried, and how often the print was good after it. From and to hold its chance of "
    "that 95 times in 100 (Wilson's interval): wide where it was tried seldom."
)
ABOUT_UNEXPLAINED = (
    "Handed over, or cured with nobody knowing by what: the next ones to get to the bottom of. Under help stands how "
    "many of them help was called for."
)
NOTHING = "There is no case in it yet."


def sums(report: Report, currency: str) -> str:
    """The cases and their cost in two sentences."""
    open_ = report.cases - report.cured - report.handed_over
    ends = [f"{report.cured} cured", f"{report.handed_over} handed over", *([f"{open_} left open"] if open_ else [])]
    cost = f"{pieces(report.spoilt)} spoilt, {minutes(report.minutes)}, {money(report.lost, currency)}"
    return f"{cases(report.cases)}: {', '.join(ends)}. As far as known they cost {cost}."


def left_out(report: Report) -> str:
    """What could not be worked out, "" where all could."""
    number = report.not_worked_out
    verb = "speaks" if number == 1 else "speak"
    return f"{cases(number)} {verb} of what is no longer known, and cannot be laid to any cause." if number else ""


def greatest(shares: Sequence[CauseShare]) -> str:
    """How few causes make up most of it, as words for who cannot see the chart."""
    if not shares:
        return "There is nothing to show."
    few = next(place for place, share in enumerate(shares, 1) if share.up_to >= min(0.8, shares[-1].up_to))
    named = "; ".join(f"{share.title}, {share.share * 100:.0f} %" for share in shares[:3])
    return f"{few} of {len(shares)} make up {shares[few - 1].up_to * 100:.0f} %. First: {named}."


def run_words(run: Run) -> str:
    """The median, and what has shifted."""
    if not run.weeks:
        return "There is nothing to show."
    shifted = [_shift(run, shift) for shift in run.shifts] or ["Nothing has shifted."]
    return " ".join([f"{len(run.weeks)} weeks, median {run.median:g} a week.", *shifted, RULE])


RULE = f"{IN_A_ROW} weeks in a row on one side of the median are more than chance (common practice)."


def _shift(run: Run, shift: Shift) -> str:
    first, last = run.weeks[shift.first].begins, run.weeks[shift.last].begins
    side = "More than usual" if shift.above else "Less than usual"
    return f"{side} from the week of {first} to that of {last}: something has changed."


def cases(number: int) -> str:
    """``1 case``, ``12 cases``."""
    return f"{number} case{'' if number == 1 else 's'}"


def pieces(number: int) -> str:
    """``1 piece``, ``12 pieces``."""
    return f"{number} piece{'' if number == 1 else 's'}"


def chart_words(report: Report) -> dict[str, Words]:
    """The title and the words of each chart."""
    return {
        "causes": Words("causes", CAUSES, greatest(report.causes)),
        "losses": Words("losses", LOSSES, greatest(report.losses)),
        "weeks": Words("weeks", WEEKS, run_words(report.run)),
    }
