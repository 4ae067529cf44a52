"""The command in a process of its own, to be told that a person is there to answer: what is typed comes through a
pipe. Where both streams are a terminal's anyway it is the command as it is."""

import sys

from diagnose.cli.program import run
from diagnose.cli.terminal import screen

if __name__ == "__main__":
    screen.both_terminals = lambda: True
    sys.exit(run())
