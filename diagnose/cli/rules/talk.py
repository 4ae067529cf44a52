"""The dialogue that leads somebody who writes no code to a new rule, question by question, with a way back."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from diagnose.casebook.proposing.draft import Draft
from diagnose.casebook.proposing.faults import checked
from diagnose.casebook.proposing.values import Wrong
from diagnose.cli.rules import prompts
from diagnose.cli.rules.prompts import Back
from diagnose.cli.terminal.screen import Screen
from diagnose.knowledge.model import Entry, Knowledge
from diagnose.reasoning.words import Lexicon
from diagnose.speech.saying import say

NEW = {"n": "none of these, it is new"}


class Dropped(Exception):
    """The person does not want the rule after all."""


@dataclass(frozen=True, slots=True)
class RuleQuestion:
    """``fields``: what it may fill in; where one of them was given beforehand it is not asked. ``wanted``: whether it
    is to be asked after what has been said so far."""

    part: str
    fields: tuple[str, ...]
    ask: Callable[["RuleTalk", Draft], Draft]
    wanted: Callable[["RuleTalk", Draft], bool] = lambda talk, draft: True


@dataclass(slots=True)
class RuleTalk:
    """The questions on a screen. ``past``: the questions asked so far, each with the draft before it."""

    screen: Screen
    knowledge: Knowledge
    lexicon: Lexicon
    questions: Sequence[RuleQuestion]
    past: list[tuple[int, Draft]] = field(default_factory=list)
    given: frozenset[str] = frozenset()

    def go(self, draft: Draft) -> Draft:
        """Ask what the draft does not say yet. Raises EOFError or KeyboardInterrupt where the person leaves, Dropped
        where they want no rule after all."""
        self.given = frozenset(draft.said)
        return self._from(0, draft)

    def again(self, draft: Draft) -> Draft:
        """Go back to the last question, and on from there."""
        if not self.past:
            self.screen.line(say("everything-was-given-beforehand-change"))
            raise Dropped
        return self._from(*self.past.pop())

    def _from(self, number: int, draft: Draft) -> Draft:
        part = ""
        while number < len(self.questions):
            question = self.questions[number]
            if not self._is_open(question, draft):
                number += 1
                continue
            if question.part != part:
                part = question.part
                self._heading(part)
            try:
                after = question.ask(self, draft)
            except Back:
                number, draft = self._before(number, draft)
            else:
                self.past.append((number, draft))
                number, draft = number + 1, after
        return draft

    def _is_open(self, question: RuleQuestion, draft: Draft) -> bool:
        return self.given.isdisjoint(question.fields) and question.wanted(self, draft)

    def _before(self, number: int, draft: Draft) -> tuple[int, Draft]:
        if not self.past:
            self.screen.line(say("this-is-the-first-question"))
            return number, draft
        return self.past.pop()

    def _heading(self, part: str) -> None:
        parts = list(dict.fromkeys(question.part for question in self.questions))
        self.screen.rule()
        self.screen.line(f"{parts.index(part) + 1} of {len(parts)} · {part}", "dim")

    def check(self, name: str) -> Callable[[str], object]:
        """Raises Wrong for what cannot stand in a field."""
        return lambda said: checked(name, said, self.knowledge)

    def words(self, draft: Draft, name: str, question: str, help_text: str, optional: str = "") -> Draft:
        """Fill a field with a line of words."""
        said = prompts.line(self.screen, question, help_text, optional=optional, check=self.check(name))
        return draft.having(name, said)

    def title(self, draft: Draft, name: str, question: str, help_text: str, said: str) -> Draft:
        """Fill a field with a title; an empty line takes what was said before."""
        usual = said[:1].upper() + said[1:]
        given = prompts.line(
            self.screen, question, help_text, optional=say("enter-takes", usual=usual), check=self.check(name)
        )
        return draft.having(name, given or usual)

    def list_of(self, draft: Draft, name: str, question: str, help_text: str, *, optional: bool = False) -> Draft:
        """Fill a field with several lines."""
        said = prompts.lines(self.screen, question, help_text, self.check(name), optional=optional)
        return draft.having(name, *said)

    def chance(self, draft: Draft, name: str, question: str, help_text: str) -> Draft:
        """Fill a field with a chance."""
        said = prompts.chance(self.screen, self.knowledge, question, help_text, self.check(name))
        return draft.having(name, said)

    def known_or_new(self, said: str, found: Iterable[Entry], what: str) -> str:
        """The id of the entry that the words meant, "" where it is new. Raises Back."""
        entries = list(found)
        if not entries:
            self.screen.line(say("none-known-sounds-like-that", what=what))
            return ""
        help_text = say("if-one-of-these", what=what)
        while True:
            reply = prompts.one_of(self.screen, say("is-one-of-these-the", what=what), help_text, _titles(entries), NEW)
            if reply.letter:
                return ""
            if reply.number:
                return entries[reply.number - 1].id
            self.screen.line(say("type-a-number-or-n", what=what))

    def try_value(self, name: str, said: str) -> bool:
        """Whether a value can stand in a field; says what is wrong with it where not."""
        try:
            checked(name, said, self.knowledge)
        except Wrong as wrong:
            self.screen.line(prompts.sentence(wrong))
            return False
        return True


def _titles(entries: Iterable[Entry]) -> list[str]:
    return [entry.title for entry in entries]
