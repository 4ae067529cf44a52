"""The page of the handbook that diagnoses, and the files it loads: engine, knowledge, interface and looks."""

import json
from pathlib import Path
from typing import Any

from diagnose.handbook.book import Handbook
from diagnose.handbook.leaf import Leaf
from diagnose.handbook.links import LISTS, Links, address, built, picture_address
from diagnose.handbook.page.compiled import assigned, engine_script, joined, script
from diagnose.handbook.page.doing import doing_script
from diagnose.handbook.page.vocabulary import vocabulary_script
from diagnose.handbook.pictures_in import image, picture_files
from diagnose.handbook.text import markup, sentence_start, shown
from diagnose.knowledge.model import Defect
from diagnose.speech.saying import say

PATH = "diagnose.md"
FOLDER = "assets/diagnose"
LINKED = ("checks", "fixes", "causes")  # the kinds of pages that the dialogue points to
INTERFACE = (  # in the order the page loads them
    "dom",
    "keep",
    "flow",
    "fetching",
    "ears",
    "parts",
    "doing",
    "alarm",
    "asking",
    "opening",
    "picking",
    "ending",
    "figures",
    "steps",
    "remaining",
    "panels",
    "keys",
    "app",
)
SCRIPTS = ("engine.js", "knowledge.js", "more.js", "page.js")
VOCABULARY = "vocabulary.js"  # what only free words need: the page asks for it once it has been painted
DOING = "doing.js"  # how each step is done; asked for then as well


def leaf(book: Handbook) -> Leaf:
    """The page. Without scripts it is a list of the defects, each with a link and a picture."""
    links = Links(PATH)
    defects = sorted(book.knowledge.defects.values(), key=lambda defect: (defect.title.lower(), defect.id))
    pages = {kind: links.path(built(address(kind, "{id}"))) for kind in LINKED}
    pictures = set(picture_files(book))
    loads = f'data-links="{markup(json.dumps(pages))}" data-vocabulary="{FOLDER}/{VOCABULARY}"'
    loads += f' data-doing="{FOLDER}/{DOING}"'
    lines = (
        say("diagnose-lead"),
        "",
        f'<p class="hurt">{links.html(LISTS["dangers"], say("if-somebody-is-hurt"))}</p>',
        "",
        f'<link rel="stylesheet" href="{FOLDER}/page.css">',
        f'<div id="presslore" data-search-exclude {loads}>',
        f"<noscript><p>{say('no-scripts-run')}</p></noscript>",
        '<ul class="still">',
        *(_still(defect, links, picture_address(defect.id) in pictures) for defect in defects),
        "</ul>",
        "</div>",
        *(f'<script defer src="{FOLDER}/{name}"></script>' for name in SCRIPTS),
    )
    return Leaf(path=PATH, title=say("diagnose-a-spoiled-print"), lines=lines, hide=("navigation", "toc"))


def _still(defect: Defect, links: Links, drawn: bool) -> str:
    picture = image(links, defect.id) if drawn else ""
    link = links.html(address("defects", defect.id), defect.title)
    return f'<li data-defect="{markup(defect.id)}">{picture}<p>{link}: {shown(sentence_start(defect.looks))}</p></li>'


def files(book: Handbook) -> dict[str, bytes]:
    """What the page loads, by path within the site."""
    here = Path(__file__).parent
    texts = {
        "engine.js": engine_script(),
        "knowledge.js": script(book.knowledge, book.shop),
        VOCABULARY: f"{vocabulary_script(book.knowledge)}{_of_version(book.knowledge.version)}",
        DOING: doing_script(book.knowledge),
        "more.js": _more(book),
        "page.js": joined([here / "ui" / f"{name}.js" for name in INTERFACE]),
        "page.css": (here / "style.css").read_text(encoding="utf-8"),
    }
    return {f"{FOLDER}/{name}": text.encode() for name, text in texts.items()}


def _of_version(version: str) -> str:
    """What the vocabulary goes with: after an update the page may be older than the vocabulary it gets."""
    return f"presslore.vocabulary.version = {json.dumps(version)};\n"


def _more(book: Handbook) -> str:
    """What the dialogue shows beside the engine's knowledge: the kind of each check by its first letter, in the
    order of the checks, and the care notes."""
    more: dict[str, Any] = {
        "kinds": "".join(check.kind[0] for check in book.knowledge.checks.values()),
        "care": [
            {
                "href": built(address("care", note.id)),
                "title": note.title,
                "tell": note.tell,
                "items": list(note.items),
                "defects": list(note.defects),
            }
            for note in book.knowledge.care.values()
        ],
    }
    return assigned("more", more)
