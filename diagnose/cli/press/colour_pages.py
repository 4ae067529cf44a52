"""Judged pairs of proof and print: on the screen, as JSON values and as a sheet."""

import csv
import io
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from diagnose.cli.terminal import swatches
from diagnose.cli.terminal.screen import Screen
from diagnose.foresight.colour import Lead, leads
from diagnose.knowledge.model import Knowledge
from diagnose.press.colour.difference import Difference
from diagnose.press.colour.judging import TOLERANCE, Judgement
from diagnose.press.colour.lab import Lab
from diagnose.press.colour.sheet import ColourPair
from diagnose.speech.colour import in_words, name, seen, sign_words
from diagnose.speech.saying import say

MOST = 12  # pairs shown in full


@dataclass(frozen=True, slots=True)
class Judged:
    pair: ColourPair
    judgement: Judgement


def page(screen: Screen, knowledge: Knowledge, judged: Sequence[Judged], washed: bool) -> None:
    """Each pair in full; of many, those that fail worst, and a line for each of the others."""
    if len(judged) > 1:
        _overview(screen, judged)
    worst = sorted(judged, key=lambda each: -each.judgement.ciede2000)[:MOST]
    shown = judged if len(judged) <= MOST else [each for each in worst if not each.judgement.passes]
    for each in shown:
        if len(judged) > 1:
            screen.line()
        _pair(screen, knowledge, each, washed)
    if len(judged) > len(shown):
        screen.line()
        screen.line(say("worst-are-shown", shown=len(shown)) if shown else say("none-fails"), "dim")
    screen.line()
    screen.line(
        say("distances-are-ciede2000", tolerance=TOLERANCE),
        "dim",
    )


def _overview(screen: Screen, judged: Sequence[Judged]) -> None:
    failed = sum(not each.judgement.passes for each in judged)
    limit = judged[0].judgement.tolerance
    text = f"{len(judged)} pairs: {len(judged) - failed} pass, {failed} fail at a tolerance of {limit:g}"
    screen.line(text, "bad" if failed else "good")
    found = sorted(each.judgement.ciede2000 for each in judged)
    screen.line(say("middle-and-worst", middle=found[len(found) // 2], worst=found[-1]))


def _pair(screen: Screen, knowledge: Knowledge, each: Judged, washed: bool) -> None:
    found = each.judgement
    difference = found.difference
    verdict = "passes" if found.passes else "fails"
    title = f"{each.pair.name}: " if each.pair.name else ""
    screen.line(
        f"{title}{found.ciede2000:.1f} apart, {seen(found.ciede2000)}; {verdict} at {found.tolerance:g}",
        "good" if found.passes else "bad",
    )
    _swatches(screen, difference)
    screen.line(say("the-print-is", difference=in_words(difference)))
    screen.line(figures(difference))
    screen.line(say("grades-of-change-and-staining", change=found.change, staining=found.staining))
    pointers = leads(knowledge, found.signs, washed=washed)
    for lead in pointers:
        _lead(screen, lead)
    if pointers:
        screen.line(say("to-go-on"))
        screen.whole(f"  presslore diagnose --saw {pointers[0].defects[0].id}")
    elif not found.passes:
        screen.line(say("looks-like-no-known-fault"))


def _swatches(screen: Screen, difference: Difference) -> None:
    """Proof and print side by side, with their names; without colours the names alone."""
    for role, colour in (("proof", difference.proof), ("print", difference.print_)):
        screen.swatches([swatches.ground(screen, colour)], f"{role} {colour} ({name(colour)})")


def figures(difference: Difference) -> str:
    """The print less the proof, in numbers."""
    return (
        f"Print less proof: L {difference.lightness:+.1f}, a {difference.a:+.1f}, b {difference.b:+.1f}; "
        f"chroma {difference.chroma:+.1f}, hue {difference.hue:+.0f}°."
    )


def _lead(screen: Screen, lead: Lead) -> None:
    defects = ", or ".join(f"{defect.title} [{defect.id}]" for defect in lead.defects)
    screen.hang("-", say("points-to", fault=sign_words(lead.sign.kind), defects=defects))
    causes = "; ".join(f"{cause.title} [{cause.id}]" for cause in lead.causes)
    screen.hang(" ", say("most-often-behind-it", causes=causes))


# --- as JSON and as a sheet ---


def to_plain(knowledge: Knowledge, judged: Sequence[Judged], washed: bool) -> dict[str, Any]:
    """The pairs as plain JSON values."""
    failed = sum(not each.judgement.passes for each in judged)
    return {
        "tolerance": judged[0].judgement.tolerance,
        "pairs": len(judged),
        "failed": failed,
        "judged": [_plain_pair(knowledge, each, washed) for each in judged],
    }


def _plain_pair(knowledge: Knowledge, each: Judged, washed: bool) -> dict[str, Any]:
    found = each.judgement
    return {
        "name": each.pair.name,
        "line": each.pair.line or None,
        **numbers(found),
        "words": in_words(found.difference),
        "points_to": [_plain_lead(lead) for lead in leads(knowledge, found.signs, washed=washed)],
    }


def numbers(found: Judgement) -> dict[str, Any]:
    """The measured part of a judgement."""
    difference = found.difference
    return {
        "proof": lab_values(difference.proof),
        "print": lab_values(difference.print_),
        "ciede2000": round(found.ciede2000, 4),
        "cielab": round(difference.cielab, 4),
        "difference": {
            "L": round(difference.lightness, 4),
            "a": round(difference.a, 4),
            "b": round(difference.b, 4),
            "chroma": round(difference.chroma, 4),
            "hue_degrees": round(difference.hue, 4),
            "hue_distance": round(difference.hue_distance, 4),
        },
        "change": {"grade": found.change, "rating": round(found.change_rating, 4)},
        "staining": {"grade": found.staining, "rating": round(found.staining_rating, 4)},
        "passes": found.passes,
    }


def lab_values(colour: Lab) -> dict[str, float]:
    return {"L": round(colour.lightness, 4), "a": round(colour.a, 4), "b": round(colour.b, 4)}


def _plain_lead(lead: Lead) -> dict[str, Any]:
    return {
        "kind": lead.sign.kind,
        "size": round(lead.sign.size, 4),
        "defects": [defect.id for defect in lead.defects],
        "causes": [cause.id for cause in lead.causes],
    }


def sheet(judged: Sequence[Judged]) -> str:
    """A line for each pair, with a line of titles."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    writer.writerow(
        ["name", "ciede2000", "cielab", "dL", "da", "db", "dC", "dh", "change", "staining", "passes", "words", "kind"]
    )
    for each in judged:
        found, difference = each.judgement, each.judgement.difference
        shifts = (difference.lightness, difference.a, difference.b, difference.chroma, difference.hue)
        writer.writerow(
            [
                _harmless(each.pair.name),
                f"{found.ciede2000:.2f}",
                f"{difference.cielab:.2f}",
                *(f"{shift:.2f}" for shift in shifts),
                found.change,
                found.staining,
                "yes" if found.passes else "no",
                in_words(difference),
                found.signs[0].kind if found.signs else "",
            ]
        )
    return out.getvalue()


def _harmless(text: str) -> str:
    """A name that a spreadsheet does not take for a formula."""
    return f"'{text}" if text.startswith(("=", "+", "-", "@")) else text
