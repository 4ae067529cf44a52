"""What the page that diagnoses may weigh, in bytes as a server sends them."""

import gzip
from pathlib import Path

from diagnose.handbook.book import Handbook
from diagnose.handbook.page import page

FIRST_LOAD = 150_000  # engine and knowledge
VOCABULARY = 372_000  # what free words are matched by, and the scripts that do; loaded after the first paint
STEPS = 36_000  # how each check and fix is done; loaded after the first paint as well


def weights(book: Handbook) -> tuple[int, int, int]:
    """Engine with knowledge, the vocabulary, and the steps."""
    sent = {Path(path).name: len(gzip.compress(text, 9)) for path, text in page.files(book).items()}
    return sent["engine.js"] + sent["knowledge.js"], sent[page.VOCABULARY], sent[page.DOING]
