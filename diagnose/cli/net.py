"""The last net: whatever was not foreseen ends in a few words that say what happened and where."""

import os
import sys
from contextlib import suppress
from pathlib import Path

import diagnose
from diagnose.cli import exits
from diagnose.cli.terminal.screen import screen_for

WHOLE_STORY = "PRESSLORE_TRACEBACK"  # set to anything, the way through the code is printed as well
_PACKAGE = str(Path(diagnose.__file__).parent)


def caught(error: Exception) -> int:
    """Tell of an error that nobody expected, and return the exit code: what the system refused is no fault of
    presslore's, all else is."""
    import traceback  # 2 ms that nobody needs to wait for otherwise

    with suppress(Exception):  # where standard error is full or closed, the exit code says it alone
        err = screen_for(sys.stderr)
        err.whole("\n".join(_words(error)))
        if os.environ.get(WHOLE_STORY):
            err.whole("".join(traceback.format_exception(error)))
    close_output()
    return exits.PROBLEMS if isinstance(error, OSError | MemoryError) else exits.FAULT


def close_output() -> None:
    """Have Python's own last words go nowhere: there is nobody to read them."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError, AttributeError):
            stream.flush()
        with suppress(OSError, ValueError, AttributeError):
            os.dup2(nowhere, stream.fileno())
    os.close(nowhere)


def _words(error: Exception) -> list[str]:
    if isinstance(error, MemoryError):
        return ["This takes more memory than there is; presslore stopped."]
    if isinstance(error, OSError):
        return [_refused(error)]
    return [
        f"This is a fault in presslore, and none of yours: {type(error).__name__}: {str(error)[:300]}",
        f"It happened at {_where(error)}. {WHOLE_STORY}=1 before the command prints the way there.",
        "Please tell whoever looks after presslore, with these lines and what you typed.",
    ]


def _refused(error: OSError) -> str:
    reason = error.strerror or str(error)
    if error.filename is not None:
        return f"{os.fsdecode(error.filename)}: the system refused this ({reason})"
    try:
        os.getcwd()
    except OSError:
        return "The folder you stand in is gone: go to one that is there, and say this again."
    return f"The system refused to go on ({reason})."


def _where(error: Exception) -> str:
    """The innermost line of presslore's own code on the way to the error: ``cli/ready/command.py, line 40``."""
    import traceback

    frames = traceback.extract_tb(error.__traceback__)
    own = [frame for frame in frames if frame.filename.startswith(_PACKAGE)] or frames[-1:]
    return ", ".join(f"{os.path.relpath(frame.filename, _PACKAGE)}, line {frame.lineno}" for frame in own[-1:])
