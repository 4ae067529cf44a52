"""The exit codes of the command, documented in its help."""

GOOD = 0  # it did what was asked
PROBLEMS = 1  # something is wrong with a file or the knowledge; every problem was named; or a danger was cried out
USAGE = 2  # the call was not understood: an unknown option, id or value
NOT_UNDERSTOOD = 3  # none of the words were understood, so there is nothing to diagnose
FAULT = 70  # presslore itself is at fault; it says where
STOPPED = 130  # stopped by the person at the keyboard

TABLE = (
    "Exit codes: 0 done; 1 problems found, all named; 2 the call was not understood; "
    "3 none of the words were understood; 70 a fault of the program; 130 stopped by Ctrl-C."
)
