"""Colours, and what becomes of them, in words: for who judges a print, for the customer, for who reads by ear."""

from collections.abc import Sequence

from diagnose.press.colour.blend import Blend, OnBlend, paler
from diagnose.press.colour.difference import Difference
from diagnose.press.colour.lab import Lab
from diagnose.press.colour.looks import SEEN, Change, changes, how_far, named
from diagnose.speech.saying import listed, say


def in_words(difference: Difference) -> str:
    """What is seen, the strongest first: ``lighter and a little less colourful``, ``turned towards yellow``."""
    found = changes(difference)
    if found:
        return listed(map(_change, found))
    return say("hardly-a-difference") if difference.ciede2000 >= SEEN else say("no-difference")


def _change(change: Change) -> str:
    if change.kind == "turned":
        return say("hue-turned", degree=change.degree, hue=say("hue-name", hue=change.hue))
    return say("colour-changed", kind=change.kind, degree=change.degree)


def seen(distance: float) -> str:
    """What a CIEDE2000 means to a person."""
    return say("colours-apart", far=how_far(distance))


def name(colour: Lab) -> str:
    """A plain name: ``dark blue``, ``pale yellow``, ``grey``."""
    depth, hue = named(colour)
    return say("colour-name", depth=depth, hue=say("hue-name", hue=hue))


def sign_words(kind: str) -> str:
    """What a kind of fault is."""
    return say("colour-fault", kind=kind)


def share_words(share: float) -> str:
    """``65 %``."""
    return say("exact-percent", percent=100.0 * share)


def cloth(share: float) -> str:
    """``65 % polyester``, ``all cotton``."""
    return say("cloth", share=share, percent=100.0 * share)


def becomes(found: Blend, on: OnBlend) -> str:
    """The washed print beside the same on all polyester."""
    if on.share == 0.0:
        return say("washed-nothing-left")
    if on.off < SEEN:
        return say("washed-the-same")
    return say("washed", difference=in_words(Difference(found.full, on.washed.stated)))


def for_customer(blends: Sequence[Blend], share: float) -> str:
    """What to tell the customer about this cloth, in one or two sentences."""
    if share == 0.0:
        return say("cotton-holds-no-dye")
    how, washes = paler(blends, share)
    if how == "":
        return say("full-colour-kept")
    cotton = share_words(round(1.0 - share, 6))
    return say("paler-and-washes", cotton=cotton, how=how) if washes else say("paler", cotton=cotton, how=how)


def of_ground(found: Blend, called: str = "") -> str:
    """What a tinted cloth does to a print; "" on white."""
    if not found.tinted:
        return ""
    ground, difference = called or name(found.ground), Difference(found.wanted, found.full)
    if difference.ciede2000 < SEEN:
        return say("ground-hardly-changes", ground=ground)
    if found.sinks:
        return say("ground-hides", ground=ground, difference=in_words(difference))
    return say("ground-changes", ground=ground, difference=in_words(difference))
