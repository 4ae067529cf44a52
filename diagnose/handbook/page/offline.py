"""Keeping a served handbook for when there is no network: a service worker that holds every file of the site.

Each file is kept under its path and the digest of its content. A new build therefore fetches what has changed, and
what is shown always belongs together. Opened from a folder, nothing of this runs and nothing of it is needed.
"""

import json
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path

WORKER = "worker.js"  # at the top of the site: a worker has a say only below its own folder
REGISTRATION = "assets/offline.js"
SKIPPED = (".gz", ".map")  # made for servers and for people who mend scripts; no page asks for them
DIGITS = 32  # of a digest: so long that nobody finds another content for it


def registration() -> dict[str, bytes]:
    """The script that every page loads to have the site kept."""
    return {REGISTRATION: (Path(__file__).parent / "offline" / "register.js").read_bytes()}


def worker(site: Mapping[str, bytes]) -> dict[str, bytes]:
    """The service worker for a built site, from the content of its files by their path."""
    kept = {
        path: sha256(content).hexdigest()[:DIGITS]
        for path, content in sorted(site.items())
        if path != WORKER and not path.endswith(SKIPPED)
    }
    code = (Path(__file__).parent / "offline" / "worker.js").read_text(encoding="utf-8")
    listed = json.dumps(kept, ensure_ascii=False, separators=(",\n", ":"))
    return {WORKER: f"const FILES = {listed};\n{code}".encode()}


def worker_for(folder: Path) -> dict[str, bytes]:
    """The service worker for a site built into a folder."""
    found = (path for path in folder.rglob("*") if path.is_file() and not path.name.startswith("."))
    return worker({path.relative_to(folder).as_posix(): path.read_bytes() for path in found})
