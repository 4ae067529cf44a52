"""How each check and each fix is done, step by step. Nobody reads it before a step is asked for, so the page fetches it
once it has been painted."""

import json

from diagnose.handbook.page.compiled import Packed, assigned
from diagnose.knowledge.model import Knowledge


def doing_script(knowledge: Knowledge) -> str:
    """A classic script that no text in it can break out of."""
    return assigned("doing", doing(knowledge)) + f"presslore.doing.version = {json.dumps(knowledge.version)};\n"


def doing(knowledge: Knowledge) -> Packed:
    """The steps of each check, what it needs, and the steps of each fix, in the order of the knowledge."""
    return {
        "checks": [list(check.how) for check in knowledge.checks.values()],
        "needs": [list(check.needs) for check in knowledge.checks.values()],
        "fixes": [list(fix.steps) for fix in knowledge.fixes.values()],
    }
