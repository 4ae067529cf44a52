"""The command line: the only floor that asks or prints."""

import sys


def main() -> None:
    """The ``presslore`` command; exits with one of the codes in ``diagnose.cli.exits``."""
    from diagnose.cli.program import run

    sys.exit(run())
