"""Carries a new rule out: understand, check, try on the worked cases, show, and only then keep."""

import sys
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

import click

from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.entries import RuleEntries, entries
from diagnose.casebook.proposing.faults import faults
from diagnose.casebook.proposing.laying import lay
from diagnose.casebook.proposing.similar import Near, nearest_rules
from diagnose.casebook.proposing.trying import Trial, attempt
from diagnose.casebook.writing.yaml_edit import YamlFile
from diagnose.cli import exits
from diagnose.cli.rules import cards as rule_cards
from diagnose.cli.rules import questions as rule_questions
from diagnose.cli.rules import remedies as rule_remedies
from diagnose.cli.rules.prompts import Back, reply_to
from diagnose.cli.rules.remedies import plain_value
from diagnose.cli.rules.taking_turns import in_turn, looked_at
from diagnose.cli.rules.talk import Dropped, RuleTalk
from diagnose.cli.shop import shelf
from diagnose.cli.terminal.screen import Screen, print_json, screen_for
from diagnose.dialogue.hearing import hear
from diagnose.files.reading import read_if_there
from diagnose.files.writing import overtaken, replace_all
from diagnose.knowledge.model import Knowledge
from diagnose.knowledge.shop import Shop
from diagnose.problems import PressloreError
from diagnose.reasoning import words
from diagnose.reasoning.words import Lexicon, find_item
from diagnose.speech.saying import say

QUESTIONS = (*rule_questions.QUESTIONS, *rule_remedies.QUESTIONS)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """What was called for. ``somebody``: there is a person to ask. ``keep``: keep it without asking."""

    draft: Draft
    shop: Path | None
    keep: bool
    somebody: bool
    as_json: bool


@dataclass(frozen=True, slots=True)
class Made:
    """A new rule as it would be kept, and what it does. ``knowledge`` is what it was laid on, and what ``near`` comes
    from."""

    knowledge: Knowledge
    draft: Draft
    entries: RuleEntries
    files: list[YamlFile]
    trial: Trial
    near: list[Near] = field(default_factory=list)


def carry_out(wanted: Wanted) -> int:
    """The new rule, from what was given to what is kept. Returns the exit code."""
    stock = shelf.at(wanted.shop)
    if stock.folder is None:
        raise PressloreError("there is no shop folder to write into: name one with --shop, or presslore shop new DIR")
    folder = stock.folder
    if stock.problems:
        stock = looked_at(folder, lambda: shelf.at(wanted.shop), lambda seen: seen.problems)
    if stock.problems:
        raise PressloreError(stock.problems)
    bench = RuleBench(folder, stock.knowledge, words.lexicon(stock.knowledge), stock.shop)
    if wanted.somebody:
        return _converse(bench, wanted.draft)
    return _by_flags(bench, wanted)


@dataclass(frozen=True, slots=True)
class RuleBench:
    """Where a rule is made: the shop's folder, what is known so far, and the shop's prices."""

    folder: Path
    knowledge: Knowledge
    lexicon: Lexicon
    shop: Shop

    def understood(self, draft: Draft) -> Draft:
        """The draft with own words for defects and the item read as their ids, where they name just one."""
        for name in ("defect", "saw", "not-seen"):
            draft = draft.having(name, *map(self._defect, draft.each(name)))
        item = draft.one("item")
        found = find_item(self.lexicon, item) if item and item not in self.knowledge.items else None
        if found is None or not found.id:
            return draft
        known = {said.partition("=")[0] for said in draft.each("job")}
        facts = [f"{fact}={plain_value(value)}" for fact, value in found.facts.items() if fact not in known]
        return draft.having("item", found.id).having("job", *draft.each("job"), *facts)

    def anew(self) -> "RuleBench":
        """The bench with the shop's files as they are now. Raises PressloreError where something is wrong with them."""
        stock = looked_at(self.folder, lambda: shelf.at(self.folder), lambda seen: seen.problems)
        if stock.problems:
            raise PressloreError(stock.problems)
        return RuleBench(self.folder, stock.knowledge, words.lexicon(stock.knowledge), stock.shop)

    def make_again(self, draft: Draft) -> Made:
        """The rule on files that somebody changed since it was made first. Raises PressloreError where it does not hold
        there."""
        found = faults(draft, self.knowledge)
        if found:
            told = "; ".join(map(str, found))
            raise PressloreError(f"somebody changed the shop's files meanwhile, and the rule does not fit them: {told}")
        made = self.make(draft)
        if made.trial.problems:
            raise PressloreError(made.trial.problems)
        return made

    def _defect(self, said: str) -> str:
        if said in self.knowledge.defects:
            return said
        found = hear(self.knowledge, self.lexicon, said)
        named = (*found.defects, *found.not_seen)
        return named[0] if len(named) == 1 else said

    def made(self, draft: Draft) -> Made:
        """The rule tried out in a copy of the folder, anew where somebody changes that meanwhile. Raises
        PressloreError where its files cannot be written to."""
        first = [self]
        return in_turn(self.folder, lambda: (first.pop() if first else self.anew()).make(draft))

    def make(self, draft: Draft) -> Made:
        """The same once. A rule that fails on files that somebody has changed since is nobody's fault: that raises
        what ``replace_all`` raises."""
        new = entries(draft, self.knowledge, today())
        files = lay(new, self.folder)
        trial = looked_at(
            self.folder,
            lambda: attempt(files, self.folder, self.knowledge, self.shop),
            lambda tried: tried.problems,
        )
        changed = [file.path for file in files if read_if_there(file.path) != file.before]
        if trial.problems and changed:
            raise overtaken(changed[0])
        known = self.knowledge.causes.get(new.cause)
        title = draft.one("new-cause") or (known.title if known else "")
        near = nearest_rules(self.knowledge, self.lexicon, new.defect, draft.one("cause"), title)
        return Made(self.knowledge, draft, new, files, trial, near)


def today() -> str:
    """Today's date at the shop, as year-month-day."""
    return datetime.now().astimezone().date().isoformat()


def _by_flags(bench: RuleBench, wanted: Wanted) -> int:
    draft, err = bench.understood(wanted.draft), screen_for(sys.stderr)
    found = faults(draft, bench.knowledge)
    if found:
        rule_cards.faults_card(err, found)
        err.line(say("or-fill-in-a-draft"), "dim")
        return exits.USAGE
    made = bench.made(draft)
    if made.trial.problems:
        return _refused(err, made)
    if wanted.keep:
        made = _keep(bench, made)
    if wanted.as_json:
        print_json(
            rule_cards.new_rule_json(draft, made.entries.cause, made.files, made.trial.changes, made.near, wanted.keep)
        )
    else:
        rule_cards.near_card(screen_for(sys.stdout), made.knowledge, made.near)
        _show(screen_for(sys.stdout), made)
        _told(screen_for(sys.stdout), made, wanted.keep)
    return exits.GOOD


def _converse(bench: RuleBench, draft: Draft) -> int:
    screen = screen_for(sys.stdout)
    talk = RuleTalk(screen, bench.knowledge, bench.lexicon, QUESTIONS)
    screen.line(say("new-rule-begins"), "dim")
    try:
        draft = _whole(talk, bench, draft)
        while True:
            screen.rule()
            screen.line(say("trying-it-on-every-worked-case"), "dim")
            made = bench.made(draft)
            if not made.trial.problems:
                _show(screen, made)
            if _wants_it(screen, made):
                break
            draft = _mended(talk, draft)
        made = _keep(bench, made)
    except Dropped:
        screen.line(say("nothing-was-written"))
        return exits.GOOD
    except EOFError:
        raise click.Abort from None
    _told(screen, made, kept=True)
    return exits.GOOD


def _whole(talk: RuleTalk, bench: RuleBench, draft: Draft) -> Draft:
    """The draft with every question asked that it leaves open; what was given beforehand and is wrong, asked anew."""
    draft = bench.understood(draft)
    wrong = [fault for fault in faults(draft, bench.knowledge) if not fault.missing]
    if wrong:
        rule_cards.faults_card(talk.screen, wrong)
        draft = draft.without(*(fault.field for fault in wrong))
    draft = talk.go(draft)
    return _mended(talk, draft, first=True)


def _mended(talk: RuleTalk, draft: Draft, *, first: bool = False) -> Draft:
    """The draft after a question more, until it has no faults."""
    draft = draft if first else talk.again(draft)
    while found := faults(draft, talk.knowledge):
        rule_cards.faults_card(talk.screen, found)
        draft = talk.again(draft)
    return draft


def _wants_it(screen: Screen, made: Made) -> bool:
    """Whether the person wants it kept. False: an answer is to be changed. Raises Dropped."""
    for problem in made.trial.problems:
        screen.whole(str(problem))
    if made.trial.problems:
        screen.line(say("rule-does-not-hold"), "bad")
    else:
        screen.line(say("keep-this-rule"), "title")
    letters = {"n": "throw it away"} if made.trial.problems else {"y": "keep it", "n": "throw it away"}
    while True:
        try:
            reply = reply_to(screen, say("yes-writes-the-lines"), 0, letters)
        except Back:
            return False
        if reply.letter == "n":
            raise Dropped
        if reply.letter == "y":
            return True
        screen.line(say("type-one-of-the-letters"))


def _show(screen: Screen, made: Made) -> None:
    rule_cards.files_card(screen, made.files)
    if made.trial.knowledge:
        rule_cards.changes_card(screen, made.trial.knowledge, made.trial.changes)


def _refused(err: Screen, made: Made) -> int:
    for problem in made.trial.problems:
        err.whole(str(problem))
    err.line(say("nothing-was-written"), "bad")
    return exits.PROBLEMS


def _keep(bench: RuleBench, made: Made) -> Made:
    """Write the rule; where somebody changed the shop's files meanwhile, on what stands there now, if it still holds.
    Returns it as it was written."""
    latest = [made]

    def change() -> Made:
        kept = latest.pop() if latest else bench.anew().make_again(made.draft)
        replace_all({file.path: (file.before, file.data) for file in kept.files})
        return kept

    return in_turn(bench.folder, change)


def _told(screen: Screen, made: Made, kept: bool) -> None:
    if not kept:
        screen.line(say("rule-not-written"))
        return
    screen.line(say("rule-kept-on-trial"), "good")
    screen.whole(f"  presslore why {made.entries.cause} {made.entries.defect}\n  presslore rules trials")
