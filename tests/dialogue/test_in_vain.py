"""After fixes that changed nothing it is said to look at the piece afresh: what was seen may be something else."""

import pytest

from diagnose.dialogue.consultation import Consultation
from diagnose.dialogue.moves import Answered, DidNotSee, Move, Pressed, Saw, TriedFix
from diagnose.dialogue.session import Session
from diagnose.knowledge.shop import Shop
from diagnose.reasoning.evidence import BETTER, SAME
from diagnose.speech.talk import look_afresh
from tests.handbook.browser import knowledge
from tests.handbook.test_engine import same

TOWEL = Pressed("tea-towel-polyester")
TAPE, DRY = "tape-two-edges", "press-it-dry-first"
VAIN = (TriedFix(TAPE, SAME), TriedFix(DRY, SAME))
ONE, TWO = Saw(("ghosting",)), Saw(("ghosting", "faint-colour"))


def at(*moves: Move) -> Consultation:
    return Consultation(knowledge(), Shop(), Session((TOWEL, *moves)))


@pytest.mark.parametrize(
    ("moves", "said"),
    [
        ((ONE, *VAIN), "2 fixes have changed nothing. Look at the piece afresh: is it really this: Ghosting?"),
        ((TWO, *VAIN), "2 fixes have changed nothing. Look at the piece afresh: has it really all of these: "),
        ((ONE, VAIN[0]), ""),
        ((ONE, VAIN[0], TriedFix(DRY, BETTER)), ""),
        ((ONE, *VAIN, Answered("which-pieces", "every-piece")), ""),  # said once, then the dialogue goes on
        ((ONE, *VAIN, Saw(("faint-colour",))), ""),
        ((TWO, VAIN[0], DidNotSee(("ghosting",)), VAIN[1]), ""),
    ],
)
def test_two_fixes_in_vain_put_what_was_seen_in_doubt(moves: tuple[Move, ...], said: str) -> None:
    now = at(*moves)
    assert look_afresh(now).startswith(said)
    assert bool(look_afresh(now)) == bool(said)
    same(now.session)
