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
    "doubt": {
        "reasoning.doubt": "BEYOND_DOUBT DOUBTFUL MOST_DOUBTED",
    },
    "planner": {
        "reasoning.planner": "EPSILON",
    },
    "estimate": {
        "reasoning.estimate": "LEAST_TOLD",
    },
    "planning": {
        "reasoning.planning": "HYPOTHESES COVERED TWO_FIXES_FOR QUESTIONS CANDIDATES NOT_FREE FLOOR LEVEL",
        "knowledge.shop": "SOFT",
    },
    "ranking": {
        "reasoning.ranking": "SHOWN MOST_SHOWN",
    },
    "reasons": {
        "reasoning.evidence": "NAMED LATELY THEN",
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
        "dialogue.saving": "FORMAT VERSION MOST_TIMES",
        "foresight.last_good": "GOODS",
        "dialogue.session": "MANY_UNTOLD MANY_IN_VAIN",
        "knowledge.shop": "PRESS_NAME",
    },
    "then": {
        "foresight.last_good": "DIFFERS CHECK GOODS LESS MORE ALIKE APART",
        "foresight.likelihood": "DECIMALS",
    },
    "aftermath": {
        "dialogue.aftermath": "ORDER LOOK EVERIES OFTENER BRINGS TINY DECIMALS",
        "foresight.forecast": "GO CARE STOP EVEN",
        "knowledge.preparing": "WAYS PRESS_AGAIN PRINT_OVER SECOND DISCARD",
    },
    "telling": {
        "dialogue.telling": "REASONS_EACH FAINTEST WORTH_NAMING WORTH_SPARING WORTH_WAITING DIGITS WINDOWED",
    },
    "say": {
        "speech.saying": "WHOLE",
    },
    "speech": {
        "speech.amounts": "SIDES",
        "knowledge.model": "WORKING_DAY",
    },
    "wording": {
        "foresight.figures": "TITLES OF_HEAT OF_TIME",
        "speech.readings": "NEAR LEVEL",
    },
    "consultation": {
        "dialogue.consultation": "TURNING_CHECKS",
        "reasoning.evidence": "NAMED NAMED_RATIO LATELY THEN",
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
        "reasoning.words.index": "DIGITS",
    },
    "scoring": {
        "reasoning.words.scoring": "MOST_TIMES LEAST_SHARE",
    },
    "exact": {
        "reasoning.words.units": "REACH",
    },
    "tokens": {
        "reasoning.words.tokens": "ARTICLES AFTER_ALL A_FIGURE",
    },
    "table": {
        "reasoning.words.table": "BETWEEN DIGITS WEIGHTS",
    },
    "names": {
        "reasoning.words.names": "LONGEST OF_CHANCE EVERYWHERE RARE MOST OWN_BIAS",
    },
    "runs": {
        "reasoning.words.runs": (
            "INSIDE REST MENDED REACH STOPS MOST_BETWEEN LEADS_ON OR NOTHING DENIERS RID STILL_THERE WEAK "
            "LACK_ALONE ANSWERS TELLS_BY_LACK"
        ),
    },
    "division": {"reasoning.words.division": "IDLE FEW"},
    "denials": {
        "reasoning.words.denials": "LEAST FEARS TELLING SAYINGS HEAD ELSEWHERE",
        "reasoning.words.runs": "OR WEAK",
    },
    "dangers": {
        "reasoning.words.dangers": (
            "CLASSES PATTERNS UNLESS REWRITTEN COMPOUNDS DENYING SUPPOSING FEARING SUBJECTS CONDITIONS LONG_AGO NEAR "
            "FAR CONSEQUENCE SINCE_BOUGHT JUST_NOW PRESENT HEARSAY ARTWORK FIGURATIVE SMELLS OWN JOINING VERBS "
            "SLIPPERY REAL SOURCES SCORCHED FRIGHTS LONGEST_GAP SHORTEST_SLIP SIGNS CORRECTED LEFT"
        ),
    },
    "outcomes": {
        "reasoning.words.outcomes": "LEAST CLEARLY",
    },
    "shares": {
        "reasoning.words.shares": (
            "POLYESTER COLOUR THICKNESS COATED USUAL_BLEND POLY_WORDS COTTON_WORDS MIXED_WORDS OF_SHARES PAIR OF_POLY "
            "OF_COTTON ALL_COTTON ALL_POLY THICK HALVES"
        ),
    },
    "items": {
        "reasoning.words.shares": "POLYESTER FAMILY JOINING",
        "reasoning.words.items": (
            "LEAST_CLOSE NEARLY CLOSE LONGEST_NAME WHOLE_NAME LONG_STEM OF LIKE_BEFORE LIKE_AFTER "
            "COATS COATED_BY MATERIAL_STEMS OF_THE_SHOP"
        ),
    },
    "figures": {
        "foresight.figures_told": (
            "A_MINUTE A_NUMBER AFTER ALIKE BARE BEFORE COUNTING COVERS FOLDED HEATS HOTTEST LEADING LONGEST METRES "
            "NONE NOW NUMBERS OF_THE_NEXT PARTING PRESSED READ SCALES THICKEST THICKNESS THINNEST TIMES WORD"
        ),
    },
    "hearing": {
        "dialogue.hearing": "KEPT_IN_THE_TEXT",
        "reasoning.words.shares": "COLOUR",
        "reasoning.words.understand": "THE_REST",
    },
    "understand": {
        "reasoning.words.understand": (
            "CERTAIN LEAST_FIRST FURTHER SHARE_OF_FIRST LEAST_ANSWER APART LEAST_CAUSE A_CLAUSE BESIDE_A_NAME "
            "A_NAME LONGER_NAME "
            "SURELY NEAR MOST_NEAR LEAST_TOKENS LONGEST_ITEM MOST_LEFT LEAST_LEFT OF_TALK THE_REST"
        ),
        "reasoning.words.names": "LONGEST",
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
