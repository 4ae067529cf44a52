"""What a report says in sentences: the same on the screen, on a page of its own and in the handbook."""

from collections.abc import Sequence

from diagnose.casebook.report.charts import Words
from diagnose.casebook.report.report import CauseShare, Report
from diagnose.casebook.report.run_chart import IN_A_ROW, Run, Shift
from diagnose.speech.amounts import minutes, money
from diagnose.speech.saying import say


def sums(report: Report, currency: str) -> str:
    """The cases and their cost in two sentences."""
    return say(
        "report-sums",
        cases=report.cases,
        cured=report.cured,
        handed_over=report.handed_over,
        open=report.cases - report.cured - report.handed_over,
        pieces=report.spoilt,
        minutes=minutes(report.minutes),
        money=money(report.lost, currency),
    )


def left_out(report: Report) -> str:
    """What could not be worked out, "" where all could."""
    return say("cases-left-out", cases=report.not_worked_out) if report.not_worked_out else ""


def greatest(shares: Sequence[CauseShare]) -> str:
    """How few causes make up most of it, as words for who cannot see the chart."""
    if not shares:
        return say("nothing-to-show")
    few = next(place for place, share in enumerate(shares, 1) if share.up_to >= min(0.8, shares[-1].up_to))
    named = [say("share-of", title=share.title, percent=share.share * 100) for share in shares[:3]]
    up_to = shares[few - 1].up_to * 100
    return say("few-make-up-most", few=few, all=len(shares), percent=up_to, first="; ".join(named))


def run_words(run: Run) -> str:
    """The median, and what has shifted."""
    if not run.weeks:
        return say("nothing-to-show")
    shifted = [_shift(run, shift) for shift in run.shifts] or [say("nothing-has-shifted")]
    median = say("weeks-and-median", weeks=len(run.weeks), median=run.median)
    return " ".join([median, *shifted, say("weeks-in-a-row", weeks=IN_A_ROW)])


def _shift(run: Run, shift: Shift) -> str:
    first, last = run.weeks[shift.first].begins, run.weeks[shift.last].begins
    side = "above" if shift.above else "below"
    return say("run-shifted", side=side, first=f"{first}", last=f"{last}")


def chart_words(report: Report) -> dict[str, Words]:
    """The title and the words of each chart."""
    return {
        "causes": Words("causes", say("report-causes"), greatest(report.causes)),
        "losses": Words("losses", say("report-losses"), greatest(report.losses)),
        "weeks": Words("weeks", say("report-weeks"), run_words(report.run)),
    }
