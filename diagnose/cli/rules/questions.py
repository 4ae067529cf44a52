"""The questions of the dialogue on a new rule: the defect, its cause, and the rule between them."""

from collections.abc import Sequence

from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.faults import COMMON, OWN_CASES, same_rule
from diagnose.casebook.proposing.similar import causes_like, nearest_rules
from diagnose.cli.asking.opening import named
from diagnose.cli.asking.prompts import ask_words
from diagnose.cli.rules import prompts
from diagnose.cli.rules.talk import Dropped, RuleQuestion, RuleTalk
from diagnose.dialogue.hearing import hear
from diagnose.handbook.pages.causes import FAMILIES
from diagnose.knowledge.model import Defect, Fact
from diagnose.speech.amounts import in_words

DEFECT_HELP = "The fault as it meets the eye or hand: pale, doubled, a brown mark. l lists all that are known."
CAUSE_HELP = (
    "What was wrong at the press, the piece, the paper or the ink, and can be put right: not the fault itself. "
    "You are shown what is known already, so that nothing is written twice."
)
TITLE_HELP = "One line as it will stand in lists, as a fact and not as an order: The piece comes cold from the store."
FAMILY_HELP = "It only sorts the lists of the handbook."
ABOUT_HELP = "For the next hire: what it is, how it comes about, what it does to the print and why."
TURNS_UP_HELP = (
    "Of a hundred jobs that are brought to the bench because something is wrong with them, how many have it? "
    "Most causes turn up rarely or very rarely. Where you doubt, take the lower one."
)
BRINGS_HELP = (
    "Think of a hundred presses where this cause is there and everything else is right: how many show the defect?"
)
WHEN_HELP = "A condition on the job: only for cloth, only under 65 % polyester, only in a clamshell press."
WHY_HELP = "One or two sentences that teach: what heat, dye, steam or pressure does there. It is read at the press."
BASIS_HELP = "Nothing is asserted without somebody's word. Take `this shop's cases` where you saw it yourselves."
LEARNED_HELP = "The numbers of your own cases in which it was so, as your casebook or job cards have them."


def ask_defect(talk: RuleTalk, draft: Draft) -> Draft:
    """The defect, in own words that are confirmed, or from the list."""
    letters = {"l": "list", **prompts.BASIC}
    while True:
        reply = ask_words(talk.screen, "What is wrong with the piece? Your own words.", letters)
        if reply.letter == "b":
            raise prompts.Back
        if reply.letter == "?":
            talk.screen.line(DEFECT_HELP)
        elif reply.letter == "l":
            known = sorted(talk.knowledge.defects.values(), key=lambda defect: defect.title.lower())
            if found := _pick(talk, "Which defect?", known):
                return draft.having("defect", found)
        elif reply.words and (found := _confirmed(talk, reply.words)):
            return draft.having("defect", found)


def _confirmed(talk: RuleTalk, words: str) -> str:
    found = [talk.knowledge.defects[each] for each in hear(talk.knowledge, talk.lexicon, words).defects]
    if not found:
        talk.screen.line("I did not recognise that. Say it another way, or type l for the list.")
        return ""
    if len(found) > 1:
        return _pick(talk, "A rule is about one defect. Which of these?", found)
    talk.screen.line("I take it that you mean:")
    talk.screen.hang("-", named(found[0]), style="key")
    letters = {"y": "right, go on", "n": "say it again"}
    return found[0].id if prompts.reply_to(talk.screen, DEFECT_HELP, 0, letters).letter == "y" else ""


def _pick(talk: RuleTalk, question: str, defects: Sequence[Defect]) -> str:
    letters = {"n": "none of these"}
    reply = prompts.one_of(talk.screen, question, DEFECT_HELP, [named(defect) for defect in defects], letters)
    return defects[reply.number - 1].id if reply.number else ""


def ask_cause(talk: RuleTalk, draft: Draft) -> Draft:
    """The cause, known or new."""
    said = prompts.line(talk.screen, "What was behind it? Your own words.", CAUSE_HELP)
    if said in talk.knowledge.causes:
        return draft.having("cause", said)
    like = [talk.knowledge.causes[each] for each in causes_like(talk.knowledge, talk.lexicon, said)]
    if known := talk.known_or_new(said, like, "cause"):
        return draft.having("cause", known)
    return talk.title(draft, "new-cause", "A title for the new cause?", TITLE_HELP, said)


def ask_nearest(talk: RuleTalk, draft: Draft) -> Draft:
    """Shows the rules nearest to the new one; the person says whether it is one of them."""
    known = talk.knowledge.causes.get(draft.one("cause"))
    title = known.title if known else draft.one("new-cause")
    near = nearest_rules(talk.knowledge, talk.lexicon, draft.one("defect"), draft.one("cause"), title)
    if not near:
        return draft
    talk.screen.line("The nearest rules there are:", "title")
    for each in near:
        talk.screen.hang("-", rule_words(talk, each.rule.cause, each.rule.defect), indent=1)
    help_text = "A rule that says the same twice counts twice. presslore why CAUSE DEFECT shows one in full."
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
        reply = prompts.one_of(talk.screen, "What is it a matter of?", FAMILY_HELP, titles)
        family = families[reply.number - 1] if reply.number else reply.words
        if talk.try_value("family", family):
            return draft.having("family", family)


def ask_when(talk: RuleTalk, draft: Draft) -> Draft:
    """The conditions on the job, one after the other."""
    tests = list(draft.each("when"))
    while True:
        facts = [fact for fact in talk.knowledge.facts.values() if not any(t.startswith(f"{fact.id}=") for t in tests)]
        question = "Is that so for every job, or only where ..." if not tests else "And only where ..."
        letters = {"e": "every job" if not tests else "no further condition"}
        reply = prompts.one_of(talk.screen, question, WHEN_HELP, [fact.title for fact in facts], letters)
        if reply.letter == "e":
            return draft.having("when", *tests)
        if reply.number:
            tests.append(f"{facts[reply.number - 1].id}={_required(talk, facts[reply.number - 1])}")
        else:
            talk.screen.line("Type a number, or e.")


def _required(talk: RuleTalk, fact: Fact) -> str:
    """What a fact must be, as a person says it."""
    if fact.yes_no or fact.one_of:
        values = fact.one_of or ("yes", "no")
        numbers, _ = prompts.some_of(talk.screen, fact.asks, WHEN_HELP, values, {})
        return ",".join(values[number] for number in numbers)
    limits = f"In {fact.unit}: " if fact.unit else ""
    help_text = f"{limits}under 65, at least 50, 50 to 80, or one number."
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
    talk.screen.line(f"There is such a rule already, at {rule.place}:", "caution")
    talk.screen.hang("-", f"{rule_words(talk, rule.cause, rule.defect)}. {rule.why}")
    talk.screen.line("To change it, change that file. To say when yours holds instead, go back.")
    while prompts.reply_to(talk.screen, WHEN_HELP, 0, {"n": "leave"}).letter != "n":
        talk.screen.line("Type b or n.")
    raise Dropped


def ask_basis(talk: RuleTalk, draft: Draft) -> Draft:
    """On whose word."""
    texts = ["This shop's own cases", "Common practice of the trade", "A published source"]
    numbers, _ = prompts.some_of(talk.screen, "On whose word does this stand?", BASIS_HELP, texts, {})
    basis = [(OWN_CASES, COMMON)[number] for number in numbers if number < 2]
    if 2 in numbers:
        sources = list(talk.knowledge.sources.values())
        titles = [f"{source.authors}, {source.year}: {source.title}" for source in sources]
        chosen, _ = prompts.some_of(talk.screen, "Which source?", BASIS_HELP, titles, {})
        basis = [*(sources[number].id for number in chosen), *basis]
    return draft.having("basis", *basis)


def ask_learned(talk: RuleTalk, draft: Draft) -> Draft:
    """The shop's own cases that it was learnt from."""
    optional = "" if OWN_CASES in draft.each("basis") else "Enter for none."
    question = "Which of your cases showed it? Their numbers, with spaces between."
    said = prompts.line(talk.screen, question, LEARNED_HELP, optional=optional)
    return draft.having("learned-from", *said.replace(",", " ").split())


def _new_cause(talk: RuleTalk, draft: Draft) -> bool:
    return draft.has("new-cause")


DEFECT, CAUSE, RULE = "The defect", "The cause", "The rule"
QUESTIONS = (
    RuleQuestion(DEFECT, ("defect",), ask_defect),
    RuleQuestion(CAUSE, ("cause", "new-cause"), ask_cause),
    RuleQuestion(CAUSE, (), ask_nearest),
    RuleQuestion(CAUSE, ("family",), ask_family, _new_cause),
    RuleQuestion(
        CAUSE,
        ("about",),
        lambda talk, draft: talk.words(draft, "about", "What is it, and what does it do to the print?", ABOUT_HELP),
        _new_cause,
    ),
    RuleQuestion(
        CAUSE,
        ("turns-up",),
        lambda talk, draft: talk.chance(
            draft, "turns-up", "How often has a job that went wrong this cause?", TURNS_UP_HELP
        ),
        _new_cause,
    ),
    RuleQuestion(
        RULE,
        ("brings",),
        lambda talk, draft: talk.chance(
            draft, "brings", "Where the cause is there, how surely does the defect show?", BRINGS_HELP
        ),
    ),
    RuleQuestion(RULE, ("when",), ask_when),
    RuleQuestion(RULE, (), ask_same, lambda talk, draft: same_rule(draft, talk.knowledge) is not None),
    RuleQuestion(RULE, ("why",), lambda talk, draft: talk.words(draft, "why", "Why does the cause do that?", WHY_HELP)),
    RuleQuestion(RULE, ("basis",), ask_basis),
    RuleQuestion(RULE, ("learned-from",), ask_learned),
)
