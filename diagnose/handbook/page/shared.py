"""What both engines reckon and read with, compiled for the page's from where it stands on this side.

It is the same for every shop and every knowledge, so it goes with the engine; the scripts of ``engine/`` hold no
figure, word or name of their own that stands here.
"""

import re
from collections.abc import Mapping
from importlib import import_module
from typing import Any

OWNED: Mapping[str, Mapping[str, str]] = {  # by the script of the engine that takes them: their owners, and their names
    "conditions": {
        "knowledge.conditions": "MOST_WORLDS",
    },
    "network": {
        "reasoning.network": "MOST LEAST_LEAK",
    },
    "factors": {
        "reasoning.pulls": "ALIVE",
        "reasoning.factors": "IMPROVES FANCIED FADED",
    },
    "sweep": {
        "reasoning.sweep": "A_SWEEP A_STEP A_FOLD",
    },
    "bounds": {
        "reasoning.bounds": "MOST_LOUD",
    },
    "beliefs": {
        "reasoning.beliefs": "WIDEST MOST BOUNDED",
    },
    "outlook": {
        "reasoning.outlook": "TINY",
    },
    "planner": {
        "reasoning.planner": "EPSILON",
    },
    "estimate": {
        "reasoning.estimate": "LEAST_TOLD",
    },
    "planning": {
        "reasoning.planning": "HYPOTHESES COVERED TWO_FIXES_FOR QUESTIONS CANDIDATES NOT_FREE FLOOR",
        "knowledge.shop": "SOFT",
    },
    "ranking": {
        "reasoning.ranking": "SHOWN MOST_SHOWN",
    },
    "reasons": {
        "reasoning.evidence": "NAMED",
        "reasoning.reasons": "HEAVIEST LIGHTEST SURE MOST_WEIGHED MOST_TURNED MOST_BOUNDED MOST_LINKED",
    },
    "heat": {
        "press.heat.layers": "USUAL_PRESSURE CONTACT SOFTNESS LEAST_PRESSURE",
        "press.heat.stack": "LATENT WATER_HEAT TO_ROOM THIN METAL PAD DEEP EACH MOST_CELLS FINEST GROWTH",
        "press.heat.soaking": "GAMMA BOILS HALF_WIDTH FIRST STRIDE LAST ROOM CLOSE MOST_TURNS",
        "press.dye.vapour": "KELVIN STEEPNESS",
        "press.dye.dose": "FLAT",
    },
    "measures": {
        "foresight.figures": "AXES WINDOWS ROUNDING",
        "foresight.measures": "LEAST_QUOTIENT",
        "foresight.dosing": "LEAST_MOVE",
        "foresight.likelihood": "MOST DECIMALS SCALE FAR",
        "foresight.readings": "PLATEN STACK DOSING",
        "foresight.setting_right": "OFF LEAST_OFF MOST_OFFSET",
        "press.colour.difference": "NEUTRAL",
    },
    "session": {
        "dialogue.saving": "FORMAT VERSION",
        "knowledge.shop": "PRESS_NAME",
    },
    "telling": {
        "dialogue.telling": "REASONS_EACH FAINTEST WORTH_NAMING WORTH_SPARING WINDOWED",
    },
    "say": {
        "speech.saying": "WHOLE",
    },
    "speech": {
        "speech.amounts": "SIDES",
    },
    "wording": {
        "speech.readings": "NEAR LEVEL",
    },
    "consultation": {
        "dialogue.consultation": "TURNING_CHECKS",
        "reasoning.evidence": "NAMED NAMED_RATIO",
    },
    "stems": {
        "reasoning.words.stems": "IRREGULAR ENDINGS",
    },
    "spelling": {
        "reasoning.words.spelling": "LONGEST_TEXT BREAKS",
    },
    "slips": {
        "reasoning.words.slips": "SHORTEST LONG",
    },
    "groups": {
        "reasoning.words.groups": "GROUP NOT NEGATORS SKIPPED CONTRAST",
    },
    "units": {
        "reasoning.words.units": "REACH SAME_GROUP SLIPPED",
    },
    "index": {
        "reasoning.words.index": (
            "ONE_MENTION OVER_AVERAGE FEW OF_PAIR PAIR_ONCE PAIR_OFTEN LEAST_PAIRS SAID LOOKS DIGITS"
        ),
    },
    "scoring": {
        "reasoning.words.scoring": (
            "MOST_TIMES LEAST_SHARE WHOLE WHOLE_BONUS WORD_FOR_WORD COVERED LEAST_NAME FURTHER"
        ),
    },
    "parts": {
        "reasoning.words.parts": "PRICE PRICE_OF_A_NAME CLOSE EXACTLY FOR_A_NAME LEAST MOST_CLAUSES",
    },
    "denials": {
        "reasoning.words.denials": "LEAST A_NAME NOTHING LACKS",
        "reasoning.words.units": "REACH",
    },
    "dangers": {
        "reasoning.words.dangers": (
            "CLASSES PATTERNS UNLESS REWRITTEN COMPOUNDS DENYING SUPPOSING FEARING SUBJECTS CONDITIONS LONG_AGO NEAR "
            "FAR CONSEQUENCE SINCE_BOUGHT JUST_NOW PRESENT HEARSAY ARTWORK FIGURATIVE SMELLS OWN JOINING VERBS "
            "SLIPPERY REAL SOURCES SCORCHED FRIGHTS LONGEST_GAP SHORTEST_SLIP SIGNS CORRECTED LEFT"
        ),
    },
    "outcomes": {
        "reasoning.words.outcomes": "LEAST_UNITS ENOUGH_UNITS LEAST_SCORE WORD_FOR_WORD MOST",
    },
    "shares": {
        "reasoning.words.shares": (
            "POLYESTER COLOUR THICKNESS COATED USUAL_BLEND POLY_WORDS COTTON_WORDS OF_SHARES PAIR OF_POLY "
            "OF_COTTON ALL_COTTON ALL_POLY THICK HALVES"
        ),
    },
    "items": {
        "reasoning.words.shares": "POLYESTER FAMILY",
        "reasoning.words.items": (
            "LEAST_CLOSE CLOSE LONGEST_NAME WHOLE_NAME LONG_STEM JOINING OF LIKE_BEFORE LIKE_AFTER MATERIAL_STEMS"
        ),
    },
    "understand": {
        "reasoning.words.understand": (
            "CERTAIN LEAST_REST LEAST_ALONE LEAST_TOLD SURELY_TOLD LEAST_NAME LEAST_NEAR LEAST_NEAR_NAME "
            "NEAR LEAST_BESIDE LEAST_CLOSE A_NAME LEAST_SPOKEN MOST_LEFT THE_REST"
        ),
    },
}


def shared() -> dict[str, dict[str, Any]]:
    """Plain JSON values by script and name. Always the same."""
    return {
        script: {name: _plain(owner, name) for owner, names in owned.items() for name in names.split()}
        for script, owned in OWNED.items()
    }


def _plain(owner: str, name: str) -> Any:
    """What a module holds under a name, as JSON holds it: sets in order, expressions as they are written."""
    value = getattr(import_module(f"diagnose.{owner}"), name)
    if isinstance(value, re.Pattern):
        return value.pattern
    return sorted(value) if isinstance(value, frozenset) else value
