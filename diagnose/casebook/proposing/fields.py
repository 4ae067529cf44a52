"""What a draft of a new rule says, field by field. The flags of ``presslore rules new``, the keys of a draft file and
the questions of the dialogue are all drawn from this table."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final

TEXT, CHANCE, NUMBER, WAIT = "text", "a chance", "a number", "a wait"


@dataclass(frozen=True, slots=True)
class Field:
    """``about``: one line for a help text or a comment. ``longest``: the most letters; 0 where that is no matter."""

    name: str
    about: str
    example: str
    kind: str = TEXT
    many: bool = False
    longest: int = 0


PARTS: Final[Mapping[str, tuple[Field, ...]]] = {
    "The defect and its cause": (
        Field("defect", "The defect: its id, or your own words for it.", "faint-colour"),
        Field("cause", "A known cause, by its id.", "platen-runs-cool"),
        Field("new-cause", "A cause no rule knows yet: its title.", "The piece comes cold from the store", longest=120),
        Field("family", "Which family a new cause belongs to.", "heat"),
        Field(
            "about",
            "What a new cause is, and what it does to the print.",
            "A cold piece eats up the first seconds of heat.",
            longest=900,
        ),
        Field("turns-up", "How often a new cause turns up.", "rarely", CHANCE),
    ),
    "The rule": (
        Field("brings", "How surely the cause alone brings the defect on.", "likely", CHANCE),
        Field("when", "Only where a fact of the job is so.", "item.polyester=>= 65", many=True),
        Field(
            "why",
            "Why it does that, in a sentence or two.",
            "A cold piece takes heat from the platen, so the dye has less time at printing heat.",
            longest=700,
        ),
        Field("basis", "A source, common practice, or this shop's cases.", "this shop's cases", many=True),
        Field("learned-from", "A case of this shop that it was learnt from.", "2026-014", many=True),
    ),
    "The fix": (
        Field("fix", "A known fix that puts the cause right, by its id.", "set-heat-by-probe"),
        Field(
            "new-fix",
            "A fix nobody has written down yet: its title.",
            "Warm the pieces in the press room overnight",
            longest=120,
        ),
        Field(
            "step",
            "One step of a new fix.",
            "Lay the pieces out in the press room the evening before.",
            many=True,
            longest=300,
        ),
        Field("minutes", "Minutes of work for a new fix.", "6", NUMBER),
        Field("waits", "What a new fix waits for besides, with no hand in it.", "a day for the pieces to warm", WAIT),
        Field("cures", "How surely the fix puts the cause right.", "very likely", CHANCE),
        Field("caution", "A caution to read before a new fix, by its id, or none.", "hot-platen", many=True),
    ),
    "A check that tells the cause": (
        Field("check", "A known check and the outcome that tells it.", "probe-the-platen=reads-low"),
        Field(
            "new-check",
            "A check nobody has written down yet: its title.",
            "Feel the piece before pressing",
            longest=120,
        ),
        Field("kind", "What kind of check: look, ask, measure or try.", "look"),
        Field(
            "asks", "The question that a new check answers.", "How does the piece feel against the cheek?", longest=200
        ),
        Field(
            "how",
            "One step of a new check.",
            "Hold the piece against your cheek before it goes under.",
            many=True,
            longest=300,
        ),
        Field("needs", "A thing needed for a new check.", "surface probe", many=True, longest=100),
        Field("check-minutes", "Minutes of work for a new check.", "1", NUMBER),
        Field("check-waits", "What a new check waits for besides.", "an hour for the press to cool", WAIT),
        Field("quiet", "What a new check finds where all is well.", "As warm as the room", longest=700),
        Field("telling", "What a new check finds where the cause is there.", "Colder than the room", longest=700),
        Field("shows", "How surely that is found where the cause is there.", "very likely", CHANCE),
        Field("otherwise", "How often it is found all the same (else: very rarely).", "very rarely", CHANCE),
        Field("check-caution", "A caution to read before a new check, by its id, or none.", "hot-platen", many=True),
    ),
    "One worked case": (
        Field(
            "story", "What happened, in a sentence.", "The first towels on a frosty morning came out pale.", longest=900
        ),
        Field("item", "What was pressed, by its id.", "tea-towel"),
        Field("job", "A further fact of that job.", "item.polyester=65", many=True),
        Field("saw", "What was seen besides the defect, by its id.", "one-side-pale", many=True),
        Field("not-seen", "What was looked for and was not there, by its id.", "ghosting", many=True),
        Field(
            "answer",
            "A check that was made and its outcome (of the new one: new-check=telling).",
            "probe-the-platen=reads-low",
            many=True,
        ),
        Field("tried", "A fix that was tried and did not help, by its id.", "press-longer", many=True),
        Field("never", "A cause that must not come up, by its id.", "dwell-short", many=True),
    ),
}
FIELDS: Final[Mapping[str, Field]] = {field.name: field for part in PARTS.values() for field in part}
NO_CAUTION: Final = "none"
KINDS: Final = ("look", "ask", "measure", "try")
