"""What a bundle is: a few files with text, a manifest that vouches for them, and the limits on all of it."""

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.knowledge.taken import spoken
from diagnose.problems import PressloreError

FORMAT, VERSION = "presslore-rules", 1
MANIFEST = "manifest.json"
KB_FILE = "kb/entries.yaml"
MOST_BYTES = 2_000_000  # of the bundle, and of all that it holds
MOST_FILE_BYTES = 500_000
MOST_FILES = 200
MOST_ENTRIES = 1_000  # rules, causes, fixes and the like in all of a bundle
MOST_TOLD = 100  # of the problems of one bundle
MOST_RATIO = 50  # of what a file holds to the room it takes in the bundle; text comes to about 10
RATIO_FROM = 20_000  # bytes; smaller files may shrink as they like
NAME = re.compile(r"(?:kb|rules)/[a-z0-9]+(?:-[a-z0-9]+)*\.yaml")
KINDS = ("facts", "sources", "cautions", "causes", "checks", "fixes")  # that a bundle may define
STEPS = ("checks", "fixes")  # what is done: on trial in the shop that takes it
ADDS = "adds-to"
CALLING = frozenset({"at-a-press", "called-for-by", "not-by"})  # of a caution: what each shop says itself


@dataclass(frozen=True, slots=True, kw_only=True)
class Sender:
    """Whose a bundle is: the name that the shop goes by, and the id that it made at its first share ("" for none).
    Both are what a bundle says of itself: whoever has seen one can write the same into another. Only the digest, heard
    from the shop itself, tells that a bundle is what that shop shared."""

    name: str = ""
    shop: str = ""


NOBODY = Sender()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundle:
    """``date``: that of its newest rule, as year-month-day. ``files``: texts by name. ``digest``: SHA-256 of the
    manifest, in hexadecimal digits, which stands for every byte of the files and for the sender."""

    date: str
    files: Mapping[str, str]
    digest: str
    sender: Sender = NOBODY

    @property
    def short(self) -> str:
        """Enough of the digest to name folders by."""
        return self.digest[:16]

    @property
    def spoken(self) -> str:
        """The digest as it is read out."""
        return spoken(self.digest)


def same_digest(said: str, digest: str) -> bool:
    """Whether a digest that somebody heard or copied, short or whole, is this one. Raises PressloreError where it is
    neither."""
    plain = re.sub(r"[\s.-]", "", said).lower()
    if re.fullmatch(r"[0-9]{20}", plain):
        return plain == spoken(digest).replace("-", "")
    if re.fullmatch(r"[0-9a-f]{64}", plain):
        return plain == digest
    raise PressloreError(f"--digest: expected five groups of four digits, such as {spoken('0' * 63 + '7')}")


def sha256(data: bytes) -> str:
    """The digest in hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()


def refused(shown: str, wrong: str) -> PressloreError:
    """The error for a bundle that is not taken; ``shown`` names it to a person."""
    return PressloreError(f"{shown}: not taken, {wrong}. Nothing was written; ask for a fresh bundle.")
