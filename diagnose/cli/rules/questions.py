"""The questions of the dialogue on a new rule: the defect, its cause, and the rule between them."""

from collections.abc import Sequence

from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.faults import COMMON, OWN_CASES, same_rule
from diagnose.casebook.proposing.similar import causes_like, nearest_rules
from diagnose.cli.asking.prompts import ask_words
from diagnose.cli.rules import prompts
from diagnose.cli.rules.talk import Dropped, RuleQuestion, RuleTalk
from diagnose.dialogue.hearing import hear
from diagnose.handbook.pages.causes import FAMILIES
from diagnose.knowledge.model import Defect, Fact
from diagnose.speech.amounts import in_words
from diagnose.speech.heard import named
from diagnose.speech.saying import say

DEFECT_HELP = say("about-the-defect")


def ask_defect(talk: RuleTalk, draft: Draft) -> Draft:
    """The defect, in own words that are confirmed, or from the list."""
    letters = {"l": "list", **prompts.BASIC}
    while True:
        reply = ask_words(talk.screen, say("what-is-wrong"), letters)
        if reply.letter == "b":
            raise prompts.Back
        if reply.letter == "?":
            talk.screen.line(DEFECT_HELP)
        elif reply.letter == "l":
            known = sorted(talk.knowledge.defects.values(), key=lambda defect: defect.title.lower())
            if found := _pick(talk, say("which-defect"), known):
                return draft.having("defect", found)
        elif reply.words and (found := _confirmed(talk, reply.words)):
            return draft.having("defect", found)


def _confirmed(talk: RuleTalk, words: str) -> str:
    found = [talk.knowledge.defects[each] for each in hear(talk.knowledge, talk.lexicon, words).defects]
    if not found:
        talk.screen.line(say("not-recognised-say-it-another-way"))
        return ""
    if len(found) > 1:
        return _pick(talk, say("a-rule-is-about"), found)
    talk.screen.line(say("i-take-it-that-you-mean"))
    talk.screen.hang("-", named(found[0]), style="key")
    letters = {"y": "right, go on", "n": "say it again"}
    return found[0].id if prompts.reply_to(talk.screen, DEFECT_HELP, 0, letters).letter == "y" else ""


def _pick(talk: RuleTalk, question: str, defects: Sequence[Defect]) -> str:
    letters = {"n": "none of these"}
    reply = prompts.one_of(talk.screen, question, DEFECT_HELP, [named(defect) for defect in defects], letters)
    return defects[reply.number - 1].id if reply.number else ""


def ask_cause(talk: RuleTalk, draft: Draft) -> Draft:
    """The cause, known or new."""
    said = prompts.line(talk.screen, say("what-was-behind"), say("what-was-wrong"))
    if said in talk.knowledge.causes:
        return draft.having("cause", said)
    like = [talk.knowledge.causes[each] for each in causes_like(talk.knowledge, talk.lexicon, said)]
    if known := talk.known_or_new(said, like, "cause"):
        return draft.having("cause", known)
    return talk.title(draft, "new-cause", say("a-title-for-the-new-cause"), say("about-a-title"), said)


def ask_nearest(talk: RuleTalk, draft: Draft) -> Draft:
    """Shows the rules nearest to the new one; the person says whether it is one of them."""
    known = talk.knowledge.causes.get(draft.one("cause"))
    title = known.title if known else draft.one("new-cause")
    near = nearest_rules(talk.knowledge, talk.lexicon, draft.one("defect"), draft.one("cause"), title)
    if not near:
        return draft
    talk.screen.line(say("the-nearest-rules-there-are"), "title")
    for each in near:
        talk.screen.hang("-", rule_words(talk, each.rule.cause, each.rule.defect), indent=1)
    help_text = say("a-rule-that-says")
    letters = {"y": "mine says something else", "n": "one of them says it, leave"}
    if prompts.reply_to(talk.screen, help_text, 0, letters).letter == "n":
        raise Dropped
    return draft


def rule_words(talk: RuleTalk, cause: str, defect: str) -> str:
    """A rule in one line: ``Damp paper → Blotches (likely, 71 %)``."""
    knowledge = talk.knowledge
    brings = max(rule.brings.value for rule in knowledge.defects[defect].rules if rule.cause == cause)
    titles = f"{knowledge.causes[cause].title} → {knowledge.defects[defect].title}"
    return f"{titles} ({in_words(brings, knowledge.scale)})"


def ask_family(talk: RuleTalk, draft: Draft) -> Draft:
    """Which family a new cause belongs to."""
    families = list(dict.fromkeys(cause.family for cause in talk.knowledge.causes.values()))
    titles = [FAMILIES.get(family, family) for family in families]
    while True:
        reply = prompts.one_of(talk.screen, say("what-is-it-a-matter-of"), say("it-only-sorts-the-lists"), titles)
        family = families[reply.number - 1] if reply.number else reply.words
        if talk.try_value("family", family):
            return draft.having("family", family)


def ask_when(talk: RuleTalk, draft: Draft) -> Draft:
    """The conditions on the job, one after the other."""
    tests = list(draft.each("when"))
    while True:
        facts = [fact for fact in talk.knowledge.facts.values() if not any(t.startswith(f"{fact.id}=") for t in tests)]
        question = say("is-that-so-for-every") if not tests else say("and-only-where")
        letters = {"e": "every job" if not tests else "no further condition"}
        reply = prompts.one_of(
            talk.screen, question, say("a-condition-on-the-job"), [fact.title for fact in facts], letters
        )
        if reply.letter == "e":
            return draft.having("when", *tests)
        if reply.number:
            tests.append(f"{facts[reply.number - 1].id}={_required(talk, facts[reply.number - 1])}")
        else:
            talk.screen.line(say("type-a-number-or-e"))


def _required(talk: RuleTalk, fact: Fact) -> str:
    """What a fact must be, as a person says it."""
    if fact.yes_no or fact.one_of:
        values = fact.one_of or ("yes", "no")
        numbers, _ = prompts.some_of(talk.screen, fact.asks, say("a-condition-on-the-job"), values, {})
        return ",".join(values[number] for number in numbers)
    limits = f"In {fact.unit}: " if fact.unit else ""
    help_text = say("limits-are-written-so", limits=limits)
    return prompts.line(
        talk.screen,
        f"{fact.title}: which? {help_text}",
        help_text,
        check=lambda said: talk.check("when")(f"{fact.id}={said}"),
    )


def ask_same(talk: RuleTalk, draft: Draft) -> Draft:
    """Says so where a known rule says the same."""
    rule = same_rule(draft, talk.knowledge)
    if rule is None:
        return draft
    talk.screen.line(say("there-is-such-a-rule", place=rule.place), "caution")
    talk.screen.hang("-", f"{rule_words(talk, rule.cause, rule.defect)}. {rule.why}")
    talk.screen.line(say("to-change-it-change"))
    while prompts.reply_to(talk.screen, say("a-condition-on-the-job"), 0, {"n": "leave"}).letter != "n":
        talk.screen.line(say("type-b-or-n"))
    raise Dropped


def ask_basis(talk: RuleTalk, draft: Draft) -> Draft:
    """On whose word."""
    texts = [say("this-shops-own-cases"), say("common-practice-of-the-trade"), say("a-published-source")]
    numbers, _ = prompts.some_of(talk.screen, say("on-whose-word-does-this-stand"), say("about-the-basis"), texts, {})
    basis = [(OWN_CASES, COMMON)[number] for number in numbers if number < 2]
    if 2 in numbers:
        sources = list(talk.knowledge.sources.values())
        titles = [f"{source.authors}, {source.year}: {source.title}" for source in sources]
        chosen, _ = prompts.some_of(talk.screen, say("which-source"), say("about-the-basis"), titles, {})
        basis = [*(sources[number].id for number in chosen), *basis]
    return draft.having("basis", *basis)


def ask_learned(talk: RuleTalk, draft: Draft) -> Draft:
    """The shop's own cases that it was learnt from."""
    optional = "" if OWN_CASES in draft.each("basis") else say("enter-for-none")
    question = say("which-of-your-cases-showed")
    said = prompts.line(talk.screen, question, say("the-numbers-of-your-own"), optional=optional)
    return draft.having("learned-from", *said.replace(",", " ").split())


def _new_cause(talk: RuleTalk, draft: Draft) -> bool:
    return draft.has("new-cause")


DEFECT, CAUSE, RULE = say("the-defect"), say("the-cause"), say("the-rule")
QUESTIONS = (
    RuleQuestion(DEFECT, ("defect",), ask_defect),
    RuleQuestion(CAUSE, ("cause", "new-cause"), ask_cause),
    RuleQuestion(CAUSE, (), ask_nearest),
    RuleQuestion(CAUSE, ("family",), ask_family, _new_cause),
    RuleQuestion(
        CAUSE,
        ("about",),
        lambda talk, draft: talk.words(draft, "about", say("what-is-it-and-what"), say("for-the-next-hire-what")),
        _new_cause,
    ),
    RuleQuestion(
        CAUSE,
        ("turns-up",),
        lambda talk, draft: talk.chance(draft, "turns-up", say("how-often-has-a-job"), say("of-a-hundred-jobs")),
        _new_cause,
    ),
    RuleQuestion(
        RULE,
        ("brings",),
        lambda talk, draft: talk.chance(
            draft, "brings", say("where-the-cause-is-there"), say("think-of-a-hundred-presses")
        ),
    ),
    RuleQuestion(RULE, ("when",), ask_when),
    RuleQuestion(RULE, (), ask_same, lambda talk, draft: same_rule(draft, talk.knowledge) is not None),
    RuleQuestion(
        RULE,
        ("why",),
        lambda talk, draft: talk.words(draft, "why", say("why-does-the-cause-do-that"), say("one-or-two-sentences")),
    ),
    RuleQuestion(RULE, ("basis",), ask_basis),
    RuleQuestion(RULE, ("learned-from",), ask_learned),
)
