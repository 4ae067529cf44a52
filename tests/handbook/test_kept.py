"""What a device keeps of a served handbook: the server's word goes first, and what is shown without it is true."""

import os
import shutil
from collections.abc import Iterator
from contextlib import ExitStack
from itertools import count
from pathlib import Path
from threading import Event
from time import time
from typing import Any

import pytest

from diagnose.handbook.book import Handbook
from diagnose.handbook.page import offline
from diagnose.knowledge.loading import load
from tests.handbook.chromium import chromium, elsewhere, keep, served, two_pages
from tests.handbook.dialogue import Person

pytestmark = pytest.mark.slow

FRONT = "<!doctype html><script src='assets/offline.js'></script><p>{}</p><script src='part.js'></script>"
READY = "navigator.serviceWorker.ready.then(arguments[0])"
NAMES = """
const done = arguments[0];
caches.keys().then((places) => Promise.all(places.sort().map((place) => caches.open(place).then((one) => one.keys())
  .then((keys) => [place, keys.map((key) => new URL(key.url).pathname).sort()])))).then(done);
"""
RENEWED = """
const done = arguments[0], kept = navigator.serviceWorker;
kept.addEventListener('controllerchange', () => done(1));
kept.getRegistration().then((one) => one.update());
"""
REGISTERED = """
const done = arguments[0];
setTimeout(() => navigator.serviceWorker.getRegistrations().then((found) => done(found.length)), 500);
"""


LAID = count()


def lay(site: Path, word: str) -> None:
    """A built site of one page that shows a word and loads a part that says it too."""
    (site / "assets").mkdir(parents=True, exist_ok=True)
    (site / "index.html").write_text(FRONT.format(word))
    (site / "part.js").write_text(f"window.part = {word!r}")
    for path, content in offline.registration().items():
        (site / path).write_bytes(content)
    keep(site)
    stamp = int(time()) + 2 * next(LAID)  # a server tells files apart by the second they were written in
    for laid in site.rglob("*"):
        os.utime(laid, (stamp, stamp))


class Shop:
    """A shop's web server that can be stopped and started again, and a visitor's browser."""

    def __init__(self, folder: Path, window: Any, going: ExitStack, port: int, held: dict[str, Event | int]) -> None:
        self.folder, self.window, self._going, self._port, self.held = folder, window, going, port, held
        self.address = elsewhere(f"http://127.0.0.1:{port}")

    def visit(self, path: str = "/") -> tuple[str, str]:
        """What the page shows, and what its part says."""
        self.window.get(f"{self.address}{path}")
        shown = self.window.execute_script("return [document.querySelector('p')?.textContent || '', window.part || '']")
        return shown[0], shown[1]

    def keep(self, path: str = "/") -> None:
        """A first visit, until all is kept."""
        self.visit(path)
        self.window.execute_async_script(READY)

    def stop(self) -> None:
        self._going.close()

    def start(self) -> None:
        self._going.enter_context(served(self.folder, self._port, self.held))


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    folder, held = tmp_path / "site", dict[str, Event | int]()
    lay(folder, "first")
    with ExitStack() as going:
        address = going.enter_context(served(folder, held=held))
        with chromium(trusted=elsewhere(address)) as window:
            yield Shop(folder, window, going, int(address.rpartition(":")[2]), held)
            for event in held.values():
                if isinstance(event, Event):
                    event.set()


def test_served_once_it_stays(tmp_path: Path) -> None:
    pytest.importorskip("material", reason="mkdocs-material is not installed")
    site = two_pages(Handbook(load()), tmp_path)
    with ExitStack() as going:
        address = elsewhere(going.enter_context(served(site)))
        with chromium(trusted=address) as window:
            person = Person(window, address)
            person.open()
            kept = "const done = arguments[0]; navigator.serviceWorker.ready.then((one) => done(one.active.scriptURL))"
            assert window.execute_async_script(kept) == f"{address}/worker.js"
            going.close()
            person.open("?saw=banding&item=ceramic-tile")
            assert person.press("Right, go on")["answers"]
            person.open()
            assert person.say("mug")["title"] == "What do you see?"
            window.get(f"{address}/")
            assert "Handbook" in window.title or "handbook" in window.title
            pictures = "return fetch('pictures/ghosting.svg').then((found) => found.status)"
            assert window.execute_script(pictures) == 200


def test_what_changed_is_fetched_and_what_is_gone_is_dropped(shop: Shop) -> None:
    (shop.folder / "old.txt").write_text("old")
    keep(shop.folder)
    shop.keep()
    place = f"presslore-handbook {shop.address}/"
    always = ["/assets/offline.js", "/index.html"]
    assert shop.window.execute_async_script(NAMES) == [[place, [*always, "/old.txt", "/part.js"]]]
    (shop.folder / "old.txt").unlink()
    lay(shop.folder, "second")
    shop.window.execute_async_script(RENEWED)
    shop.stop()
    assert shop.visit() == ("second", "second")
    assert shop.window.execute_async_script(NAMES) == [[place, [*always, "/part.js"]]]


def test_what_was_put_right_is_read_at_the_next_visit(shop: Shop) -> None:
    shop.keep()
    lay(shop.folder, "second")
    assert shop.visit() == ("second", "second")


def test_a_server_that_says_nothing_is_not_waited_for_long(shop: Shop) -> None:
    shop.keep()
    shop.held["/"] = shop.held["/part.js"] = Event()
    assert shop.visit() == ("first", "first")


def test_a_server_in_trouble_is_stood_in_for_and_a_page_that_is_gone_is_not(shop: Shop) -> None:
    shop.keep()
    shop.held["/"] = 503
    assert shop.visit() == ("first", "first")
    (shop.folder / "index.html").unlink()
    assert shop.visit("/index.html") == ("Error code: 404", "")


def test_content_that_is_not_what_it_claims_to_be_is_not_kept(shop: Shop) -> None:
    (shop.folder / "part.js").write_text("window.part = 'struck'")  # after the digests were taken
    shop.visit()
    gone = """
    const done = arguments[0];
    navigator.serviceWorker.getRegistration().then((one) => {
      const coming = one && (one.installing || one.waiting || one.active);
      if (!coming) return done('redundant');
      const look = () => ['redundant', 'activated'].includes(coming.state) && done(coming.state);
      coming.addEventListener('statechange', look);
      look();
    });
    """
    assert shop.window.execute_async_script(gone) == "redundant"
    assert not any("/part.js" in names for _, names in shop.window.execute_async_script(NAMES))


def test_kept_content_that_was_tampered_with_is_not_shown(shop: Shop) -> None:
    shop.keep()
    struck = """
    const done = arguments[0];
    caches.keys().then(([place]) => caches.open(place)).then((one) => one.keys().then((keys) => Promise.all(keys
      .filter((key) => key.url.includes('/part.js'))
      .map((key) => one.put(key, new Response("window.part = 'struck'")))))).then((all) => done(all.length));
    """
    assert shop.window.execute_async_script(struck) == 1
    shop.stop()
    assert shop.visit() == ("first", "")


def test_a_newer_page_is_not_shown_with_an_older_part(shop: Shop) -> None:
    shop.keep()
    lay(shop.folder, "second")
    (shop.folder / "worker.js").unlink()  # so that the worker stays the old one
    shop.held["/part.js"] = Event()
    shop.window.set_page_load_timeout(8)
    from selenium.common.exceptions import TimeoutException

    with pytest.raises(TimeoutException):
        shop.visit()
    shop.window.execute_script("window.stop()")
    assert shop.window.execute_script("return [document.querySelector('p').textContent, window.part || '']") == [
        "second",
        "",
    ]


def test_two_handbooks_of_one_server_keep_what_is_theirs(shop: Shop) -> None:
    for name in ("quay", "mill"):
        lay(shop.folder / name, name)
    shutil.rmtree(shop.folder / "assets")
    for name in ("quay", "mill"):
        shop.keep(f"/{name}/")
    (shop.folder / "mill" / "old.txt").write_text("old")
    keep(shop.folder / "mill")
    shop.visit("/mill/")
    shop.window.execute_async_script(RENEWED)
    shop.stop()
    assert shop.visit("/quay/") == ("quay", "quay")
    assert shop.visit("/mill/") == ("mill", "mill")


def test_what_was_kept_under_the_shared_name_goes_and_anothers_stays(shop: Shop) -> None:
    before = """
    const done = arguments[0];
    caches.open('presslore-handbook').then((one) => Promise.all(['/index.html?content=1', '/other.html?content=2']
      .map((name) => one.put(name, new Response('old'))))).then(() => done(1));
    """
    (shop.folder / "plain.html").write_text("<p>plain</p>")
    shop.visit("/plain.html")
    shop.window.execute_async_script(before)
    shop.keep()
    assert ["presslore-handbook", ["/other.html"]] in shop.window.execute_async_script(NAMES)


@pytest.mark.parametrize("name", ["127.0.0.1", "localhost"])
def test_nothing_is_kept_of_what_this_machine_serves_itself(name: str, shop: Shop) -> None:
    local = shop.address.replace("shop.test", name)
    shop.window.get(f"{local}/")
    assert shop.window.execute_async_script(REGISTERED) == 0
    shop.window.execute_async_script("navigator.serviceWorker.register('/worker.js').then(() => arguments[0](1))")
    shop.window.get(f"{local}/")
    for _ in range(20):
        if (left := shop.window.execute_async_script(REGISTERED)) == 0:
            break
    assert left == 0
    assert shop.window.execute_async_script(NAMES) == []
