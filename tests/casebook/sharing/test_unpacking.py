"""Nothing but a whole, harmless bundle is read; all else is refused with what is wrong with it."""

import io
import random
import stat
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from diagnose.casebook.sharing import bundle
from diagnose.casebook.sharing.bundle import MANIFEST, Bundle
from diagnose.casebook.sharing.sharing import pack
from diagnose.casebook.sharing.unpacking import read_bundle, unpack
from diagnose.problems import PressloreError
from tests.casebook.sharing.zips import GOOD, KB, RULES, bundled, manifest, odd, zipped

ZEROES = b"a: b\n" * 80_000


def refused(data: bytes) -> str:
    with pytest.raises(PressloreError) as caught:
        unpack(data, "quay.zip")
    assert str(caught.value).startswith("quay.zip: ")
    assert "\n" not in str(caught.value)
    return str(caught.value)


def test_a_good_bundle_is_read_as_it_was_packed() -> None:
    texts = {name: data.decode() for name, data in GOOD.items()}
    found = unpack(pack(texts, "2026-11-20"), "quay.zip")
    assert (dict(found.files), found.date) == (texts, "2026-11-20")
    assert unpack(bundled(GOOD, zipfile.ZIP_DEFLATED), "x").files == found.files


@given(st.dictionaries(st.from_regex(bundle.NAME, fullmatch=True), st.text(max_size=50), min_size=1, max_size=5))
def test_packing_and_unpacking_changes_nothing(texts: dict[str, str]) -> None:
    texts = {name: text for name, text in texts.items() if len(name) < 200}
    texts |= {KB: "causes: {}\n"}
    try:
        data = pack(texts, "2026-11-20")
    except UnicodeEncodeError:
        return
    if all(text[:2] not in ("PK", "7z") and text[:3] != "BZh" and text[:4] != "Rar!" for text in texts.values()):
        assert unpack(data, "x").files == texts
    assert pack(dict(reversed(texts.items())), "2026-11-20") == data


@pytest.mark.parametrize(
    ("name", "wrong"),
    [
        ("/etc/kb/a.yaml", "is an absolute path"),
        ("../kb/a.yaml", "leads out of the folder"),
        ("kb/../../a.yaml", "leads out of the folder"),
        ("kb\\a.yaml", "has a backslash"),
        ("C:/kb/a.yaml", "begins with a drive letter"),
        ("c:a.yaml", "begins with a drive letter"),
        ("kb/a.txt", "has a wrong ending"),
        ("kb/a.yml", "has a wrong ending"),
        ("kb/a.zip", "is an archive within the bundle"),
        ("rules/more.tar", "is an archive within the bundle"),
        ("kb/", "is a folder"),
        ("shop.yaml", "is no name of a bundle"),
        ("kb/deep/a.yaml", "is no name of a bundle"),
        ("kb/Ä.yaml", "is no name of a bundle"),
        ("kb/.hidden.yaml", "is no name of a bundle"),
        ("kb/a\x1b[2J.yaml", "is no name of a bundle"),
    ],
)
def test_names_that_are_refused(name: str, wrong: str) -> None:
    said = refused(bundled({**GOOD, name: b"a"}))
    assert wrong in said
    assert "\x1b" not in said


def test_a_name_with_a_zero_byte() -> None:
    data = bundled({**GOOD, "kb/axyaml": b"a"}).replace(b"kb/axyaml", b"kb/a\0yaml")
    assert "goes by two names" in refused(data)


@pytest.mark.parametrize(
    ("mode", "wrong"),
    [
        (stat.S_IFLNK | 0o777, "is a link"),
        (stat.S_IFCHR | 0o666, "is a device"),
        (stat.S_IFBLK | 0o666, "is a device"),
        (stat.S_IFIFO | 0o666, "is a device"),
        (stat.S_IFSOCK | 0o666, "is a device"),
        (stat.S_IFDIR | 0o755, "is a folder"),
    ],
)
def test_what_is_no_plain_file(mode: int, wrong: str) -> None:
    entries = [(MANIFEST, manifest(GOOD)), (KB, GOOD[KB])]
    assert wrong in refused(zipped([*entries, (odd(RULES, mode), GOOD[RULES])]))


def test_a_file_marked_as_a_device_in_the_other_manner() -> None:
    entry = zipfile.ZipInfo(RULES)
    entry.create_system, entry.external_attr = 0, 0x400  # a reparse point
    assert "is a device" in refused(zipped([(MANIFEST, manifest(GOOD)), (KB, GOOD[KB]), (entry, GOOD[RULES])]))


def test_names_that_stand_twice() -> None:
    assert "stands in it twice" in refused(zipped([(MANIFEST, manifest(GOOD)), *GOOD.items(), (KB, b"other")]))


def test_names_that_differ_by_capitals() -> None:
    assert "small and capital letters" in refused(bundled({**GOOD, "kb/Entries.yaml": b"a"}))


def test_too_many_files() -> None:
    many = {f"kb/a{number}.yaml": b"a" for number in range(bundle.MOST_FILES)}
    assert f"holds {bundle.MOST_FILES + 1} files" in refused(bundled(many))


def test_a_file_that_is_too_large() -> None:
    assert "bytes long: expected at most" in refused(bundled({**GOOD, KB: bytes(bundle.MOST_FILE_BYTES + 1)}))


def test_a_bundle_that_is_too_large() -> None:
    assert "it is larger than" in refused(b"PK\x03\x04" + bytes(bundle.MOST_BYTES))


def test_files_that_are_too_large_together() -> None:
    text = bytes(random.Random(1).choices(b"abcd", k=480_000))  # a quarter as long when compressed
    spread = {f"kb/a{number}.yaml": text for number in range(5)}
    assert "it unpacks to" in refused(bundled(spread, zipfile.ZIP_DEFLATED))


def test_a_bomb() -> None:
    assert "swells to more than 50 times" in refused(bundled({**GOOD, KB: ZEROES}, zipfile.ZIP_DEFLATED))


@pytest.mark.parametrize("claimed", [11, len(ZEROES) // 40])
def test_a_bomb_that_lies_about_its_size(claimed: int) -> None:
    data = bytearray(bundled({**GOOD, KB: ZEROES}, zipfile.ZIP_DEFLATED))
    true = len(ZEROES).to_bytes(4, "little")
    assert data.count(true) >= 2
    lying = bytes(data).replace(true, claimed.to_bytes(4, "little"))
    assert "cut off or damaged" in refused(lying) or "claims" in refused(lying)


@pytest.mark.parametrize("how", [zipfile.ZIP_BZIP2, zipfile.ZIP_LZMA])
def test_unusual_compression(how: int) -> None:
    assert "in an unusual way" in refused(bundled(GOOD, how))


def test_a_password() -> None:
    data = bytearray(bundled(GOOD))
    at = data.index(b"PK\x01\x02")
    data[at + 8] |= 1
    assert "locked with a password" in refused(bytes(data))


@pytest.mark.parametrize(
    "beginning", [b"PK\x03\x04", b"\x1f\x8b\x08", b"BZh9", b"\xfd7zXZ\x00", b"7z\xbc\xaf", b"Rar!"]
)
def test_an_archive_under_another_name(beginning: bytes) -> None:
    assert "archive within the bundle" in refused(bundled({**GOOD, KB: beginning + b"..."}))


def test_what_is_no_utf_8() -> None:
    assert "is no UTF-8 text" in refused(bundled({**GOOD, KB: b"causes: \xff\n"}))


def test_every_cut_is_noticed() -> None:
    data = bundled(GOOD, zipfile.ZIP_DEFLATED)
    for length in range(len(data)):
        refused(data[:length])


def test_without_a_manifest() -> None:
    assert "it has no manifest.json" in refused(zipped(GOOD.items()))


@pytest.mark.parametrize(
    ("text", "wrong"),
    [
        (b"{", "is damaged"),
        (b"[]", "is damaged"),
        (b"\xff", "is damaged"),
        (b"[" * 100_000, "is damaged"),
        (b'{"format": "presslore-rules", "format": "presslore-rules"}', "is damaged"),
        (manifest(GOOD, date="soon"), "is damaged"),
        (manifest(GOOD, version="1"), "is damaged"),
        (manifest(GOOD, version=True), "is damaged"),
        (manifest(GOOD, files=[KB]), "is damaged"),
        (manifest(GOOD, format="other"), "is not one of rules that presslore shared"),
        (manifest(GOOD, version=2), "shared by a newer presslore: update this one"),
        (manifest({KB: GOOD[KB]}), "manifest.json does not name 'rules/faint-colour.yaml'"),
        (manifest({**GOOD, "kb/b.yaml": b""}), "'kb/b.yaml' is missing, which manifest.json names"),
        (manifest({**GOOD, KB: b"other"}), "is not what manifest.json vouches for"),
    ],
)
def test_a_manifest_that_does_not_fit(text: bytes, wrong: str) -> None:
    assert wrong in refused(zipped([(MANIFEST, text), *GOOD.items()]))


def test_nothing_in_it() -> None:
    assert "there is nothing in it" in refused(bundled({}))


@pytest.mark.parametrize("data", [b"", b"PK", b"no zip at all", b"#!/bin/sh\n" + bundled(GOOD)])
def test_what_is_no_zip(data: bytes) -> None:
    assert "it is no zip file" in refused(data)


def test_files_that_cannot_be_read(tmp_path: Path) -> None:
    for path in (tmp_path, tmp_path / "none.zip", Path("/dev/zero"), Path("a\0b")):
        with pytest.raises(PressloreError):
            read_bundle(path)


def taken_or_refused(data: bytes) -> None:
    try:
        assert isinstance(unpack(data, "x"), Bundle)
    except PressloreError as error:
        assert str(error)  # noqa: PT017 - either end is a good one


@given(st.binary(max_size=600))
def test_any_bytes_end_well(data: bytes) -> None:
    taken_or_refused(data)
    taken_or_refused(b"PK\x03\x04" + data)


@settings(max_examples=400)
@given(
    st.sampled_from([zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED]),
    st.lists(st.tuples(st.floats(0, 1, exclude_max=True), st.binary(min_size=1, max_size=4)), min_size=1, max_size=6),
)
def test_any_damage_ends_well(how: int, damage: list[tuple[float, bytes]]) -> None:
    data = bytearray(bundled(GOOD, how))
    for where, new in damage:
        at = int(where * len(data))
        data[at : at + len(new)] = new
    taken_or_refused(bytes(data))


names = st.one_of(st.sampled_from([MANIFEST, KB, RULES, "../a.yaml", "kb/A.yaml"]), st.text(max_size=20))


@settings(max_examples=200)
@given(st.lists(st.tuples(names, st.integers(0, 2**32 - 1), st.binary(max_size=30)), max_size=6))
def test_any_entries_end_well(entries: list[tuple[str, int, bytes]]) -> None:
    made: list[tuple[str | zipfile.ZipInfo, bytes]] = []
    for name, attributes, data in entries:
        if name.isprintable():
            entry = zipfile.ZipInfo(name)
            entry.external_attr = attributes
            made.append((entry, data))
    try:
        data = zipped(made)
    except UnicodeEncodeError:
        return
    taken_or_refused(data)


def test_what_is_read_is_bounded_whatever_the_bundle_says(monkeypatch: pytest.MonkeyPatch) -> None:
    read: list[int | None] = []
    real = zipfile.ZipExtFile.read

    def counting(self: zipfile.ZipExtFile, n: int | None = -1) -> bytes:
        read.append(n)
        return real(self, n)

    monkeypatch.setattr(zipfile.ZipExtFile, "read", counting)
    monkeypatch.setattr(zipfile.ZipFile, "extract", None)
    monkeypatch.setattr(zipfile.ZipFile, "extractall", None)
    unpack(bundled(GOOD), "x")
    assert read == [bundle.MOST_FILE_BYTES + 1] * 3
    assert zipfile.is_zipfile(io.BytesIO(bundled(GOOD)))


@pytest.mark.parametrize(
    "name", ["kb/con.yaml", "rules/aux.yaml", "kb/nul.yaml", "kb/com1.yaml", "rules/lpt9.yaml", "rules/nul.x.yaml"]
)
def test_names_that_systems_keep_for_themselves_are_refused(name: str) -> None:
    assert repr(name) in refused(bundled({**GOOD, name: b"causes: {}\n"}))
