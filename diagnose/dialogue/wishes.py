"""What a person wants of the dialogue itself, in words: not to be asked, to be told what to try, to stop, to go back.

Only words that say this and nothing else are taken: beside anything more they are part of what is told.
"""

import re
from collections.abc import Mapping
from functools import lru_cache

from diagnose.reasoning.words.spelling import LONGEST_TEXT, cut

CANNOT_TELL, TRY, STOP, BACK, WHY, YES, NO = "cannot-tell", "try", "stop", "back", "why", "yes", "no"
LEAD = r"(?:(?:um|uh|er|erm|well|sorry|honestly|hmm|oh|no|ok|okay|please|look|really|so|just|but|to be honest|tbh) )*"
TAIL = (
    r"(?: (?:sorry|really|at all|honestly|tbh|mate|please|yet|either|from here|about (?:that|this|it)|for sure|"
    r"to be honest|that|it|this|now|here|then|first|next|thanks|thank you|already|any ?more))*"
)
_CAN_NOT = (
    r"(?:dont|do not|didnt|did not|cant|cannot|can not|couldnt|could not|wouldnt|would not)"
    r"(?: (?:really|actually|honestly))?"
)
_WHAT = r"(?: (?:how|what|which|where|whether|why|when|if)(?: .*)?)?"
_TOOL = r"(?:probe|loupe|magnifier|magnifying glass|thermometer|watch|ruler)"
_I = r"(?:i )?(?:really |honestly )?"
_ANSWER = r"(?:fix|answer|solution|cure)"
WISHES: Mapping[str, tuple[str, ...]] = {
    CANNOT_TELL: (
        r"dunno|idk|unsure|unknown|who knows|pass|beats me|not a clue|search me|whatever",
        rf"(?:i )?(?:have |got |ive |ive got |have got )?(?:no|not any) (?:idea|clue){_WHAT}",
        (
            rf"{_I}{_CAN_NOT} (?:know|tell|say|see|remember|recall|check|be sure|find out|look|measure|answer)"
            rf"(?: (?:that|it|this|them|one))*{_WHAT}"
        ),
        rf"{_I}(?:havent|have not) (?:a clue|the foggiest|checked|looked|measured|noticed|got a clue)",
        rf"(?:i )?(?:am |im )?not (?:too |very |really |quite |so )?(?:sure|certain){_WHAT}",
        r"(?:its |it is |thats )?(?:hard|difficult|impossible) to (?:say|tell|know|see)",
        rf"(?:i )?(?:have|got|ive got|have got|ive) (?:no|not got an?) {_TOOL}",
        r"(?:i )?(?:dont|do not) (?:have|own) (?:a|an|any|one|that|the|it)(?: \w+){0,3}",
        r"skip(?: (?:this|it|that|the))?(?: (?:one|question))?|next(?: (?:question|one))?",
    ),
    TRY: (
        r"tell me (?:what (?:to (?:do|try|change)|i should (?:do|try)|fixes it|works)|how to fix it)",
        rf"(?:tell|give|show) me (?:the |a |an )?(?:{_ANSWER}|something to try)",
        r"(?:can (?:you|we) )?(?:skip|stop|no more|enough|too many)(?: (?:the|your|all|asking|me)){0,3} questions",
        r"stop asking(?: (?:me|things|stuff))*",
        r"what (?:should|can|do|shall|must|would) (?:i|we|you) (?:do|try|change|fix)|what now|what to (?:do|try)",
        rf"how (?:do|can|should) (?:i|we) fix (?:it|this|that)|fix it|i want (?:a|the) {_ANSWER}",
        rf"(?:whats|what is) the {_ANSWER}|(?:get|cut) to the (?:point|chase)|try something",
    ),
    STOP: (
        r"stop|quit|enough|exit|leave|bye|goodbye|cancel|forget it|never ?mind|i quit|(?:thats|that is) enough",
        r"(?:i )?(?:give up|gave up|am done|im done|have to go|must go|need to go|got to go|gotta go|am off)",
        r"save(?: (?:and|it|then))* ?(?:leave|quit|exit|stop|go)?|(?:come back |continue )?(?:later|tomorrow)",
    ),
    BACK: (r"(?:go )?back(?: (?:one|a step|up))?|undo|previous(?: question)?|take that back|oops|one step back",),
    WHY: (
        r"why(?: (?:do you (?:ask|want to know|need to know)|is that|does (?:it|that) matter|should i|that|this))?",
        r"how(?: (?:do i|to|can i|should i)(?: (?:do|check|look|tell|see|find out|measure))?)?|help(?: me)?|huh|what",
        r"what (?:for|do you mean|does (?:that|it|this) mean|is that|s that)|explain",
        r"i dont (?:understand|get it|follow)",
    ),
    YES: (
        r"yes|yep|yeah|yup|right|correct|exactly|thats (?:right|it|correct)|that is (?:right|correct)",
        r"go on|fine|all right|all good",
    ),
    NO: (
        r"no|nope|nah|wrong|none(?: of (?:these|those|them))?|neither",
        r"thats (?:wrong|not it|not right)|not right|say it again",
    ),
}
LONGEST_WISH = 90  # letters; whoever says more says something else as well
# How a test piece came out, by the numbers of the results offered.
CURED, BETTER, UNCHANGED, OTHERWISE = 1, 2, 3, 4
RESULTS: Mapping[int, tuple[str, ...]] = {
    CURED: (
        (
            r"(?:it |its |is |s |all |the fault |now |looks |that |piece )*(?:gone|good|good print|fine|perfect|great|"
            r"fixed|cured|solved|sorted|worked|works|spot on)(?: (?:it|now|again|this time))*"
        ),
        r"that (?:did|fixed|solved|sorted|cured) (?:it|that)|problem solved|no more fault",
    ),
    BETTER: (
        (
            r"(?:it |its |is |s |got |a |bit |little |slightly |somewhat |much |lot |way |some |looks )*(?:better|"
            r"improved|improvement|less)(?: (?:but|though|yet|still|now))*"
            r"(?: (?:not|isnt|is not)(?: (?:right|perfect|gone|good|there|quite|all|fully))+)?(?: yet)?"
        ),
        r"(?:still )?not (?:quite |fully |yet )?(?:right|there|perfect)(?: yet)?|nearly|almost",
        r"helped(?: a (?:bit|little))?",
    ),
    UNCHANGED: (
        (
            r"(?:still |just |exactly |its |it |is |looks )*(?:the same|same|no change|unchanged|no better|"
            r"no different|no difference|no improvement|nothing changed|not better|as before|worse|no good|bad)"
            r"(?: (?:as before|again|thing|problem|fault))*"
        ),
        (
            r"(?:it )?(?:did not|didnt|has not|hasnt|does not|doesnt) "
            r"(?:help|work|change|change anything|make (?:a|any) difference|do anything)"
        ),
        r"did nothing|no luck|made it worse|got worse|still there|failed",
    ),
    OTHERWISE: (r"something else(?: (?:shows|is wrong|happened|now))*|(?:another|a new) (?:fault|problem)",),
}
_ITS = r"(?:it\s?['’]?\s?s|it\s+is|it\s+was|they\s?['’]?\s?re|they\s+are|that\s?['’]?\s?s|this\s+is|make\s+that)\s+"
CORRECTING = re.compile(
    rf"\s*(?:(?:no|nope|wrong)(?:\s*[,.:;!-]+\s*|\s+(?={_ITS}|i\s+mean))|"
    r"(?:sorry|wait|actually|oops|correction|i\s+meant?|my\s+mistake)\b[\s,.:;!-]*)+",
    re.IGNORECASE,
)
ITS = re.compile(_ITS, re.IGNORECASE)
NOT_THAT = re.compile(r"\s*,?\s*\b(?:and\s+)?(?:not|instead\s+of|rather\s+than)\s+.*$", re.IGNORECASE | re.DOTALL)
GONE = re.compile(
    r"(?P<what>[^,.;]{3,80}?)\s+(?:(?:is|are|has|have|was|were|now|all|s)\s+)*(?:gone|disappeared|vanished|went\s+away)\b"
    r"(?P<rest>.*)",
    re.IGNORECASE | re.DOTALL,
)
ADDING = re.compile(
    r"^\s*(?:and|also|plus|another|besides|oh and|there is also|theres also|now)\b|\b(?:also|as well)\b|\btoo\s*[.!]*$",
    re.IGNORECASE,
)


def wish(text: str) -> str:
    """What the words want of the dialogue, "" where they say something else."""
    plain = _plain(text)
    return next((each for each in WISHES if _saying(WISHES[each]).fullmatch(plain)), "") if plain else ""


def came_out(text: str) -> int:
    """The result of a test press that the words tell, and nothing besides: 0 where they tell none."""
    plain = _plain(text)
    return next((each for each in RESULTS if _saying(RESULTS[each]).fullmatch(plain)), 0) if plain else 0


def gone_by(text: str) -> tuple[str, str]:
    """What the words say has gone, and what else they say: "the ghost is gone but it is pale" gives "the ghost" and
    "but it is pale". Empty both where nothing has gone."""
    found = GONE.match(text[:LONGEST_TEXT])
    return (found["what"], found["rest"]) if found else ("", "")


def corrected(text: str) -> str:
    """What stands in the place of what was said before: ``a tile`` from "no, it's a tile, not a mug"; "" where nothing
    is corrected."""
    short = text[:LONGEST_TEXT]
    begun = CORRECTING.match(short)
    rest = short[begun.end() :] if begun else short
    its = ITS.match(rest)
    if not begun and not (its and NOT_THAT.search(rest)):
        return ""
    return NOT_THAT.sub("", rest[its.end() :] if its else rest).strip()


def adds(text: str) -> bool:
    """Whether the words say that they come on top of what was said before."""
    return bool(ADDING.search(text[:LONGEST_TEXT]))


@lru_cache
def _saying(ways: tuple[str, ...]) -> re.Pattern[str]:
    """Any of some ways of saying a thing, and nothing else; made when it is first wanted."""
    return re.compile(rf"{LEAD}(?:{'|'.join(ways)}){TAIL}")


def _plain(text: str) -> str:
    return " ".join(cut(text)) if len(text) <= LONGEST_WISH else ""
