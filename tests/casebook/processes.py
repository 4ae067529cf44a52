"""Processes that write to a casebook, and may be killed at any moment."""

import os
import signal
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass

from diagnose.casebook.store.casebook import open_book
from tests.casebook.some import some_cases

BATCH = 3  # cases that are kept together


@dataclass
class Writer:
    """A process of its own that does some work, and tells through a pipe how far it has come."""

    process: int
    pipe: int
    heard: bytes = b""

    @classmethod
    def start(cls, work: Callable[[int], None]) -> "Writer":
        """Fork; the child does the work with the writing end of the pipe, and ends."""
        reading, writing = os.pipe()
        process = os.fork()
        if process:
            os.close(writing)
            return cls(process, reading)
        code = 1
        try:
            os.close(reading)
            work(writing)
            code = 0
        except BaseException as error:
            print(f"writer: {error!r}", file=sys.__stderr__)
        finally:
            os._exit(code)

    def kill(self, lines: int, then: float) -> None:
        """Kill it some seconds after it has told so many lines, so that a slow machine makes no difference."""
        while self.heard.count(b"\n") < lines:
            self.heard += os.read(self.pipe, 4096)
        time.sleep(then)
        os.kill(self.process, signal.SIGKILL)

    def told(self) -> tuple[int, list[str]]:
        """Its exit status and the whole lines it wrote."""
        _, status = os.waitpid(self.process, 0)
        with os.fdopen(self.pipe, "rb") as stream:
            *lines, _ = (self.heard + stream.read()).decode("ascii").split("\n")
        return status, lines


def keep_on_writing(place: str, first: int, most: int) -> Callable[[int], None]:
    """Work: add cases a few at a time, and tell the number of the first of them once they are kept."""

    def work(pipe: int) -> None:
        with open_book(place) as book:
            for number in range(first, first + most, BATCH):
                book.add(some_cases(BATCH, number))
                os.write(pipe, f"{number}\n".encode())

    return work
