"""Keeps a dialogue as it goes: a file of its own, written after every move, until its case is in the casebook."""

from __future__ import annotations

import shlex
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from pathlib import Path

from diagnose.cli.diagnosis.ending import Watch
from diagnose.cli.shop.shelf import state_folder
from diagnose.cli.terminal.screen import Screen
from diagnose.dialogue.saving import MOST_BYTES, SAVED, Progress, Saved, make_folder, to_json
from diagnose.dialogue.session import Session
from diagnose.dialogue.waiting import begin, name_of
from diagnose.files.kinds import write_out
from diagnose.files.reading import read_if_there
from diagnose.files.writing import write_over
from diagnose.problems import PressloreError
from diagnose.speech.saying import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Beginning:
    """Where a dialogue comes from and where it is kept. ``saved``: what was gone on with, from the file ``path``;
    None for a new one. ``save_to``: the file that the person named, if any; ``force``: it may replace a saved
    dialogue."""

    path: Path | None = None
    saved: Saved | None = None
    save_to: Path | None = None
    force: bool = False

    @property
    def copied(self) -> bool:
        """Whether it goes on in another file than it came from, which stays as it is."""
        return self.save_to is not None and not (self.path and _same(self.save_to, self.path))

    def progress(self, session: Session) -> Progress:
        """The progress with which it goes on as this session. What is no longer the dialogue that was saved becomes a
        case of its own, so that neither takes the other's place in the casebook."""
        saved = self.saved
        if saved is None:
            return Progress(case=_new_case())
        found = saved.progress or Progress(case=_new_case(), kept=saved.session.over is not None)
        if self.copied or (saved.session.over and session != saved.session):
            found = replace(found, case=_new_case(), kept=found.kept and session == saved.session)
        return found if session.over else replace(found, ended=None)


def _same(one: Path, other: Path) -> bool:
    return one.absolute() == other.absolute()


def _new_case() -> str:
    from diagnose.casebook.case import new_id

    return new_id(datetime.now(UTC))


class KeptSession:
    """Keeps the session after every move, so that leaving in any way loses nothing; says once where it cannot. Times
    the steps as they are made."""

    def __init__(
        self,
        screen: Screen,
        beginning: Beginning,
        version: str,
        shop: Path | None,
        session: Session,
        waits: Mapping[str, float] | None = None,
    ) -> None:
        self.screen, self.version, self.force = screen, version, beginning.force
        self.shop = f" --shop {shlex.quote(str(shop))}" if shop else ""
        self.where = beginning.save_to if beginning.copied else beginning.path
        self.content = None if beginning.copied or beginning.saved is None else beginning.saved.content
        self.progress = beginning.progress(session)
        self.watch = Watch(minutes=self.progress.minutes, took=dict(self.progress.took), waits=waits or {})
        self.warned = self.done = False

    def __call__(self, session: Session) -> None:
        self.watch.step(session)
        ended = datetime.now(UTC).timestamp() if session.over and not self.progress.ended else self.progress.ended
        self.progress = replace(
            self.progress,
            minutes=self.watch.minutes,
            took=dict(self.watch.took),
            ended=ended if session.over else None,
            kept=self.progress.kept and session.over is not None,
        )
        self._keep(session)

    def case_is_kept(self, session: Session) -> None:
        """The dialogue is over and its case is safe: its file goes; one that the person named stays and says so."""
        self.progress, self.done = replace(self.progress, kept=True), False
        if self.where is None:
            return
        if name_of(state_folder(), self.where):
            with suppress(OSError):
                self.where.unlink(missing_ok=True)
        else:
            self._keep(session)

    def how_to_go_on(self) -> None:
        """Which call goes on with the session; nothing where it could not be kept."""
        if self.done and self.where and not self.progress.kept:
            named = name_of(state_folder(), self.where) or shlex.quote(str(self.where))
            self.screen.line(say("saved-go-on-with"))
            self.screen.whole(f"  presslore diagnose{self.shop} --resume {named}")

    def _keep(self, session: Session) -> None:
        try:
            self._write(session)
            self.done = True
        except PressloreError as error:
            if not self.warned:
                self.screen.line(say("session-not-kept", error=error), "caution")
            self.warned, self.done = True, False

    def _write(self, session: Session) -> None:
        content = self._content(session)
        if self.where is None:
            self.where = begin(state_folder(), session, content)
        elif self.content is None:
            make_folder(self.where.parent)
            write_out(self.where, content, SAVED, force=self.force)
        elif read_if_there(self.where, most=MOST_BYTES) == self.content:
            write_over(self.where, content)
        else:
            self._part(session)
            return
        self.content = content

    def _part(self, session: Session) -> None:
        """Somebody else has gone on with this dialogue, or deleted it: go on in a file and a case of our own."""
        self.progress = replace(self.progress, case=_new_case())
        old, self.content = self.where, self._content(session)
        self.where = begin(state_folder(), session, self.content)
        self.screen.line(
            say("dialogue-changed-elsewhere", old=old, name_of=name_of(state_folder(), self.where)),
            "caution",
        )

    def _content(self, session: Session) -> bytes:
        return to_json(session, self.version, self.progress).encode()
