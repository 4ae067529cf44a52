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
from diagnose.speech.preparing import refusal
from diagnose.speech.titles import titled

FIX_HELP = "What is done so that the cause is gone. You are shown the fixes that are known."
STEPS_HELP = "Short orders, in the order of the work, as you would tell the next hire."
MINUTES_HELP = "Hands-on minutes of one person: not the waiting while something warms or dries."
CURES_HELP = "Of a hundred times that this is done where the cause is there, how often is the cause gone?"
CAUTION_HELP = "They are read out before the step. Take every one that can hurt somebody here."
CHECK_HELP = "A look, a question, a measurement or a small trial whose answer tells this cause from others."
KINDS_TOLD = ("Look at something", "Ask or remember", "Measure", "Try something out")
NEEDS_HELP = "Things one may not have at hand: a probe, a magnifier, the recipe. With commas between."
QUIET_HELP = "It is the first answer that is offered."
SHOWS_HELP = "Of a hundred times that the cause is there, how often is that found?"
OTHERWISE_HELP = "Of a hundred times that the cause is not there, how often is that found all the same?"
STORY_HELP = "It is kept as a test: with these answers your cause must come first, for ever after."
ITEM_HELP = "A few words: tea towel, ceramic tile, 65 % polyester shirt."
SEEN_HELP = "Your own words. They are shown as they were understood."
ANSWERS_HELP = "The checks that were made, and what was found. They are what tells your cause from the others."
TRIED_HELP = "Fixes that were tried and did not help speak against what they put right."


def ask_fix(talk: RuleTalk, draft: Draft) -> Draft:
    """The fix, known or new; none need be named where the cause has one."""
    fixes, known = talk.knowledge.fixes, cured_by(talk.knowledge, draft.one("cause"))
    for each in known:
        talk.screen.hang("-", f"Known to put it right: {titled(fixes[each])}")
    question, optional = (
        ("Is there another fix to write down?", "Enter for none.") if known else ("What puts it right?", "")
    )
    said = prompts.line(talk.screen, f"{question} Your own words.", FIX_HELP, optional=optional)
    if not said:
        return draft
    like = [fixes[each] for each in fixes_like(talk.knowledge, talk.lexicon, said) if each not in known]
    if found := talk.known_or_new(said, like, "fix"):
        return draft.having("fix", found)
    return talk.title(draft, "new-fix", "A title for the new fix?", "As an order: Shut the door.", said)


def ask_cautions(talk: RuleTalk, draft: Draft, name: str, steps: str) -> Draft:
    """The cautions to read before the steps; those that the words call for are offered."""
    cautions = [one for one in talk.knowledge.cautions.values() if one.id != STANDING]
    calls = wanted_cautions(talk.knowledge, draft.each(steps))
    titles = [f"{caution.title}{' *' if caution.id in calls else ''}" for caution in cautions]
    letters = {"y": "those with a *"} if calls else {}
    question = "Can this hurt somebody? Which cautions are to be read before it?"
    numbers, letter = prompts.some_of(talk.screen, question, CAUTION_HELP, titles, {**letters, "n": "none"})
    chosen = [cautions[number].id for number in numbers] or (list(calls) if letter == "y" else [NO_CAUTION])
    return draft.having(name, *chosen)


def ask_check(talk: RuleTalk, draft: Draft) -> Draft:
    """A check that tells the cause, known or new, or none."""
    checks, known = talk.knowledge.checks, told_by(talk.knowledge, draft.one("cause"))
    for check, outcome in known:
        talk.screen.hang("-", f"Known to tell it: {titled(checks[check])}: {checks[check].outcome(outcome).looks}")
    question = "Is there another check that tells this cause?" if known else "Which check tells this cause?"
    said = prompts.line(talk.screen, f"{question} Your own words.", CHECK_HELP, optional="Enter for none.")
    if not said:
        return draft
    like = [checks[each] for each in checks_like(talk.knowledge, talk.lexicon, said)]
    if found := talk.known_or_new(said, like, "check"):
        outcome = _outcome(talk, checks[found], loud=True)
        return draft.having("check", f"{found}={outcome}")
    return talk.title(draft, "new-check", "A title for the new check?", "As an order: Look at the door.", said)


def _outcome(talk: RuleTalk, check: Check, *, loud: bool = False) -> str:
    outcomes = check.outcomes[1:] if loud else check.outcomes
    question = "What does it find where your cause is there?" if loud else check.asks
    while True:
        reply = prompts.one_of(talk.screen, question, CHECK_HELP, [outcome.looks for outcome in outcomes])
        if reply.number:
            return outcomes[reply.number - 1].id
        talk.screen.line("Type a number.")


def ask_kind(talk: RuleTalk, draft: Draft) -> Draft:
    """What kind of check it is."""
    while True:
        reply = prompts.one_of(talk.screen, "What kind of check is it?", CHECK_HELP, KINDS_TOLD)
        if reply.number:
            return draft.having("kind", KINDS[reply.number - 1])
        talk.screen.line("Type a number.")


def ask_needs(talk: RuleTalk, draft: Draft) -> Draft:
    """What the check needs."""
    said = prompts.line(talk.screen, "Which things does it need?", NEEDS_HELP, optional="Enter for none.")
    return draft.having("needs", *said.split(","))


def ask_item(talk: RuleTalk, draft: Draft) -> Draft:
    """What was pressed in the worked case, with what its words tell of it."""
    while True:
        said = prompts.line(talk.screen, "What was pressed?", ITEM_HELP, optional="Enter if it does not matter.")
        found = find_item(talk.lexicon, said) if said else None
        if not said:
            return draft
        if found and not found.refused:
            item = talk.knowledge.items.get(found.id)
            talk.screen.line(f"Item: {item.title if item else 'not a known kind'}", "good")
            facts = [f"{fact}={plain_value(value)}" for fact, value in found.facts.items()]
            return draft.having("item", found.id).having("job", *facts)
        talk.screen.line(refusal(talk.knowledge.refused[found.refused]) if found else "I do not know that item.")


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
        said = prompts.line(talk.screen, question, SEEN_HELP, optional="Enter for nothing.")
        heard = hear(talk.knowledge, talk.lexicon, said) if said else None
        found = [each for each in (*heard.defects, *heard.not_seen) if each != draft.one("defect")] if heard else []
        for each in found:
            talk.screen.hang("+", talk.knowledge.defects[each].title, style="good")
        if found or not said:
            return draft.having(name, *found)
        talk.screen.line("I did not recognise that.")


def ask_answers(talk: RuleTalk, draft: Draft) -> Draft:
    """The checks that were made in the worked case. One that tells the cause is offered first."""
    answers = _new_answer(talk, draft)
    known = [check for check, _ in told_by(talk.knowledge, draft.one("cause"))]
    named = draft.one("check").partition("=")[0]
    for check in dict.fromkeys(filter(None, (named, *known[:1]))):
        _answer(talk, talk.knowledge.checks[check], answers)
    while True:
        said = prompts.line(talk.screen, "Which other check was made?", ANSWERS_HELP, optional="Enter for none.")
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
    reply = prompts.one_of(talk.screen, draft.one("asks"), ANSWERS_HELP, texts, {"n": "it was not made"})
    return {"new-check": ("quiet", "telling")[reply.number - 1]} if reply.number else {}


def _answer(talk: RuleTalk, check: Check, answers: dict[str, str]) -> None:
    talk.screen.line(f"{check.title}.", "dim")
    letters = {"n": "it was not made"}
    reply = prompts.one_of(talk.screen, check.asks, ANSWERS_HELP, [o.looks for o in check.outcomes], letters)
    if reply.number:
        answers[check.id] = check.outcomes[reply.number - 1].id


def ask_tried(talk: RuleTalk, draft: Draft) -> Draft:
    """What was tried in the worked case and did not help."""
    tried: list[str] = []
    while True:
        said = prompts.line(talk.screen, "What was tried and did not help?", TRIED_HELP, optional="Enter for nothing.")
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


FIX, CHECK, CASE = "The fix", "A check that tells it", "One worked case"
QUESTIONS = (
    RuleQuestion(FIX, ("fix", "new-fix"), ask_fix),
    _list(FIX, "new-fix", "step", "What is done, step by step?", STEPS_HELP),
    _words(FIX, "new-fix", "minutes", "How many minutes of work?", MINUTES_HELP),
    _chance(FIX, ("fix", "new-fix"), "cures", "How surely is the cause gone afterwards?", CURES_HELP),
    _cautions(FIX, "new-fix", "caution", "step"),
    RuleQuestion(CHECK, ("check", "new-check"), ask_check),
    RuleQuestion(CHECK, ("kind",), ask_kind, _new_check_is_open),
    _words(CHECK, "new-check", "asks", "Which question does it answer?", CHECK_HELP),
    _list(CHECK, "new-check", "how", "How is it done, step by step?", STEPS_HELP),
    RuleQuestion(CHECK, ("needs",), ask_needs, _new_check_is_open),
    _words(CHECK, "new-check", "check-minutes", "How many minutes of work?", MINUTES_HELP),
    _words(CHECK, "new-check", "quiet", "What is found where all is well?", QUIET_HELP),
    _words(CHECK, "new-check", "telling", "What is found where your cause is there?", QUIET_HELP),
    _chance(CHECK, ("check", "new-check"), "shows", "Where the cause is there, how surely is that found?", SHOWS_HELP),
    _chance(CHECK, ("new-check",), "otherwise", "And where the cause is not there?", OTHERWISE_HELP),
    _cautions(CHECK, "new-check", "check-caution", "how"),
    _words(CASE, "", "story", "One case of it as an example. What happened, in a sentence?", STORY_HELP),
    RuleQuestion(CASE, ("item",), ask_item),
    RuleQuestion(CASE, ("saw",), lambda talk, draft: ask_seen(talk, draft, "saw", "What else was seen on the piece?")),
    RuleQuestion(
        CASE,
        ("not-seen",),
        lambda talk, draft: ask_seen(talk, draft, "not-seen", "What was looked for and was not there?"),
    ),
    RuleQuestion(CASE, ("answer",), ask_answers),
    RuleQuestion(CASE, ("tried",), ask_tried),
)
