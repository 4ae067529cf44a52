"""What a device keeps of a served handbook: the server's word goes first, and what is shown without it is true."""

import shutil
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import ExitStack, closing
from pathlib import Path
from threading import Event
from time import monotonic, sleep
from typing import Any

import pytest

from diagnose.handbook.page import offline
from tests.handbook.chromium import ELSEWHERE, as_new, elsewhere, keep, served
from tests.handbook.dialogue import Person

pytestmark = pytest.mark.slow

FRONT = "<!doctype html><script src='assets/offline.js'></script><p>{}</p><script src='part.js'></script>"
SHOWN = "return [document.querySelector('p')?.textContent || '', window.part || '']"
SHIPPED = 2000  # milliseconds that the worker waits for a server
LONG = 60_000  # milliseconds: a busy machine is no reason to do without the server's word
NAMES = """
const done = arguments[0];
caches.keys().then((places) => Promise.all(places.sort().map((place) => caches.open(place).then((one) => one.keys())
  .then((keys) => [place, keys.map((key) => new URL(key.url).pathname).sort()])))).then(done);
"""
# Which worker is at work for a site; none while another is on its way. A page that was loading may be without it.
KEPT = """
const done = arguments[0];
navigator.serviceWorker.getRegistration().then((one) => {
  const settled = one && one.active && one.active.state === 'activated' && !one.installing && !one.waiting;
  done(settled ? one.active.scriptURL : '');
});
"""
ASK_ANEW = """
const done = arguments[0];
navigator.serviceWorker.getRegistration().then((one) => one.update()).then(() => done(''), (error) => done(`${error}`));
"""
REGISTERED = "navigator.serviceWorker.getRegistrations().then((found) => arguments[0](found.length))"


def until(look: Callable[[], object], wanted: object = True) -> None:
    """Look again and again, until what is wanted is there."""
    last = monotonic() + 120
    while (found := look()) != wanted:
        assert monotonic() < last, found
        sleep(0.05)


def lay(site: Path, word: str, patience: int = LONG) -> None:
    """A built site of one page that shows a word and loads a part that says it too."""
    (site / "assets").mkdir(parents=True, exist_ok=True)
    (site / "index.html").write_text(FRONT.format(word))
    (site / "part.js").write_text(f"window.part = {word!r}")
    for path, content in offline.registration().items():
        (site / path).write_bytes(content)
    keep(site, patience)


class Shop:
    """A shop's web server that can be stopped, and a visitor's browser."""

    def __init__(self, folder: Path, window: Any) -> None:
        self.folder, self.window = folder, window
        self.held, self.asked = dict[str, Event | int](), Counter[str]()
        self._server = ExitStack()
        self.address = elsewhere(self._server.enter_context(served(folder, held=self.held, asked=self.asked)))

    @property
    def place(self) -> str:
        """Where the browser keeps this site."""
        return f"presslore-handbook {self.address}/"

    def visit(self, path: str = "/") -> tuple[str, ...]:
        """What the page shows, and what its part says."""
        self.window.get(f"{self.address}{path}")
        return tuple(self.window.execute_script(SHOWN))

    def keep(self, path: str = "/") -> None:
        """A first visit, until all is kept."""
        self.visit(path)
        self._until_kept(path)

    def renew(self, path: str = "/") -> None:
        """Have the browser look for a newer build, until that one is kept."""
        assert self.found_by(ASK_ANEW) == ""
        self._until_kept(path)

    def _until_kept(self, path: str) -> None:
        until(lambda: self.found_by(KEPT), f"{self.address}{path}worker.js")

    def kept(self) -> dict[str, list[str]]:
        """The paths that are kept, by the place where."""
        return dict(self.found_by(NAMES))

    def found_by(self, script: str) -> Any:
        return self.window.execute_async_script(script)

    def stop(self) -> None:
        self._server.close()

    def close(self) -> None:
        for event in self.held.values():
            if isinstance(event, Event):
                event.set()
        self._server.close()
        as_new(self.window, self.address)


@pytest.fixture
def shop(tmp_path: Path, browser: Any) -> Iterator[Shop]:
    lay(tmp_path / "site", "first")
    with closing(Shop(tmp_path / "site", browser)) as found:
        yield found


def test_served_once_it_stays(two: Path, browser: Any) -> None:
    with ExitStack() as going:
        address = elsewhere(going.enter_context(served(two)))
        person = Person(browser, address)
        person.open()
        until(lambda: browser.execute_async_script(KEPT), f"{address}/worker.js")
        going.close()
        person.open("?saw=banding&item=ceramic-tile")
        assert person.press("Right, go on")["answers"]
        person.open()
        assert person.say("mug")["title"] == "What do you see?"
        browser.get(f"{address}/")
        assert "Handbook" in browser.title or "handbook" in browser.title
        pictures = "return fetch('pictures/ghosting.svg').then((found) => found.status)"
        assert browser.execute_script(pictures) == 200
    as_new(browser, address)


def test_what_changed_is_fetched_and_what_is_gone_is_dropped(shop: Shop) -> None:
    (shop.folder / "old.txt").write_text("old")
    keep(shop.folder, LONG)
    shop.keep()
    always = ["/assets/offline.js", "/index.html"]
    assert shop.kept() == {shop.place: [*always, "/old.txt", "/part.js"]}
    (shop.folder / "old.txt").unlink()
    lay(shop.folder, "second")
    shop.renew()
    shop.stop()
    assert shop.visit() == ("second", "second")
    assert shop.kept() == {shop.place: [*always, "/part.js"]}


def test_what_was_put_right_is_read_at_the_next_visit(shop: Shop) -> None:
    shop.keep()
    lay(shop.folder, "second")
    assert shop.visit() == ("second", "second")


def test_a_server_that_says_nothing_is_not_waited_for_long(shop: Shop) -> None:
    lay(shop.folder, "first", SHIPPED)
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
    until(lambda: shop.asked["/part.js"] >= 2)  # by the page and by its worker
    until(lambda: shop.found_by(REGISTERED), 0)
    assert not any("/part.js" in names for names in shop.kept().values())


def test_kept_content_that_was_tampered_with_is_not_shown(shop: Shop) -> None:
    shop.keep()
    struck = """
    const done = arguments[0];
    caches.keys().then(([place]) => caches.open(place)).then((one) => one.keys().then((keys) => Promise.all(keys
      .filter((key) => key.url.includes('/part.js'))
      .map((key) => one.put(key, new Response("window.part = 'struck'")))))).then((all) => done(all.length));
    """
    assert shop.found_by(struck) == 1
    shop.stop()
    assert shop.visit() == ("first", "")


def test_a_newer_page_is_not_shown_with_an_older_part(shop: Shop) -> None:
    from selenium.common.exceptions import TimeoutException

    lay(shop.folder, "first", SHIPPED)
    shop.keep()
    lay(shop.folder, "second", SHIPPED)
    (shop.folder / "worker.js").unlink()  # so that the worker stays the old one
    shop.held["/part.js"] = Event()
    shop.window.set_page_load_timeout(4 * SHIPPED / 1000)

    def pieced_together() -> str:
        """What is there of a page whose part does not come; an old page where a busy server was not waited for."""
        try:
            shop.visit()
        except TimeoutException:
            shop.window.execute_script("window.stop()")
        return str(shop.window.execute_script(SHOWN)[0])

    until(pieced_together, "second")
    assert shop.window.execute_script(SHOWN) == ["second", ""]


def test_two_handbooks_of_one_server_keep_what_is_theirs(shop: Shop) -> None:
    for name in ("quay", "mill"):
        lay(shop.folder / name, name)
    shutil.rmtree(shop.folder / "assets")
    for name in ("quay", "mill"):
        shop.keep(f"/{name}/")
    (shop.folder / "mill" / "old.txt").write_text("old")
    keep(shop.folder / "mill", LONG)
    shop.visit("/mill/")
    shop.renew("/mill/")
    assert "/mill/old.txt" in shop.kept()[f"{shop.place}mill/"]
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
    shop.found_by(before)
    shop.keep()
    assert shop.kept()["presslore-handbook"] == ["/other.html"]


@pytest.mark.parametrize("name", ["127.0.0.1", "localhost"])
def test_nothing_is_kept_of_what_this_machine_serves_itself(name: str, shop: Shop) -> None:
    local = shop.address.replace(ELSEWHERE, name)
    shop.window.get(f"{local}/")
    sleep(0.5)
    assert shop.found_by(REGISTERED) == 0
    shop.found_by("navigator.serviceWorker.register('/worker.js').then(() => arguments[0](1))")
    shop.window.get(f"{local}/")
    until(lambda: shop.found_by(REGISTERED), 0)
    assert shop.kept() == {}
