"""Reads a job file: what ``presslore ready`` is to be told, as YAML."""

from pathlib import Path
from typing import Any

from diagnose.knowledge.document import Plain
from diagnose.problems import Place, PressloreError, Problem

LARGEST = 100_000  # bytes


def read_job(path: Path) -> dict[str, Any]:
    """The values of a job file by key. Raises PressloreError with everything that is wrong with it."""
    from diagnose.knowledge.schema_check import check_structure
    from diagnose.knowledge.yaml_text import read_yaml

    try:
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except OSError as error:
        raise _problem(path, f"cannot be read: {error.strerror or error}") from None
    if len(data) > LARGEST:
        raise _problem(path, f"more than {LARGEST:,} bytes: this is no job file")
    document, problems = read_yaml(data, str(path))
    if document is not None:
        document, more = check_structure(document, "job")
        problems = [*problems, *more]
    if problems or document is None:
        raise PressloreError(problems)
    return _plain(document.value)


def _problem(path: Path, wrong: str) -> PressloreError:
    return PressloreError([Problem(place=Place(str(path)), code="job-file", wrong=wrong)])


def _plain(value: Plain) -> dict[str, Any]:
    """The file's keys as the options are called: ``not-so`` becomes ``not_so``."""
    return {key.replace("-", "_"): each for key, each in value.items()} if isinstance(value, dict) else {}
