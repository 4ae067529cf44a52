"""Limits that a test may work under: as somebody who may not write everywhere, on a disk that is full."""

import os
import resource
from collections.abc import Iterator
from contextlib import contextmanager

NOBODY = 65534


@contextmanager
def as_nobody() -> Iterator[None]:
    """Root may write anywhere; so these tests are somebody else for a while."""
    if os.getuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


@contextmanager
def largest_file(size: int) -> Iterator[None]:
    """No file may grow beyond this, as on a disk that is full."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (size, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
