"""The further questions of the dialogue on a new rule: the fix, the check, and one worked case."""

from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.faults import cured_by, told_by, wanted_cautions
from diagnose.casebook.proposing.fields import KINDS, NO_CAUTION
from diagnose.casebook.proposing.similar import checks_like, fixes_like
from diagnose.cli.rules import prompts
from diagnose.cli.rules.talk import RuleQuestion, RuleTalk
from diagnose.dialogue.hearing import hear
from diagnose.knowledge.dangers import STANDING
from diagnose.knowledge.model import Check
from diagnose.reasoning.words import find_item
from diagnose.speech.saying import say
from diagnose.speech.titles import refusal, titled

KINDS_TOLD = (say("look-at-something"), say("ask-or-remember"), "Measure", say("try-something-out"))


def ask_fix(talk: RuleTalk, draft: Draft) -> Draft:
    """The fix, known or new; none need be named where the cause has one."""
    fixes, known = talk.knowledge.fixes, cured_by(talk.knowledge, draft.one("cause"))
    for each in known:
        talk.screen.hang("-", say("known-to-put-it-right", fixes=titled(fixes[each])))
    question, optional = (
        (say("is-there-another-fix"), say("enter-for-none")) if known else (say("which-fix-puts-it-right"), "")
    )
    said = prompts.line(talk.screen, say("your-own-words", question=question), say("what-is-done"), optional=optional)
    if not said:
        return draft
    like = [fixes[each] for each in fixes_like(talk.knowledge, talk.lexicon, said) if each not in known]
    if found := talk.known_or_new(said, like, "fix"):
        return draft.having("fix", found)
    return talk.title(draft, "new-fix", say("a-title-for-the-new-fix"), say("as-an-order-shut-the-door"), said)


def ask_cautions(talk: RuleTalk, draft: Draft, name: str, steps: str) -> Draft:
    """The cautions to read before the steps; those that the words call for are offered."""
    cautions = [one for one in talk.knowledge.cautions.values() if one.id != STANDING]
    calls = wanted_cautions(talk.knowledge, draft.each(steps))
    titles = [f"{caution.title}{' *' if caution.id in calls else ''}" for caution in cautions]
    letters = {"y": "those with a *"} if calls else {}
    question = say("can-this-hurt-somebody")
    numbers, letter = prompts.some_of(
        talk.screen, question, say("they-are-read-out-before"), titles, {**letters, "n": "none"}
    )
    chosen = [cautions[number].id for number in numbers] or (list(calls) if letter == "y" else [NO_CAUTION])
    return draft.having(name, *chosen)


def ask_check(talk: RuleTalk, draft: Draft) -> Draft:
    """A check that tells the cause, known or new, or none."""
    checks, known = talk.knowledge.checks, told_by(talk.knowledge, draft.one("cause"))
    for check, outcome in known:
        talk.screen.hang(
            "-", say("known-to-tell-it", checks=titled(checks[check]), looks=checks[check].outcome(outcome).looks)
        )
    question = say("is-there-another-check") if known else say("which-check-tells-this-cause")
    said = prompts.line(
        talk.screen, say("your-own-words", question=question), say("a-look-a-question"), optional=say("enter-for-none")
    )
    if not said:
        return draft
    like = [checks[each] for each in checks_like(talk.knowledge, talk.lexicon, said)]
    if found := talk.known_or_new(said, like, "check"):
        outcome = _outcome(talk, checks[found], loud=True)
        return draft.having("check", f"{found}={outcome}")
    return talk.title(draft, "new-check", say("a-title-for-the-new-check"), say("as-an-order-look"), said)


def _outcome(talk: RuleTalk, check: Check, *, loud: bool = False) -> str:
    outcomes = check.outcomes[1:] if loud else check.outcomes
    question = say("what-does-it-find-where") if loud else check.asks
    while True:
        reply = prompts.one_of(talk.screen, question, say("a-look-a-question"), [outcome.looks for outcome in outcomes])
        if reply.number:
            return outcomes[reply.number - 1].id
        talk.screen.line(say("type-a-number"))


def ask_kind(talk: RuleTalk, draft: Draft) -> Draft:
    """What kind of check it is."""
    while True:
        reply = prompts.one_of(talk.screen, say("what-kind-of-check-is-it"), say("a-look-a-question"), KINDS_TOLD)
        if reply.number:
            return draft.having("kind", KINDS[reply.number - 1])
        talk.screen.line(say("type-a-number"))


def ask_needs(talk: RuleTalk, draft: Draft) -> Draft:
    """What the check needs."""
    said = prompts.line(
        talk.screen, say("which-things-does-it-need"), say("things-one"), optional=say("enter-for-none")
    )
    return draft.having("needs", *said.split(","))


def ask_item(talk: RuleTalk, draft: Draft) -> Draft:
    """What was pressed in the worked case, with what its words tell of it."""
    while True:
        said = prompts.line(
            talk.screen,
            say("what-was-pressed"),
            say("a-few-words-tea-towel"),
            optional=say("enter-if-it-does-not-matter"),
        )
        found = find_item(talk.lexicon, said) if said else None
        if not said:
            return draft
        if found and not found.refused:
            item = talk.knowledge.items.get(found.id)
            talk.screen.line(f"Item: {item.title if item else 'not a known kind'}", "good")
            facts = [f"{fact}={plain_value(value)}" for fact, value in found.facts.items()]
            return draft.having("item", found.id).having("job", *facts)
        talk.screen.line(refusal(talk.knowledge.refused[found.refused]) if found else say("i-do-not-know-that-item"))


def plain_value(value: object) -> str:
    """The value of a fact as it is typed: ``yes``, ``65``, ``cloth``."""
    return (
        ("yes" if value else "no")
        if isinstance(value, bool)
        else f"{value:g}"
        if isinstance(value, float)
        else str(value)
    )


def ask_seen(talk: RuleTalk, draft: Draft, name: str, question: str) -> Draft:
    """Defects in own words, shown as they were understood."""
    while True:
        said = prompts.line(talk.screen, question, say("your-own-words-they"), optional=say("enter-for-nothing"))
        heard = hear(talk.knowledge, talk.lexicon, said) if said else None
        found = [each for each in (*heard.defects, *heard.not_seen) if each != draft.one("defect")] if heard else []
        for each in found:
            talk.screen.hang("+", talk.knowledge.defects[each].title, style="good")
        if found or not said:
            return draft.having(name, *found)
        talk.screen.line(say("not-recognised"))


def ask_answers(talk: RuleTalk, draft: Draft) -> Draft:
    """The checks that were made in the worked case. One that tells the cause is offered first."""
    answers = _new_answer(talk, draft)
    known = [check for check, _ in told_by(talk.knowledge, draft.one("cause"))]
    named = draft.one("check").partition("=")[0]
    for check in dict.fromkeys(filter(None, (named, *known[:1]))):
        _answer(talk, talk.knowledge.checks[check], answers)
    while True:
        said = prompts.line(
            talk.screen,
            say("which-other-check-was-made"),
            say("the-checks-that-were-made"),
            optional=say("enter-for-none"),
        )
        if not said:
            return draft.having("answer", *(f"{check}={outcome}" for check, outcome in answers.items()))
        like = [c for c in checks_like(talk.knowledge, talk.lexicon, said) if c not in answers]
        if found := talk.known_or_new(said, [talk.knowledge.checks[each] for each in like], "check"):
            _answer(talk, talk.knowledge.checks[found], answers)


def _new_answer(talk: RuleTalk, draft: Draft) -> dict[str, str]:
    """What the check that was just written down found."""
    if not draft.has("new-check"):
        return {}
    talk.screen.line(f"{draft.one('new-check')}.", "dim")
    texts = [draft.one("quiet"), draft.one("telling")]
    reply = prompts.one_of(
        talk.screen, draft.one("asks"), say("the-checks-that-were-made"), texts, {"n": "it was not made"}
    )
    return {"new-check": ("quiet", "telling")[reply.number - 1]} if reply.number else {}


def _answer(talk: RuleTalk, check: Check, answers: dict[str, str]) -> None:
    talk.screen.line(f"{check.title}.", "dim")
    letters = {"n": "it was not made"}
    reply = prompts.one_of(
        talk.screen, check.asks, say("the-checks-that-were-made"), [o.looks for o in check.outcomes], letters
    )
    if reply.number:
        answers[check.id] = check.outcomes[reply.number - 1].id


def ask_tried(talk: RuleTalk, draft: Draft) -> Draft:
    """What was tried in the worked case and did not help."""
    tried: list[str] = []
    while True:
        said = prompts.line(
            talk.screen, say("what-was-tried-in-vain"), say("fixes-that-were-tried"), optional=say("enter-for-nothing")
        )
        if not said:
            return draft.having("tried", *tried)
        like = [talk.knowledge.fixes[each] for each in fixes_like(talk.knowledge, talk.lexicon, said)]
        if found := talk.known_or_new(said, like, "fix"):
            tried.append(found)


def _words(part: str, needs: str, name: str, question: str, help_text: str) -> RuleQuestion:
    return RuleQuestion(
        part,
        (name,),
        lambda talk, draft: talk.words(draft, name, question, help_text),
        lambda talk, draft: not needs or draft.has(needs),
    )


def _wait(part: str, needs: str, name: str) -> RuleQuestion:
    question, help_text, none = say("what-is-waited-for"), say("how-waits-are-said"), say("enter-for-none")
    return RuleQuestion(
        part,
        (name,),
        lambda talk, draft: talk.words(draft, name, question, help_text, none),
        lambda talk, draft: draft.has(needs),
    )


def _list(part: str, needs: str, name: str, question: str, help_text: str) -> RuleQuestion:
    return RuleQuestion(
        part,
        (name,),
        lambda talk, draft: talk.list_of(draft, name, question, help_text),
        lambda talk, draft: draft.has(needs),
    )


def _chance(part: str, needs: tuple[str, ...], name: str, question: str, help_text: str) -> RuleQuestion:
    return RuleQuestion(
        part,
        (name,),
        lambda talk, draft: talk.chance(draft, name, question, help_text),
        lambda talk, draft: any(map(draft.has, needs)),
    )


def _cautions(part: str, needs: str, name: str, steps: str) -> RuleQuestion:
    return RuleQuestion(
        part, (name,), lambda talk, draft: ask_cautions(talk, draft, name, steps), lambda talk, draft: draft.has(needs)
    )


def _new_check_is_open(talk: RuleTalk, draft: Draft) -> bool:
    return draft.has("new-check")


FIX, CHECK, CASE = say("the-fix"), say("a-check-that-tells-it"), say("one-worked-case")
QUESTIONS = (
    RuleQuestion(FIX, ("fix", "new-fix"), ask_fix),
    _list(FIX, "new-fix", "step", say("what-is-done-step-by-step"), say("short-orders-in-the-order")),
    _words(FIX, "new-fix", "minutes", say("how-many-minutes-of-work"), say("hands-on-minutes")),
    _wait(FIX, "new-fix", "waits"),
    _chance(FIX, ("fix", "new-fix"), "cures", say("how-surely-is-the-cause"), say("of-a-hundred-times")),
    _cautions(FIX, "new-fix", "caution", "step"),
    RuleQuestion(CHECK, ("check", "new-check"), ask_check),
    RuleQuestion(CHECK, ("kind",), ask_kind, _new_check_is_open),
    _words(CHECK, "new-check", "asks", say("which-question-does-it-answer"), say("a-look-a-question")),
    _list(CHECK, "new-check", "how", say("how-is-it-done-step"), say("short-orders-in-the-order")),
    RuleQuestion(CHECK, ("needs",), ask_needs, _new_check_is_open),
    _words(CHECK, "new-check", "check-minutes", say("how-many-minutes-of-work"), say("hands-on-minutes")),
    _wait(CHECK, "new-check", "check-waits"),
    _words(CHECK, "new-check", "quiet", say("what-is-found-where-all"), say("it-is-the-first-answer")),
    _words(CHECK, "new-check", "telling", say("what-is-found-where"), say("it-is-the-first-answer")),
    _chance(
        CHECK,
        ("check", "new-check"),
        "shows",
        say("where-the-cause-is-there-how"),
        say("of-a-hundred-times-that-the-cause"),
    ),
    _chance(
        CHECK,
        ("new-check",),
        "otherwise",
        say("and-where-the-cause"),
        say("of-a-hundred-times-that-the-cause-is-not-there"),
    ),
    _cautions(CHECK, "new-check", "check-caution", "how"),
    _words(CASE, "", "story", say("one-case"), say("it-is-kept")),
    RuleQuestion(CASE, ("item",), ask_item),
    RuleQuestion(CASE, ("saw",), lambda talk, draft: ask_seen(talk, draft, "saw", say("what-else-was-seen"))),
    RuleQuestion(
        CASE,
        ("not-seen",),
        lambda talk, draft: ask_seen(talk, draft, "not-seen", say("what-was-looked")),
    ),
    RuleQuestion(CASE, ("answer",), ask_answers),
    RuleQuestion(CASE, ("tried",), ask_tried),
)
