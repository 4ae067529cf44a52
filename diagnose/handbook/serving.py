"""Shows a built site to this machine alone: its plain files, to whoever asks by this machine's own name.

A page of another site cannot read it: the name asked for is checked (a stranger's name may be made to lead here), and
every answer says what a page may load and who may use it.
"""

import os
import re
import sys
from base64 import b64encode
from collections.abc import Callable, Iterable
from functools import partial
from hashlib import sha256
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from socket import socket
from typing import Any, BinaryIO
from urllib.parse import quote, unquote_to_bytes

from diagnose import __version__
from diagnose.files import reading
from diagnose.problems import PressloreError

HERE = "127.0.0.1"  # nobody else's machine may ask
NAMES = (HERE, "localhost")
PATIENCE = 20.0  # seconds that a connection may say nothing
HOME = "index.html"
TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".map": "application/json",
    ".svg": "image/svg+xml",
    ".xml": "application/xml",
    ".txt": "text/plain; charset=utf-8",
    ".png": "image/png",
    ".ico": "image/x-icon",
    ".woff2": "font/woff2",
    ".gz": "application/gzip",
}
_STRANGE = re.compile(rb"[\x00-\x1f\x7f\\:]")  # no file of a site is called so; to some systems these mean something
_SCRIPT = re.compile(r"<script>(.*?)</script>", re.DOTALL)
_FROM_HERE = re.compile(r'new URL\("[./]*",location\)')  # the one part of the theme's scripts that a page's folder sets


class Server(ThreadingHTTPServer):
    """Serves the files in a folder; port 0 is a free one. ``allowed``: the scripts within pages that may run, set by
    ``trust`` once the site is built; ``complain`` takes a line on what went wrong. Raises OSError where the port cannot
    be had."""

    daemon_threads = True  # a reader who stays connected keeps nobody from stopping
    allow_reuse_address = os.name == "posix"  # elsewhere this would take a port from whoever has it

    def __init__(self, folder: Path, port: int, complain: Callable[[str], object]) -> None:
        self.allowed: tuple[str, ...] = ()
        self._complain = complain
        super().__init__((HERE, port), partial(_Answer, folder=folder))

    def trust(self, folder: Path) -> None:
        """Let the theme's own scripts run."""
        self.allowed = digests(page.read_text(encoding="utf-8") for page in sorted(folder.rglob("*.html")))

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A reader who went away is no news; all else is, in a line."""
        error = sys.exc_info()[1]
        if not isinstance(error, ConnectionError | TimeoutError):
            self._complain(f"One request could not be answered: {error!r}")


def digests(pages: Iterable[str]) -> tuple[str, ...]:
    """How a policy names the scripts that stand within pages: those alone that stand in all of them, as the theme's do.
    A script that came in with somebody's words stands in some."""
    held = [{_FROM_HERE.sub("", script): script for script in _SCRIPT.findall(page)} for page in pages]
    everywhere = set.intersection(*map(set, held)) if held else set()
    found = {each[script] for each in held for script in everywhere}
    return tuple(sorted(f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'" for text in found))


def policy(allowed: Iterable[str]) -> str:
    """What a page may load and run: its own site's files, and the theme's scripts."""
    return "; ".join(
        [
            "default-src 'none'",
            " ".join(["script-src", "'self'", *allowed]),
            "style-src 'self'",
            "style-src-attr 'unsafe-inline'",  # the bars of charts
            "img-src 'self' data:",
            "font-src 'self'",
            "connect-src 'self'",
            "worker-src 'self'",
            "manifest-src 'self'",
            "base-uri 'none'",
            "form-action 'none'",
            "frame-ancestors 'none'",
        ]
    )


class _Answer(BaseHTTPRequestHandler):
    server: Server
    server_version = f"presslore/{__version__}"
    sys_version = ""
    timeout = PATIENCE
    error_message_format = "%(code)d %(message)s\n"
    error_content_type = "text/plain; charset=utf-8"

    def __init__(self, request: socket, client: Any, serving: Server, *, folder: Path) -> None:
        self._folder = folder
        super().__init__(request, client, serving)

    def do_GET(self) -> None:
        self._answer()

    def do_HEAD(self) -> None:
        self._answer()

    def _answer(self) -> None:
        try:
            self._show()
        except (ConnectionError, TimeoutError):
            self.close_connection = True  # the reader went away

    def _show(self) -> None:
        if not self._is_meant():
            self.send_error(HTTPStatus.MISDIRECTED_REQUEST, f"This handbook is at http://{HERE}:{self._port}/")
            return
        names = self._names()
        if names is None:
            self.send_error(HTTPStatus.NOT_FOUND)
        elif file := opened(self._folder, names):
            with file:
                self._send(file, names[-1])
        elif inner := opened(self._folder, [*names, HOME]):
            inner.close()
            self._lead(names)
        else:
            self.send_error(HTTPStatus.NOT_FOUND)

    @property
    def _port(self) -> int:
        return int(self.server.server_address[1])

    def _is_meant(self) -> bool:
        """Whether the name asked for is this machine's: a page that was led here by another name is not to read it."""
        asked = [name.strip().lower() for name in self.headers.get_all("Host", [])]
        names = [f"{name}:{self._port}" for name in NAMES] + ([*NAMES] if self._port == 80 else [])
        return len(asked) == 1 and asked[0] in names

    def _names(self) -> list[str] | None:
        """The folders and the file asked for; None where no file is called so."""
        asked = self.path.partition("?")[0].partition("#")[0]
        way = unquote_to_bytes(asked)
        if not way.startswith(b"/") or _STRANGE.search(way):
            return None
        try:
            names = way[1:].decode("utf-8").split("/")
        except UnicodeDecodeError:
            return None
        names = [*names[:-1], names[-1] or HOME]
        return None if any(not name or name.startswith(".") for name in names) else names

    def _send(self, file: BinaryIO, name: str) -> None:
        content = file.read()
        self.send_response(HTTPStatus.OK)
        self.send_header("Content-Type", TYPES.get(Path(name).suffix.lower(), "application/octet-stream"))
        self.send_header("Content-Length", str(len(content)))
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(content)

    def _lead(self, names: list[str]) -> None:
        self.send_response(HTTPStatus.MOVED_PERMANENTLY)
        self.send_header("Location", quote(f"/{'/'.join(names)}/"))
        self.send_header("Content-Length", "0")
        self.end_headers()

    def end_headers(self) -> None:
        """Every answer says how it may be used."""
        self.send_header("X-Content-Type-Options", "nosniff")
        self.send_header("Content-Security-Policy", policy(self.server.allowed))
        self.send_header("Referrer-Policy", "no-referrer")
        self.send_header("Cross-Origin-Resource-Policy", "same-origin")
        self.send_header("Cross-Origin-Opener-Policy", "same-origin")
        self.send_header("Cache-Control", "no-cache")
        super().end_headers()

    def log_message(self, format: str, *args: object) -> None:  # noqa: A002 - the name is given
        """Say nothing of each request."""


def opened(folder: Path, names: Iterable[str]) -> BinaryIO | None:
    """A plain file of a folder, open to be read; None where there is none. No link leads out of the folder."""
    try:
        inside = Path(os.path.realpath(folder, strict=True))
        found = Path(os.path.realpath(inside.joinpath(*names), strict=True))
        return reading.opened(found) if inside in found.parents else None
    except (OSError, ValueError, PressloreError):
        return None
