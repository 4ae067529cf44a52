"""Files -> a bundle. The same files give the same bytes, wherever and whenever it is made."""

import io
import zipfile
from collections.abc import Mapping

from diagnose.casebook.sharing import manifest
from diagnose.casebook.sharing.bundle import MANIFEST, NOBODY, Sender

_LONG_AGO = (1980, 1, 1, 0, 0, 0)  # the first moment that a zip file has a number for
_PLAIN_FILE = 0o100644 << 16


def pack(files: Mapping[str, str], day: str, sender: Sender = NOBODY) -> bytes:
    """The bundle of some texts by name. They are stored as they are: how well a text is compressed hangs on the
    library, and they are short."""
    data = {name: files[name].encode() for name in sorted(files)}
    whole = io.BytesIO()
    with zipfile.ZipFile(whole, "w", zipfile.ZIP_STORED) as archive:
        for name, content in {MANIFEST: manifest.write(data, day, sender), **data}.items():
            entry = zipfile.ZipInfo(name, _LONG_AGO)
            entry.create_system, entry.external_attr = 3, _PLAIN_FILE
            archive.writestr(entry, content)
    return whole.getvalue()
