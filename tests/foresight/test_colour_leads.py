"""From kinds of colour fault to what the knowledge holds."""

import pytest

from diagnose.foresight.colour import DEFECTS, WASHED, leads
from diagnose.knowledge.loading import load, shipped_folder
from diagnose.knowledge.model import Knowledge
from diagnose.press.colour.judging import KINDS, Sign


@pytest.fixture(scope="module")
def knowledge() -> Knowledge:
    return load(shipped_folder())


@pytest.mark.parametrize("washed", [False, True])
@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_leads_to_known_defects_and_causes(kind: str, washed: bool, knowledge: Knowledge) -> None:
    (lead,) = leads(knowledge, [Sign(kind, 5.0)], washed=washed)
    wanted = WASHED.get(kind, DEFECTS[kind]) if washed else DEFECTS[kind]
    assert tuple(defect.id for defect in lead.defects) == wanted
    assert 1 <= len(lead.causes) <= 4
    causing = {rule.cause for rule in lead.defects[0].rules}
    assert {cause.id for cause in lead.causes} <= causing


def test_the_cause_that_is_most_often_behind_it_comes_first(knowledge: Knowledge) -> None:
    (lead,) = leads(knowledge, [Sign("weaker", 5.0)])

    def weight(cause: str) -> float:
        rules = [rule.brings.value for rule in lead.defects[0].rules if rule.cause == cause]
        return max(rules) * knowledge.causes[cause].turns_up.value

    found = [weight(cause.id) for cause in lead.causes]
    assert found == sorted(found, reverse=True)
    assert found[0] == max(weight(rule.cause) for rule in lead.defects[0].rules)
