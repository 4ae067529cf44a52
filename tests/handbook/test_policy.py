"""Every kind of page works under the policy that the handbook is served with: nothing is refused, nothing missing."""

import threading
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from diagnose.cli.handbook import server
from diagnose.handbook.serving import HERE
from tests.handbook.dialogue import Person
from tests.handbook.reading import pages
from tests.handbook.test_axe import KINDS
from tests.handbook.test_offline import complaints
from tests.handbook.test_search import Search

pytestmark = pytest.mark.slow

THEME = "return [document.documentElement.classList.contains('js'), typeof __md_get, Boolean(window.struck)]"
STRIKE = """
const done = arguments[0], refused = [];
document.addEventListener('securitypolicyviolation', (event) => refused.push(event.effectiveDirective));
const add = (tag, settings) => document.body.append(Object.assign(document.createElement(tag), settings));
add('script', { textContent: 'window.struck = 1' });
add('script', { src: 'https://outside.invalid/x.js' });
add('img', { src: 'https://outside.invalid/x.png' });
add('iframe', { src: 'https://outside.invalid/' });
add('div', { innerHTML: '<b onclick="window.struck = 1">x</b>' });
document.querySelector('b[onclick]').click();
fetch('https://outside.invalid/').catch(() => {});
setTimeout(() => done([Boolean(window.struck), [...new Set(refused)].sort()]), 300);
"""


@pytest.fixture(scope="module")
def address(whole: Path) -> Iterator[str]:
    with server(whole, 0) as going:
        going.trust(whole)
        assert len(going.allowed) == 5
        thread = threading.Thread(target=going.serve_forever, args=(0.05,), daemon=True)
        thread.start()
        yield f"http://{HERE}:{going.server_port}"
        going.shutdown()
        thread.join()


@pytest.mark.parametrize("kind", [*KINDS, "404", "fixes"])
def test_nothing_is_refused_on_any_kind_of_page(kind: str, browser: Any, address: str, whole: Path) -> None:
    complaints(browser)
    browser.get(f"{address}/{kind}{'.html' if kind != 'fixes' else '/'}")
    assert browser.execute_script(THEME) == [True, "function", False]
    browser.execute_script("document.querySelectorAll('details').forEach((one) => { one.open = true; })")
    assert complaints(browser) == []
    assert f"{kind}.html" in pages(whole) or kind == "fixes"


def test_the_search_works(browser: Any, address: str) -> None:
    complaints(browser)
    assert Search(browser, address)("ghosting")[:1] == ["defects/ghosting"]
    assert complaints(browser) == []


def test_the_dialogue_works(browser: Any, address: str) -> None:
    complaints(browser)
    person = Person(browser, address)
    person.open("?item=tea-towel-65-35")
    assert person.say("pale, and the text is doubled")["heard"]
    view = person.press("Right, go on")
    for label in ("Why and how", "What I believe"):
        person.press(label)
    while "No change" not in view["answers"]:
        view = person.press("I cannot tell")
    assert person.press("The fault is gone: good print")["summary"]
    person.press("Copy the summary")
    assert complaints(browser) == []


def test_what_came_in_with_somebodys_words_is_refused(browser: Any, address: str) -> None:
    browser.get(f"{address}/index.html")
    complaints(browser)
    struck, refused = browser.execute_async_script(STRIKE)
    assert not struck
    assert refused == ["connect-src", "frame-src", "img-src", "script-src-attr", "script-src-elem"]
    complaints(browser)
