"""Cases as learning material at once."""

from collections.abc import Iterable

from diagnose.casebook.case import Case
from diagnose.casebook.learning.jobs import Jobs
from diagnose.casebook.learning.material import Gathering, Tabled


def gather(patterns: Iterable[tuple[Case, int]], jobs: Jobs) -> Tabled:
    """The patterns as learning material."""
    gathering = Gathering(jobs)
    for case, count in patterns:
        gathering.add(case, float(count))
    return gathering.done()
