"""What a bundle is: a few files with text, a manifest that vouches for them, and the limits on all of it."""

import hashlib
import re
from collections.abc import Mapping
from dataclasses import dataclass

from diagnose.problems import PressloreError

FORMAT, VERSION = "presslore-rules", 1
MANIFEST = "manifest.json"
KB_FILE = "kb/entries.yaml"
MOST_BYTES = 2_000_000  # of the bundle, and of all that it holds
MOST_FILE_BYTES = 500_000
MOST_FILES = 200
MOST_RATIO = 50  # of what a file holds to the room it takes in the bundle; text comes to about 10
RATIO_FROM = 20_000  # bytes; smaller files may shrink as they like
NAME = re.compile(r"(?:kb|rules)/[a-z0-9]+(?:-[a-z0-9]+)*\.yaml")
KINDS = ("facts", "sources", "cautions", "causes", "checks", "fixes")  # that a bundle may define
ADDS = "adds-to"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bundle:
    """``date``: that of its newest rule, as year-month-day. ``files``: texts by name. ``digest``: SHA-256 of the
    manifest, in hexadecimal digits, which stands for every byte of the files."""

    date: str
    files: Mapping[str, str]
    digest: str

    @property
    def short(self) -> str:
        """Enough of the digest to name the bundle by."""
        return self.digest[:8]


def sha256(data: bytes) -> str:
    """The digest in hexadecimal digits."""
    return hashlib.sha256(data).hexdigest()


def refused(shown: str, wrong: str) -> PressloreError:
    """The error for a bundle that is not taken; ``shown`` names it to a person."""
    return PressloreError(f"{shown}: not taken, {wrong}. Nothing was written; ask for a fresh bundle.")
