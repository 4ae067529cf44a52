"""Every cross-check, and the one function that runs them."""

from functools import partial
from typing import Final

from diagnose.knowledge.crosscheck import (
    basis,
    care,
    coverage,
    entailing,
    facts,
    items,
    names,
    outcomes,
    references,
    rules,
    texts,
    ways,
)
from diagnose.knowledge.crosscheck.check import CrossCheck, Needs
from diagnose.knowledge.layer import Layer
from diagnose.knowledge.model import KINDS
from diagnose.problems import Collector

CHECKS: Final = (
    *(
        CrossCheck(f"unknown-{KINDS[kind].one}", partial(references.unknown, kind), Needs.IDS, loose=True)
        for kind in references.referred_to()
    ),
    CrossCheck("unknown-outcome", references.unknown_outcomes, Needs.IDS, loose=True),
    CrossCheck("unknown-basis", basis.unknown_bases, Needs.IDS, loose=True),
    CrossCheck("unknown-scale-source", basis.unknown_scale_sources, Needs.IDS, loose=True),
    CrossCheck("unknown-fact", facts.unknown_facts, Needs.IDS, loose=True),
    CrossCheck("impossible-value", facts.impossible_values, loose=True),
    CrossCheck("press-named-twice", items.presses_named_twice, loose=True),
    CrossCheck("known-twice", items.causes_known_twice, loose=True),
    CrossCheck("reversed-window", items.reversed_windows),
    CrossCheck("two-families", items.families_that_differ),
    CrossCheck("may-be-of-nothing", items.nothing_to_be_instead, loose=True),
    CrossCheck("usual-is-none", items.usual_facts_that_are_none, loose=True),
    CrossCheck("item-without-handling", items.items_without_handling, Needs.EVERYTHING),
    CrossCheck("two-care-notes", care.items_in_two_notes),
    CrossCheck("care-out-of-order", care.statements_out_of_order),
    CrossCheck("care-past-a-card", care.notes_past_a_card),
    CrossCheck("item-without-care", care.items_without_a_note, Needs.EVERYTHING),
    CrossCheck("item-without-body", items.items_without_a_body, Needs.EVERYTHING),
    CrossCheck("cause-without-rule", coverage.causes_without_a_rule, Needs.EVERYTHING),
    CrossCheck("cause-without-check", coverage.causes_without_a_check, Needs.EVERYTHING),
    CrossCheck("cause-without-fix", coverage.causes_without_a_fix, Needs.EVERYTHING),
    CrossCheck("never-cures", coverage.fixes_that_never_cure, loose=True),
    CrossCheck("defect-without-rules", coverage.defects_without_rules, Needs.EVERYTHING),
    CrossCheck("check-tells-nothing", outcomes.checks_that_tell_nothing, Needs.EVERYTHING),
    CrossCheck("chances-above-one", outcomes.chances_above_one, loose=True),
    CrossCheck("loud-quiet-outcome", outcomes.loud_quiet_outcomes, loose=True),
    CrossCheck("no-otherwise", outcomes.outcomes_without_otherwise, loose=True),
    CrossCheck("reading-turns-back", outcomes.readings_that_turn_back, loose=True),
    CrossCheck("reading-tells-nothing", outcomes.readings_that_tell_nothing),
    CrossCheck("misnamed-file", rules.misnamed_files),
    CrossCheck("same-rule-twice", rules.rules_that_say_the_same, loose=True),
    CrossCheck("too-many-rules", rules.too_many_rules_for_one_cause, loose=True),
    CrossCheck("too-few-names", names.too_few_names),
    CrossCheck("name-of-two-defects", names.names_of_two_defects),
    CrossCheck("name-of-two-outcomes", names.names_of_two_outcomes),
    CrossCheck("way-of-nothing", ways.of_nothing_known, Needs.IDS),
    CrossCheck("way-of-no-outcome", ways.of_no_outcome, Needs.IDS),
    CrossCheck("way-of-two", ways.of_two_things),
    CrossCheck("also-in-a-circle", entailing.circles, Needs.IDS),
    CrossCheck("also-at-odds", entailing.answers_at_odds, Needs.IDS),
    CrossCheck("first-and-never", rules.first_and_never, loose=True),
    CrossCheck("seen-and-not-seen", rules.seen_and_not_seen, loose=True),
    CrossCheck("long-text", texts.long_texts),
    CrossCheck("false-date", texts.false_dates),
)


def cross_check(layer: Layer, found: Collector, *, lost: bool, gaps: bool) -> bool:
    """Run every check whose needs are met, and say whether a fault was found that leaves loose ends.

    ``lost``: some file could not be parsed, so that ids may be missing; ``gaps``: some entry is broken.
    """
    met = Needs.ENTRIES if lost else Needs.IDS if gaps else Needs.EVERYTHING
    loose = False
    for check in sorted(CHECKS, key=lambda check: check.needs):
        if check.needs > (min(met, Needs.IDS) if loose else met):
            break
        for fault in check.find(layer):
            found.add(fault.place, check.code, fault.wrong, expected=fault.expected, hint=fault.hint)
            loose = loose or check.loose
    return loose
