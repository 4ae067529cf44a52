"""Figures within a person's own words: ``350F for 40 seconds``, ``set 200 but my probe says 185``, ``one minute ten``.

Read by expressions over the folded text, one kind of thing after the other; what one has read, no other reads. What
looks like a figure of the press and is none (a size, a count, a range, a difference, a time of waiting) is read first.
``handbook/page/engine/words/figures.js`` reads by the same expressions: they say no more than both sides understand
alike, and what stands last in one ends what it fits.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from diagnose.foresight.figures import sensible
from diagnose.press.quantities import CELSIUS, DWELL, FAHRENHEIT, LENGTH

HOTTEST = 260.0  # a bare number above it is no °C that a platen is set to
BARE = ((120.0, 260.0), (265.0, 480.0))  # what a number without a unit may be, in °C and in °F
PRESSED = (100.0, 300.0)  # °C: what a figure without any word for what was measured is taken as set within
LONGEST = 1800.0  # seconds: no press is kept shut longer
THINNEST, THICKEST = 1e-4, 0.06  # metres
ALIKE = 0.005  # 385F (196C): one figure in two units, as a share of it
_LEADS = (
    r"at|for|to|of|and|but|with|about|around|only|just|set|my|the|a|it|its|probe|display|timer|clock|watch|thermometer|"
    r"strip|heat|temp|temperature|time|says?|said|reads?|shows?|showed|is|was|actually|really|pressed|press"
)
LEADING = rf"(?:\b(?:{_LEADS})\s+|[/@]\s*){{0,6}}\0"
BEFORE, AFTER = 5, 4  # words that say what a figure is of


@dataclass(frozen=True, slots=True)
class ToldFigure:
    """A figure by its name, held as ``diagnose.foresight.figures`` holds it, and where its words stand in the text."""

    name: str
    value: float
    first: int
    last: int


def figures_told(text: str) -> list[ToldFigure]:
    """The figures that a text tells, in its order, one of each name. A figure told twice and otherwise is none, unless
    the words say which of them is in force."""
    plain = folded(text)
    if not any(sign.isdecimal() for sign in plain) and not any(word in plain for word in COUNTING):
        return []
    found = sorted(_all(plain), key=lambda one: one.first)
    by_name: dict[str, list[ToldFigure]] = {}
    for figure in found:
        by_name.setdefault(figure.name, []).append(figure)
    kept = [_in_force(plain, each) for each in by_name.values()]
    return sorted((one for one in kept if one), key=lambda one: one.first)


def without_figures(text: str, found: list[ToldFigure]) -> str:
    """The text with the figures cut out, and the words that lead to them or join them ("at", "for"): a comma in the
    place of each, so that what is left reads as before."""
    for figure in sorted(found, key=lambda one: one.first, reverse=True):
        text = f"{text[: figure.first]}\0{text[figure.last :]}"
    return re.sub(LEADING, ",", text, flags=re.ASCII | re.IGNORECASE) if found else text


def folded(text: str) -> str:
    """The text in small letters, sign for sign as long as it was, number words as they are."""
    return "".join(FOLDED.get(sign) or _small(sign) for sign in text)


def _small(sign: str) -> str:
    return " " if sign.isspace() else sign.lower() if len(sign.lower()) == 1 else sign


def number(words: str) -> float | None:
    """The number that some folded words are: ``385``, ``1.5``, ``forty-five``, ``three eighty five``, ``half``."""
    plain = words.replace(",", ".")
    if re.fullmatch(A_NUMBER, plain, re.ASCII):
        return float(plain)
    total, last = 0.0, 0.0
    for word in re.split(r"[\s-]+", words):
        if word == "hundred":
            total, last = (total or 1.0) * 100, 0.0
        elif word in ("a", "an", "and"):
            total = total or (1.0 if word != "and" and words == word else 0.0)
        elif word not in NUMBERS:
            return None
        else:
            value = NUMBERS[word]
            # "three eighty" is 380: small, and then tens
            total = total * 100 + value if 1 <= total <= 5 and last == total and value >= 10 else total + value
            last = value
    return total or None


FOLDED = {"º": "°", "˚": "°", "×": "x", "–": "-", "—": "-", "’": "'", "\n": ";", "″": '"', "”": '"'}
A_NUMBER = r"\d+(?:\.\d+)?"
NUMBERS: Mapping[str, float] = {
    **dict(zip("one two three four five six seven eight nine ten eleven twelve".split(), range(1, 13), strict=True)),
    "fifteen": 15,
    "twenty": 20,
    "thirty": 30,
    "forty": 40,
    "fourty": 40,
    "fifty": 50,
    "sixty": 60,
    "seventy": 70,
    "eighty": 80,
    "ninety": 90,
    "half": 0.5,
}
COUNTING = (*NUMBERS, "hundred", "min")  # no figure is told without a digit or one of these: most texts tell none
_WORD = rf"(?:{'|'.join(NUMBERS)}|hundred)"
_ONES = r"(?:one|two|three|four|five|six|seven|eight|nine)"
_TENS = rf"(?:ten|fifteen|(?:twenty|thirty|forty|fourty|fifty|sixty|seventy|eighty|ninety)(?:[\s-]+{_ONES})?)"
_HUNDREDS = rf"(?:\b(?:two|three|four)[\s-]+(?:hundred(?:\s+(?:and\s+)?{_TENS})?|{_TENS})\b)"
N = rf"(?:\d+(?:[.,]\d+)?|\b{_WORD}(?:[\s-]+(?:and\s+)?{_WORD}){{0,4}}\b)"
_DEGREE = r"(?:\s*(?:°|\*|o(?=\s?[fc]\b)|deg(?:ree)?s?\b\.?))"  # what º becomes as a text is taken
_SCALE = r"fahrenheit|farenheit|celsius|celcius|centigrade|[fc]\b"
DEGREES = rf"(?:{_DEGREE}?\s*(?:{_SCALE})|{_DEGREE})"
HEAT = rf"(?P<heat>{N})(?:{_DEGREE}?\s*(?P<scale>{_SCALE})|{_DEGREE})"
MINUTES, SECONDS = r"(?:minutes?|mins?\b\.?|m\b)", r"(?:seconds?|secs?\b\.?|s\b)"
ONE = r"\ba(?=\s+(?:min|sec))"  # in "a minute"; "I am" has no time in it
LASTING = rf"\s*(?:{SECONDS}|{MINUTES})"
UNIT = rf"(?:{DEGREES}|{LASTING})"
TIME = (
    rf"(?:(?P<clock>\b\d{{1,2}}:[0-5]\d)(?:\s*{MINUTES})?(?!\d)|"
    rf"(?P<half>half\s+a\s+minute)|"
    rf"(?P<minutes>{N}|{ONE})\s*{MINUTES}"
    rf"(?:\s*(?:and\s+)?(?:(?P<ahalf>a\s+half)|(?P<rest>{N})(?:\s*{SECONDS}|(?<!\d\d\d)(?!\d|\s*(?:%|°|[fcx]\b|mm|cm|deg)))))?|"
    rf"(?P<seconds>{N})\s*{SECONDS})"
)
_OTHER = (
    r"(?!\s*(?:%|per\s?cent|pct|[x/]|cm\b|mm\b|inch|in\b(?!\s+[a-z])|psi|bar\b|kpa|dpi|hours?|hrs?\b|days?|weeks?|months?|years?)|"
    r"[\d.:])"
)
_BARE = rf"(?:\b\d{{3}}(?!\d)|{_HUNDREDS})"
# A number without a unit that stands where the heat or the time stands: beside the other, or after a word for it.
BARE_PAIR = (
    rf"(?P<bare>{_BARE})\s*(?:/|@|,|for|at|x)?\s*(?:(?!\d{{1,3}}{LASTING})(?P<plain>\b\d{{1,3}}){_OTHER}\b|(?={TIME}))"
)
TIME_AT = rf"{TIME}\s*(?:@|at|/)\s*(?P<bare_after>{_BARE}){_OTHER}"
_LINK = r"(?:(?:to|at|is|was|only|of|about|around|just|set|says|reads)\s+)*"
_SAID = (
    r"(?:set|setting|at|to|heat|temp|temperature|display|reads?|reading|says?|showed|shows?|showing|was|is|on|got|gives?|"
    r"only|actually|really)"
)
BARE_HEAT = rf"\b{_SAID}\s+(?:it\s+)?{_LINK}(?P<only>{_BARE}){_OTHER}"
BARE_TIME = rf"\b(?:time|timer|dwell|clock)\s+{_LINK}(?P<plain>\d{{1,3}}){_OTHER}\b"

NONE: tuple[str, ...] = (  # what is no figure of the press, the first that fits
    r"\d{7,}",  # of an order or a telephone; so no expression meets a long run
    r"[$£€]\s*\d+(?:[.,]\d+)?|\b\d+(?:[.,]\d+)?\s*(?:[$£€]|euros?|dollars?|bucks|pounds?|quid|pence|cents)\b",
    r"\b\d{1,4}[./-]\d{1,2}[./-]\d{2,4}\b",
    (
        rf'{N}\s*(?:mm|cm|m|in|inch|inches|")?\s*(?:x|by)\s*{N}\s*(?:(?:x|by)\s*{N}\s*)?'
        r'(?:mm|cm|m|inch|inches|in|")?'
    ),
    r"\b\d{1,2}\s*/\s*\d{1,2}\b(?!\s*(?:sec|s\b|min))",
    r"\b\d+(?:[.,]\d+)?\s*(?:%|per\s?cent\b|pct\b)",
    r"\b\d+(?:[.,]\d+)?\s*(?:psi|bar|kpa)\b",
    (
        rf"(?:between|from|anywhere\s+between)\s+{N}{DEGREES}?\s*(?:and|to|up\s+to|-)\s*{N}"
        rf"{UNIT}?"
    ),
    (
        rf"{N}{UNIT}?\s*(?:-|to|or)\s*{N}"
        rf"{UNIT}?(?=[^\d]|$)"
    ),
    # one of several that were tried, and what the heat fell to
    rf"{N}\s*,\s*{N}\s*(?:,\s*{N}\s*){{0,4}}(?:,\s*)?(?:and|or)\s*{N}{UNIT}",
    rf"\b(?:drop(?:s|ped)?|dip(?:s|ped)|fell|falls?|fallen|sank|sinks?|sagged)\s+(?:(?:down|back|off)\s+)?to\s+{N}{UNIT}?",
    # a difference, and what is usual or should be
    (
        rf"(?:{N}|\ba\s+few|\ba\s+couple\s+of){UNIT}?\s+"
        r"(?:too\s+\w+|low|short|shy|under|below|cooler|colder|lower|off|less|more|over|above|hotter|higher|longer|shorter|"
        r"out|extra|difference|apart|ago|later|earlier|old|before|into|early|late)\b"
    ),
    (rf"(?:by|every|another|extra|within|\+|\boff\s+by)\s*{N}{UNIT}|(?:first|last|next)\s+{N}{LASTING}"),
    (
        rf"(?:instead\s+of|rather\s+than|not|should\s+(?:be|have\s+been|read)|supposed\s+to\s+(?:be|read)|recipe(?:\s+\w+)?|"
        rf"usually|normally|recommends?|recommended|instructions?(?:\s+\w+)?|sheet\s+says|card\s+says|says\s+to|"
        rf"meant\s+to\s+be|always\s+used)\s+(?:the\s+|at\s+|is\s+|to\s+|use\s+|press\s+)*{N}"
        rf"{UNIT}?(?:\s*(?:/|for|at|@)\s*{N}"
        rf"{UNIT}?)?"
    ),
    # a time of something else than the press being shut
    (
        rf"(?:cool(?:s|ed|ing)?|wait(?:s|ed|ing)?|warm(?:s|ed|ing)?(?:\s+up)?|heat(?:s|ed|ing)?\s+up|dr(?:y|ied|ies|ying)|"
        rf"rest(?:s|ed|ing)?|soak(?:s|ed|ing)?|pre-?\s?press(?:es|ed|ing)?|pre-?\s?heat(?:s|ed|ing)?|wash(?:es|ed|ing)?|"
        rf"peel(?:s|ed|ing)?|stood|sat|stand(?:s|ing)?|lay|after|past)\b(?:[^,;.\d]{{0,24}}?)\s(?:{N}|{ONE}|half\s+a)"
        rf"{UNIT}"
        rf"(?:\s*(?:and\s+)?(?:a\s+half|{N}\s*{SECONDS}))?"
    ),
    rf"(?:{N}|{ONE}|half\s+a)\s*(?:{SECONDS}|{MINUTES})\s+(?:of\s+)?(?:pre-?\s?(?:press|heat)|cool|warm|wait|dry|rest)\w*",
)
PROBE = (
    r"probe|pyrometer|thermo\s?couple|thermometer|ir\s+gun|infra\s?red|laser|heat\s+gun|temp(?:erature)?\s+gun|surface"
)
DISPLAY = r"set|setting|settings|display|screen|dial|controller|readout|panel|read-out"
STRIP = r"strips?|(?:heat|thermal|temp(?:erature)?)\s+(?:label|sticker)s?|test\s+paper"
WATCH = r"watch|stop\s?watch|phone|timed|counted|count"
TRULY = r"really|actual|actually|true|real|measured|measures?|in\s+truth"
HEATS: tuple[tuple[str, str], ...] = ((PROBE, "probe"), (STRIP, "strip"), (DISPLAY, "set"), (TRULY, "probe"))
TIMES: tuple[tuple[str, str], ...] = ((WATCH, "watch"), (r"set|clock|timer|dwell", "dwell"), (TRULY, "watch"))
COVERS = (
    r"over|on\s+top|between|cover\w*|butcher|parchment|protective|ptfe|baking|blow\w*|tissue|newsprint|"
    r"under\s+the\s+platen"
)
SHEETS = rf"(?P<sheets>{N})\s+(?:[a-z]+\s+)?(?:sheets?|layers?)\b"
THICK = rf'(?P<thick>{N})\s*-?\s*(?P<unit>mm|millimet(?:re|er)s?|cm|inch(?:es)?|in\b|")'
THICKNESS = r"thick|thickness|gauge|calliper|caliper|micrometer"
WORD = (  # those that belong together are one
    r"(?:ir|heat|temp|temperature)\s+gun|stop\s?watch|thermo\s?couple|"
    r"(?:heat|thermal|temp(?:erature)?)\s+(?:label|sticker)s?|[a-z'-]+"
)
PARTING = r"[,;.!?~]|\bbut\b|\band\b"
OF_THE_NEXT = (
    r"\b(?:[a-z]+\s+)?(?:says?|said|reads?|shows?|showed|gives?|gave|is|was)\s+(?:only\s+)?[\d~].*"  # "probe says 185"
)
READ = (HEAT, TIME_AT, BARE_PAIR, TIME, BARE_HEAT, BARE_TIME, SHEETS, THICK)  # one after the other
SCALES = {"c": CELSIUS["c"], "f": FAHRENHEIT["f"]}
A_MINUTE = DWELL.units["min"][0]
METRES = {unit: LENGTH.units[unit][0] for unit in ("mm", "cm", "in")}
NOW = r"now|then|again|second|this\s+time|today|turned|raised|lowered|changed|went|up\s+to|down\s+to|currently"


def _all(plain: str) -> Iterator[ToldFigure]:
    """Every figure that is told, several of one name among them. ``plain``: folded."""
    for pattern in NONE:
        plain = re.sub(pattern, lambda match: "~" * len(match[0]), plain, flags=re.ASCII)
    scale = next((match["scale"][0] for match in re.finditer(HEAT, plain, re.ASCII) if match["scale"]), "")
    for pattern in READ:
        found = [list(_read(plain, match, scale)) for match in re.finditer(pattern, plain, re.ASCII)]
        for figure in [each for one in found for each in one]:
            plain = f"{plain[: figure.first]}{'~' * (figure.last - figure.first)}{plain[figure.last :]}"
            yield figure


def _read(plain: str, match: re.Match[str], scale: str) -> Iterator[ToldFigure]:
    told = {name: words for name, words in match.groupdict().items() if words}
    for name in ("heat", "bare", "bare_after", "only"):
        if name in told:
            yield from _heat(plain, match, name, (told.get("scale") or scale)[:1], sure=name == "heat")
    if "plain" in told:
        yield from _figure("dwell", number(told["plain"]), *match.span("plain"))
    elif seconds := _seconds(told):
        first, last = match.span() if "bare_after" not in told else (match.start(), match.start("bare_after"))
        yield from _figure(_role(plain, TIMES, first, last, "dwell"), seconds, first, last)
    if "sheets" in told and re.search(COVERS, _beside(plain, *match.span()), re.ASCII):
        yield from _figure("sheets", number(told["sheets"]), *match.span())
    if "thick" in told and re.search(THICKNESS, _beside(plain, *match.span()), re.ASCII):
        metres = (number(told["thick"]) or 0.0) * METRES[_unit(told["unit"])]
        if THINNEST <= metres <= THICKEST:
            yield from _figure("thickness", metres, *match.span())


def _heat(plain: str, match: re.Match[str], group: str, scale: str, *, sure: bool) -> Iterator[ToldFigure]:
    value = number(match[group])
    first, last = match.span() if group == "heat" else match.span(group)
    if value is None:
        return
    if not sure and not any(least <= value <= most for least, most in BARE):
        return
    fahrenheit = scale == "f" if scale else value > HOTTEST
    factor, offset = SCALES["f" if fahrenheit else "c"]
    held = value * factor + offset
    role = _role(plain, HEATS, first, last, "")
    if role or PRESSED[0] <= held <= PRESSED[1]:
        yield from _figure(role or "set", held, first, last)


def _figure(name: str, value: float | None, first: int, last: int) -> Iterator[ToldFigure]:
    if value is not None and value > 0 and sensible(name, value):
        yield ToldFigure(name, round(value, 9), first, last)


def _seconds(told: Mapping[str, str]) -> float:
    """The time that was told, 0 where none was."""
    if "clock" in told:
        minutes, _, after = told["clock"].partition(":")
        return 60.0 * int(minutes) + int(after)
    if "half" in told:
        return 30.0
    if "minutes" in told:
        whole = 1.0 if told["minutes"] == "a" else number(told["minutes"]) or 0.0
        rest = 30.0 if "ahalf" in told else number(told["rest"]) or 0.0 if "rest" in told else 0.0
        seconds = whole * A_MINUTE + rest
    else:
        seconds = number(told["seconds"]) or 0.0 if "seconds" in told else 0.0
    return seconds if seconds <= LONGEST else 0.0


def _role(plain: str, roles: tuple[tuple[str, str], ...], first: int, last: int, usual: str) -> str:
    """What a figure is of, by the nearest word for it: right before it, else right after it, in the same clause."""
    for words in (_before(plain, first)[::-1], _after(plain, last)):
        for word in words:
            for pattern, role in roles:
                if re.fullmatch(pattern, word, re.ASCII):
                    return role
    return usual


def _before(plain: str, first: int) -> list[str]:
    return _words(re.split(PARTING, plain[:first], flags=re.ASCII)[-1])[-BEFORE:]


def _after(plain: str, last: int) -> list[str]:
    rest = re.sub(OF_THE_NEXT, "", plain[last:], count=1, flags=re.ASCII)
    return _words(re.split(PARTING, rest, flags=re.ASCII)[0])[:AFTER]


def _words(clause: str) -> list[str]:
    """The words of a clause."""
    return [" ".join(word.split()) for word in re.findall(WORD, clause, re.ASCII)]


def _beside(plain: str, first: int, last: int) -> str:
    return " ".join([*_before(plain, first), plain[first:last], *_after(plain, last)])


def _unit(spelt: str) -> str:
    return "mm" if spelt.startswith("m") else "cm" if spelt == "cm" else "in"


def _in_force(plain: str, told: list[ToldFigure]) -> ToldFigure | None:
    """The one of several figures of a name that counts: the only one, or the last where the words before it say so."""
    last = told[-1]
    values = [one.value for one in told]
    if max(values) - min(values) <= ALIKE * last.value or any(
        re.fullmatch(NOW, word, re.ASCII) for word in _before(plain, last.first)
    ):
        return last
    return None
