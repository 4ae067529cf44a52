"""Titles, marked where what they stand for is on trial; what is said of goods that
are refused, and of what belongs to another craft."""

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.telling import rests
from diagnose.knowledge.model import Check, Elsewhere, Entry, Fix, Refused
from diagnose.knowledge.trial import on_trial
from diagnose.speech.saying import say


def titled(entry: Entry) -> str:
    """The title of an entry; of a check or fix on trial also whose: ``Shut the door [the bundle …, on trial]``."""
    trial = isinstance(entry, Check | Fix) and on_trial(entry)
    return say("step-on-trial", title=entry.title, origin=entry.origin) if trial else entry.title


def whose(entry: Entry) -> str:
    """Where an entry comes from, with the mark where it is a check or fix on trial."""
    trial = isinstance(entry, Check | Fix) and on_trial(entry)
    return say("origin-on-trial", origin=entry.origin) if trial else entry.origin


def marked(title: str, trial: bool) -> str:
    """A title, with the mark where it is on trial."""
    return say("title-on-trial", title=title) if trial else title


def cause_titled(consultation: Consultation, cause: str) -> str:
    """The title of a cause, marked where what is believed of it rests on a rule that is on trial."""
    return marked(consultation.knowledge.causes[cause].title, rests(consultation, cause))


def refusal(stuff: Refused) -> str:
    """That goods of a stuff are refused, why, and what to offer instead."""
    return say("refused", title=stuff.title, why=stuff.why, instead=stuff.instead)


def not_ours(craft: Elsewhere) -> str:
    """That something belongs to another craft or trade, and with whom to turn to."""
    return say("elsewhere", title=craft.title, says=craft.says, turn_to=craft.turn_to)
