"""What a person's own words say: defects seen and not seen, the item, outcomes of checks, and what is left."""

from collections import Counter
from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace

from diagnose.reasoning.words.denials import denied, only_thought_of
from diagnose.reasoning.words.division import divided
from diagnose.reasoning.words.exact import TypedIds, typed_ids
from diagnose.reasoning.words.items import ItemMatch, item_among
from diagnose.reasoning.words.lexicon import Lexicon
from diagnose.reasoning.words.names import LONGEST, keys
from diagnose.reasoning.words.runs import Spoken, Stretch
from diagnose.reasoning.words.shares import OF_SHARES
from diagnose.reasoning.words.spelling import LONGEST_TEXT, Word, clauses, is_cut, taken
from diagnose.reasoning.words.stems import stem
from diagnose.reasoning.words.tokens import Spelt

CERTAIN = 100.0  # the score of an id that was typed as such, and of a text that is a name and nothing else
LEAST_FIRST = 3.0  # from which the strongest telling of a defect counts
FURTHER, SHARE_OF_FIRST = 7.0, 0.3  # the same for any further one: as such, and of the strongest
LEAST_ANSWER, APART = 6.0, 1.0  # and so much more than for any other outcome of the same check
LEAST_CAUSE = 7.0
LEAST_ELSEWHERE = 3.0
A_CLAUSE, BESIDE_A_NAME = 3.0, 3  # more where a clause holds nothing else but so many tokens
A_NAME, LONGER_NAME = 2.0, 4.0  # what a name that stands word for word is worth, and each further word of it
SURELY, NEAR, MOST_NEAR = (
    10.0,
    4.0,
    3,
)  # below which a defect is told for sure only if no other comes near; how many are named
LEAST_TOKENS = 3  # of a name of an outcome: fewer ("clean", "the same") say too little when nobody asked
LONGEST_ITEM = 6  # words; what names an item with more between tells other things as well
MOST_LEFT = 8
LEAST_LEFT = 2  # words of a clause, below which it is not worth saying that it was not understood
OF_TALK = frozenset(
    map(
        stem,
        "i ive im id we weve you u they he she me us them what which who how why when where as if so then than "
        "just also again still can could will would should do did does dont make made get got gets go goes went "
        "come comes came out up down on in at to for from by with of off over into about and or but be been is "
        "are was were have has had now please hi hello hey thanks thank help some any all one thing way bit lot "
        "really here there look looks looked looking seem seems keep keeps put want need know think say says said "
        "see saw happened happen happens".split(),
    )
)  # what carries no meaning by itself, and need not be handed back
THE_REST = f"all after the first {LONGEST_TEXT:,} letters"


@dataclass(frozen=True, slots=True)
class Match:
    """A defect, how strongly the words speak for it, and the words that do. ``near``: others that may be meant as well,
    the likeliest first; none where there is no doubt."""

    id: str
    score: float
    because: tuple[str, ...] = ()
    near: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Mention:
    """An answer or a cause that the words tell: ("check", "outcome"), or ("cause",), and the words that do."""

    told: tuple[str, ...]
    score: float
    because: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Understood:
    """``defects``: the best first. ``not_seen``: ids of defects that were denied. ``answers``: outcomes of checks, one
    for each check; ``causes``: those that the person names; ``elsewhere``: what lies outside the trade, by its id.
    ``not_understood``: runs of words that carry a meaning but led to nothing; at last ``THE_REST``, where the
    text was too long to be read to its end."""

    item: ItemMatch | None = None
    defects: tuple[Match, ...] = ()
    not_seen: tuple[str, ...] = ()
    answers: tuple[Mention, ...] = ()
    causes: tuple[Mention, ...] = ()
    elsewhere: str = ""
    not_understood: tuple[str, ...] = ()

    @property
    def outcomes(self) -> tuple[tuple[str, str, float], ...]:
        """(check, outcome, score)."""
        return tuple((each.told[0], each.told[1], each.score) for each in self.answers)


def understand(lexicon: Lexicon, text: str) -> Understood:
    """Everything the words say. Ids of defects in the text are always understood; a text that is a name of a
    defect, word for word, tells that defect and nothing else."""
    understood = _understood(lexicon, taken(text))
    if is_cut(text):
        return replace(understood, not_understood=(*understood.not_understood, THE_REST))
    return understood


def _understood(lexicon: Lexicon, text: str) -> Understood:
    read = _read(lexicon, text)
    item = item_among(lexicon, text)
    if whole := lexicon.whole(text):
        return Understood(item=item, defects=(_certain(whole, read.words),))
    taken_by_item = _of_item(lexicon, item, read.words)
    aside = {
        place for place, token in enumerate(read.tokens) if token.word in taken_by_item or token.word in read.ids.words
    }
    answers = _told(lexicon, Spoken(lexicon.answers, read.tokens), aside, LEAST_ANSWER, LEAST_ANSWER)
    sights = _told(lexicon, Spoken(lexicon.sights, read.tokens), aside, LEAST_FIRST, FURTHER)
    sights = _not_otherwise(lexicon, sights, answers)
    known = lexicon.knowledge
    seen = [run for run in sights.runs if sights.name(run) in known.defects]
    kept = [run for n, run in enumerate(seen) if not n or run.gain >= SHARE_OF_FIRST * seen[0].gain]
    matches = [_match(sights, run, read, known.defects) for run in kept if sights.name(run) not in read.ids.denied]
    defects = _with_ids(read.ids.told, matches)
    named = {match.id for match in defects}
    without = dict.fromkeys([*read.ids.denied, *(name for name in sights.denied if name in known.defects)])
    told, causes = _answers(lexicon, answers, read), _causes(lexicon, answers, read)
    used = {place for run in (*kept, *sights.denied.values()) for place in range(run.first, run.last)}
    used |= {place for run in answers.runs for place in range(run.first, run.last)} | aside
    elsewhere = [sights.name(run).partition(" ")[2] for run in sights.runs if sights.name(run).startswith("elsewhere ")]
    return Understood(
        item=item,
        defects=tuple(defects),
        not_seen=tuple(name for name in without if name not in named),
        answers=tuple(told),
        causes=tuple(causes),
        elsewhere=elsewhere[0] if elsewhere and not defects else "",
        not_understood=_left(read, used),
    )


def rank_defects(lexicon: Lexicon, text: str) -> list[Match]:
    """Every defect that anything in the text speaks for, the best first, ties by id; without what is denied."""
    text = taken(text)
    read = _read(lexicon, text)
    spoken = Spoken(lexicon.sights, read.tokens)
    names, known = spoken.layer.classes, lexicon.knowledge.defects
    without = {*read.ids.denied, *(names[run.told] for run in denied(spoken))}
    runs = [run for run in spoken.ranked(-CERTAIN) if names[run.told] in known and names[run.told] not in without]
    runs = sorted(runs, key=lambda run: (-run.gain, names[run.told]))
    matches = [Match(names[run.told], round(run.gain, 6), (read.typed(run),)) for run in runs]
    if whole := lexicon.whole(text):
        return [_certain(whole, read.words), *(match for match in matches if match.id != whole)]
    return _with_ids(read.ids.told, matches)


@dataclass(frozen=True, slots=True)
class _Text:
    """A text as it is read: its words and tokens, and the ids typed in it."""

    words: Sequence[Word]
    tokens: Sequence[Spelt]
    ids: TypedIds

    def typed(self, run: Stretch) -> str:
        """The words of a run as they were typed."""
        first, last = self.tokens[run.first].word, self.tokens[run.last - 1].word
        return " ".join(word.text for word in self.words[first : last + 1])


@dataclass(frozen=True, slots=True)
class _Told:
    """What one layer hears: the division, what is denied by name, the names that stand word for word, and all that was
    spoken."""

    spoken: Spoken
    runs: Sequence[Stretch]
    denied: dict[str, Stretch]
    named: Sequence[Stretch]

    def name(self, run: Stretch) -> str:
        return self.spoken.layer.classes[run.told]


def _read(lexicon: Lexicon, text: str) -> _Text:
    words = clauses(text)
    units = lexicon.reader.typed(words, lexicon.speller)
    ids = typed_ids(lexicon.knowledge.defects, text, words, units)
    return _Text(words, lexicon.tokens(words, units), ids)


def _told(lexicon: Lexicon, spoken: Spoken, aside: Collection[int], first: float, further: float) -> _Told:
    sights = spoken.layer is lexicon.sights
    no = {spoken.layer.classes[run.told]: run for run in denied(spoken) if run.last - 1 not in aside} if sights else {}
    free = {*aside} | {place for run in no.values() for place in range(run.first, run.last)}
    named = _names(lexicon, spoken, free)
    runs = divided(spoken, first, further, free, named)
    names = spoken.layer.classes
    kept = (run for run in runs if names[run.told] not in no or run.gain > no[names[run.told]].gain)
    return _Told(spoken, [run for run in kept if not only_thought_of(spoken.tokens, run)], no, named)


def _not_otherwise(lexicon: Lexicon, sights: _Told, answers: _Told) -> _Told:
    """The sights without denials that name no defect and whose words tell an answer more clearly ("not taped")."""
    tokens = sights.spoken.tokens
    kept = {
        name: run
        for name, run in sights.denied.items()
        if any(name in lexicon.said.get(token.key, ()) for token in tokens[run.first : run.last])
        or not any(each.first <= run.first < each.last - 1 and each.gain > run.gain for each in answers.runs)
    }
    return replace(sights, denied=kept)


def _names(lexicon: Lexicon, spoken: Spoken, aside: Collection[int]) -> list[Stretch]:
    """Names that stand word for word among the tokens, each worth more than what its words say."""
    numbers = {told: number for number, told in enumerate(spoken.layer.classes)}
    least = 1 if spoken.layer is lexicon.sights else LEAST_TOKENS
    unsaid = {place for _, first, last in spoken.denials for place in range(first, last)}
    sizes = Counter(token.clause for place, token in enumerate(spoken.tokens) if place not in aside)
    found = []
    for first in range(len(spoken.tokens)):
        for last in range(first + least, min(first + LONGEST, len(spoken.tokens)) + 1):
            told = [each for each in lexicon.said.get(keys(spoken.tokens[first:last]), ()) if each in numbers]
            if not told or (first in unsaid):
                continue
            worth = A_NAME + LONGER_NAME * (last - first - 1)
            if sizes[spoken.tokens[first].clause] <= last - first + BESIDE_A_NAME:
                worth += A_CLAUSE
            found += [
                Stretch(n, max(0.0, spoken.gain(n, first, last)) + worth, first, last)
                for n in map(numbers.get, told)
                if n is not None
            ]
    return found


def _answers(lexicon: Lexicon, told: _Told, read: _Text) -> list[Mention]:
    """The outcomes told, the strongest first, one for each check."""
    found: dict[str, Mention] = {}
    for run in told.runs:
        check, _, outcome = told.name(run).partition(" ")
        known = lexicon.knowledge.checks.get(check)
        if known and any(outcome == each.id for each in known.outcomes) and not _split(told, run):
            found.setdefault(check, Mention((check, outcome), round(run.gain, 6), read.typed(run)))
    return list(found.values())


def _split(told: _Told, run: Stretch) -> bool:
    """Whether the same words say nearly as much for another outcome of the check: then neither is taken."""
    said = told.spoken
    of_check = told.name(run).partition(" ")[0] + " "
    own = max(run.gain, said.gain(run.told, run.first, run.last))
    others = (number for number, name in enumerate(said.layer.classes) if name.startswith(of_check))
    return any(said.gain(n, run.first, run.last) > own - APART for n in others if n != run.told)


def _causes(lexicon: Lexicon, told: _Told, read: _Text) -> list[Mention]:
    causes = [(run, told.name(run).removeprefix("cause ")) for run in told.runs if run.gain >= LEAST_CAUSE]
    return [
        Mention((cause,), round(run.gain, 6), read.typed(run))
        for run, cause in causes
        if cause in lexicon.knowledge.causes
    ]


def _match(told: _Told, run: Stretch, read: _Text, known: Collection[str]) -> Match:
    by_name = any(name.told == run.told and run.first <= name.first < run.last for name in told.named)
    near = [] if by_name or run.gain >= SURELY else _near(told, run, known)
    return Match(told.name(run), round(run.gain, 6), (read.typed(run),), tuple(near))


def _near(told: _Told, run: Stretch, known: Collection[str]) -> list[str]:
    """What else may be meant: the defects that as much speaks for, or nearly, wherever it stands."""
    others = [told.name(other) for other in told.spoken.ranked(max(0.0, run.gain - NEAR)) if other.told != run.told]
    return [name for name in others if name in known and name not in told.denied][: MOST_NEAR - 1]


def _certain(whole: str, words: Sequence[Word]) -> Match:
    return Match(whole, CERTAIN, (" ".join(word.text for word in words),))


def _with_ids(typed: Sequence[str], matches: Sequence[Match]) -> list[Match]:
    """The matches with the ids that were typed put first."""
    certain = [Match(name, CERTAIN, (name,)) for name in typed]
    return [*certain, *(match for match in matches if match.id not in typed)]


def _of_item(lexicon: Lexicon, item: ItemMatch | None, words: Sequence[Word]) -> set[int]:
    """The words that name the item, with those beside them that say what it is made of; without a word before them
    that is a fault by itself ("pale mug")."""
    if item is None or item.words[1] - item.words[0] > LONGEST_ITEM:
        return set()
    first, last = item.words
    while first < last - 1 and lexicon.whole(words[first].text):
        first += 1
    while first > 0 and _of_shares(words[first - 1]):
        first -= 1
    while last < len(words) and _of_shares(words[last]):
        last += 1
    return set(range(first, last))


def _of_shares(word: Word) -> bool:
    return word.text.isdecimal() or stem(word.text) in OF_SHARES


def _left(read: _Text, used: set[int]) -> tuple[str, ...]:
    """Runs of words within a clause that led to nothing."""
    left: list[list[Spelt]] = []
    for place, token in enumerate(read.tokens):
        if place in used:
            left.append([])
        elif left and left[-1] and left[-1][-1].clause == token.clause:
            left[-1].append(token)
        else:
            left.append([token])
    runs = [run for run in left if (len(run) >= LEAST_LEFT and not _of_talk(read, run)) or (run and not used)]
    return tuple(" ".join(word.text for word in read.words[run[0].word : run[-1].word + 1]) for run in runs)[:MOST_LEFT]


def _of_talk(read: _Text, run: Sequence[Spelt]) -> bool:
    """Whether none of the words of a run carries a meaning."""
    return all(stem(read.words[token.word].text) in OF_TALK for token in run)
