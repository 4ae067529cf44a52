"""Starts the command again and again, each time in a process of its own, forked from one that has loaded all modules: a
start by Python spends most of its time on that. Nothing else is shared; what is cached is read by each.

What is asked for comes as lines of JSON; the answer is a line with the new process, and one with its exit code.
"""

import ctypes
import json
import os
import pkgutil
import signal
import sys
from contextlib import suppress
from importlib import import_module
from io import FileIO, TextIOWrapper

import diagnose

PR_SET_PTRACER, ANYBODY = 0x59616D61, ctypes.c_ulong(-1)


def main() -> None:
    from diagnose.cli.terminal import screen

    screen.both_terminals = lambda: True  # before a command takes it from there
    for module in pkgutil.walk_packages(diagnose.__path__, "diagnose."):
        if not module.name.endswith("__main__"):
            import_module(module.name)
    for line in sys.stdin:
        process = os.fork()
        if process == 0:
            become(**json.loads(line))
        tell(process)
        tell(os.waitstatus_to_exitcode(os.waitpid(process, 0)[1]))


def tell(number: int) -> None:
    sys.stdout.write(f"{number}\n")
    sys.stdout.flush()


def become(arguments: list[str], folder: str, settings: dict[str, str], typed: str, said: str, waits: bool) -> None:
    """Be the command in this folder, with these environment variables alone, input from one file and both outputs to
    another. ``waits``: stand still first, until whoever traces this process lets it go on."""
    from diagnose.cli.program import run

    os.chdir(folder)
    os.environ.clear()
    os.environ.update(settings)
    out = os.open(said, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    for number, handle in enumerate((os.open(typed, os.O_RDONLY), out, out)):
        os.dup2(handle, number)
    sys.stdin = open(0, encoding="utf-8", closefd=False)  # noqa: SIM115
    # What is said is heard at once, as in a terminal.
    sys.stdout, sys.stderr = (TextIOWrapper(FileIO(n, "w", closefd=False), "utf-8", write_through=True) for n in (1, 2))
    if waits:
        with suppress(AttributeError):  # where only a parent may trace
            ctypes.CDLL(None).prctl(PR_SET_PTRACER, ANYBODY, 0, 0, 0)
        os.kill(os.getpid(), signal.SIGSTOP)
    sys.exit(run(arguments))


if __name__ == "__main__":
    main()
