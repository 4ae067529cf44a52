"""What words cry out, held against the dangers that are known."""

from dataclasses import replace

from diagnose.dialogue.alarm import alarm
from diagnose.knowledge.loading import load


def test_a_danger_comes_with_what_to_do() -> None:
    danger = alarm(load(), "burnt my hand on platen bad")
    assert danger is not None
    assert danger.id == "burn"
    assert "20 minutes" in danger.steps[0]
    assert alarm(load(), "the shirt is burnt") is None


def test_what_a_shop_took_out_of_use_is_not_told() -> None:
    knowledge = load()
    left = {name: danger for name, danger in knowledge.dangers.items() if name != "smoke"}
    assert alarm(replace(knowledge, dangers=left), "the press is smoking") is None


def test_a_shops_own_danger_is_heard_by_its_sayings() -> None:
    knowledge = load()
    own = replace(knowledge.dangers["gas"], id="forklift", title="The forklift tips", said=("the forklift tips over",))
    known = replace(knowledge, dangers={**knowledge.dangers, "forklift": own})
    assert alarm(known, "The forklift tips over!") == own
    assert alarm(known, "the forklift stands") is None
