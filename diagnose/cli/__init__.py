"""The command line: the only floor that asks or prints."""

import sys


def main() -> None:
    """The ``presslore`` command; exits with one of the codes in ``diagnose.cli.exits``."""
    try:
        from diagnose.cli.program import run

        code = run()
    except KeyboardInterrupt:  # before anything was begun
        code = 130
    sys.exit(code)
