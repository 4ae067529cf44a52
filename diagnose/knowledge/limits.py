"""How much one folder of knowledge may hold. What ships takes less than half of any of it; within the limits a check of
the whole folder ends within some ten seconds, whoever wrote it."""

from typing import Final

MOST_FILES: Final = 1_000
MOST_FILE_BYTES: Final = 2_000_000
MOST_BYTES: Final = 10_000_000  # all files of a folder together
MOST_VALUES: Final = 100_000  # texts, numbers, lists and mappings in all files of a folder
MOST_ENTRIES: Final = 4_000  # causes, checks, rules, worked cases and all others together
MOST_DEFECTS: Final = 200  # for each of which a step is planned
MOST_CASES: Final = 600  # worked cases, each of which is worked through
MOST_LINES: Final = 200  # of handling, each of which is held against each item
MOST_SAID: Final = 200_000  # words of all names that people's words are held against
MOST_WAYS: Final = 600_000  # words of all ways of saying
MOST_WAYS_FILES: Final = 2_000
MOST_LOOKING: Final = (
    5_000_000_000  # words that call for cautions times letters of the steps in which they are looked for
)
RULES_FOR_ONE_CAUSE: Final = 40  # that lead to one defect, and are held against each other
SPLIT: Final = "leave out what is not needed, or split it into two shops"
