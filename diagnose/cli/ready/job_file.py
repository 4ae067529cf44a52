"""Reads a job file: what ``presslore ready`` is to be told, as YAML."""

from pathlib import Path
from typing import Any

from diagnose.files.reading import read
from diagnose.knowledge.documents.document import Plain
from diagnose.problems import PressloreError

LARGEST = 100_000  # bytes


def read_job(path: Path) -> dict[str, Any]:
    """The values of a job file by key. Raises PressloreError with everything that is wrong with it."""
    from diagnose.knowledge.documents.schema_check import check_structure
    from diagnose.knowledge.documents.yaml_text import read_yaml

    document, problems = read_yaml(read(path, most=LARGEST), str(path))
    if document is not None:
        document, more = check_structure(document, "job")
        problems = [*problems, *more]
    if problems or document is None:
        raise PressloreError(problems)
    return _plain(document.value)


def _plain(value: Plain) -> dict[str, Any]:
    """The file's keys as the options are called: ``not-so`` becomes ``not_so``."""
    return {key.replace("-", "_"): each for key, each in value.items()} if isinstance(value, dict) else {}
