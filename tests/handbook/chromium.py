"""A real Chromium for the handbook's tests, and a site of two pages to look at in it."""

import os
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from shutil import which
from socket import SHUT_RDWR, socket
from threading import Event, Thread
from types import MappingProxyType
from typing import Any

import pytest

from diagnose.handbook import building
from diagnose.handbook.book import Handbook
from diagnose.handbook.page import offline, page
from diagnose.handbook.pictures_in import picture_files
from diagnose.knowledge.loading import shipped_folder

MISSING = "no Chromium is found; on Debian: apt-get install chromium chromium-driver"
ELSEWHERE = "press.shop.test"  # a name that leads to this machine and is none of its own, as a shop's web server has
PHONE = (390, 844)  # the pixels of a page, unless more are asked for
ARGUMENTS = (  # the driver gives each window a fresh profile
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
    "--hide-scrollbars",
    "--unsafely-treat-insecure-origin-as-secure=*.shop.test",  # it counts as encrypted, at every port
    f"--host-resolver-rules=MAP {ELSEWHERE} 127.0.0.1 , MAP * ~NOTFOUND , EXCLUDE 127.0.0.1 , EXCLUDE localhost",
)
SETTINGS = """\
INHERIT: {root}/mkdocs.yml
docs_dir: {folder}/pages
site_dir: {folder}/site
nav: [index.md, diagnose.md]
not_in_nav: ""
"""


def installed() -> tuple[str, str] | None:
    """The driver and the browser, where both are there."""
    driver, browser = which("chromedriver"), which("chromium") or which("google-chrome")
    return (driver, browser) if driver and browser else None


@contextmanager
def chromium(width: int = PHONE[0], height: int = PHONE[1], dark: bool = False) -> Iterator[Any]:
    """A browser window of this size, from which nothing beyond this machine can be reached. Where there is none
    to be had the test is skipped; with CI set, it fails."""
    if (found := installed()) is None:
        (pytest.fail if os.environ.get("CI") else pytest.skip)(MISSING)
    driver, browser = found
    from selenium import webdriver
    from selenium.webdriver.chrome.service import Service

    options = webdriver.ChromeOptions()
    options.binary_location = browser
    for argument in (*ARGUMENTS, f"--window-size={width},{height}"):
        options.add_argument(argument)
    options.set_capability("goog:loggingPrefs", {"browser": "ALL", "performance": "ALL"})
    window = webdriver.Chrome(options=options, service=Service(driver))
    try:
        resize(window, width, height)
        light(window, dark)
        window.set_script_timeout(60)
        yield window
    finally:
        window.quit()


def as_new(window: Any, *addresses: str) -> Any:
    """The same window as it was when it was opened, with nothing kept of files and of these addresses."""
    window.set_page_load_timeout(300)
    for address in ("file:///", *addresses):
        forget(window, address, "all")
    resize(window, *PHONE)
    light(window, dark=False)
    for log in ("browser", "performance"):
        window.get_log(log)
    return window


def forget(window: Any, address: str, kinds: str = "local_storage") -> None:
    """Leave the page, and have nothing kept of these kinds for where the address is."""
    window.get("about:blank")
    origin = "file:///" if address.startswith("file:") else address
    window.execute_cdp_cmd("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": kinds})


def resize(window: Any, width: int, height: int, scale: int = 1) -> None:
    """Give the page this many pixels; a window cannot be as narrow as a phone."""
    size = {"width": width, "height": height, "deviceScaleFactor": scale, "mobile": width < 600}
    window.execute_cdp_cmd("Emulation.setDeviceMetricsOverride", size)


def light(window: Any, dark: bool, *, printed: bool = False) -> None:
    """Have the device ask for light or dark, on the screen or on paper."""
    scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
    settings = {"features": [scheme], "media": "print" if printed else ""}
    window.execute_cdp_cmd("Emulation.setEmulatedMedia", settings)


def elsewhere(address: str) -> str:
    """An address on this machine, by the name of a shop's web server."""
    return address.replace("127.0.0.1", ELSEWHERE)


def two_pages(book: Handbook, folder: Path) -> Path:
    """The page that diagnoses and a front page, built by mkdocs with the site's own settings and looks."""
    root = shipped_folder()
    docs = {path: text for path, text in building.read_docs(root).items() if path.startswith("assets/")}
    leaf = page.leaf(book)
    files = {
        **docs,
        **page.files(book),
        **picture_files(book),
        **offline.registration(),
        leaf.path: leaf.file(),
        "index.md": b"# Handbook\n\n[Diagnose](diagnose.md)\n",
    }
    building.write(folder / "pages", files)
    (folder / "mkdocs.yml").write_text(SETTINGS.format(root=root, folder=folder))
    command = [sys.executable, "-m", "mkdocs", "build", "--strict", f"--config-file={folder / 'mkdocs.yml'}"]
    done = subprocess.run(command, capture_output=True, text=True, cwd=folder)
    assert done.returncode == 0, done.stderr
    keep(folder / "site")
    return folder / "site"


def keep(site: Path, patience: int = 2000) -> None:
    """Put the service worker for what stands in the site now, with this patience for the server (milliseconds)."""
    for path, content in offline.worker_for(site).items():
        patient = content.replace(b"PATIENCE = 2000;", f"PATIENCE = {patience};".encode())
        assert f"PATIENCE = {patience};".encode() in patient
        (site / path).write_bytes(patient)


class _Answer(SimpleHTTPRequestHandler):
    """Answers with what stands in the folder now: a date would have files of one second taken for one another."""

    def __init__(self, *args: Any, held: Mapping[str, Event | int], asked: Counter[str], **settings: Any) -> None:
        self.held, self.asked = held, asked
        super().__init__(*args, **settings)

    def do_GET(self) -> None:
        self.asked[self.path] += 1
        del self.headers["If-Modified-Since"]
        held = self.held.get(self.path)
        if isinstance(held, int):
            self.send_error(held)
            return
        if held is not None:
            held.wait(60)
        super().do_GET()

    def log_message(self, *_: Any) -> None:
        pass


class _Server(ThreadingHTTPServer):
    """Once it is closed nobody is answered, not even through a connection that a browser had opened in good time."""

    request_queue_size = 128  # a page asks for much at once; who is turned away tries again only a second later

    def __init__(self, *args: Any) -> None:
        self._open = set[socket]()
        super().__init__(*args)

    def process_request(self, request: Any, client_address: Any) -> None:
        self._open.add(request)
        super().process_request(request, client_address)

    def shutdown_request(self, request: Any) -> None:
        self._open.discard(request)
        super().shutdown_request(request)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that went away, or was sent away, is no news."""
        if not isinstance(sys.exc_info()[1], OSError | ValueError):
            super().handle_error(request, client_address)

    def server_close(self) -> None:
        super().server_close()
        for connection in tuple(self._open):
            with suppress(OSError):
                connection.shutdown(SHUT_RDWR)


@contextmanager
def served(
    folder: Path,
    port: int = 0,
    held: Mapping[str, Event | int] = MappingProxyType({}),
    asked: Counter[str] | None = None,
) -> Iterator[str]:
    """The address under which the folder is served while this lasts. What is held, by its path, waits for its event, or
    is answered by an error of this number. How often each path was asked for is counted."""
    answer = partial(_Answer, directory=str(folder), held=held, asked=Counter() if asked is None else asked)
    server = _Server(("127.0.0.1", port), answer)
    thread = Thread(target=server.serve_forever, args=(0.05,), daemon=True)
    thread.start()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
        thread.join()
