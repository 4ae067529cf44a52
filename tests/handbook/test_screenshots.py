"""The pictures in the README: there, light, of the size they are taken at, shown once each with words."""

import re
import struct
from pathlib import Path

import pytest

from diagnose.handbook import building
from tests.checkout import CHECKOUT
from tests.handbook.screenshots import HEAVIEST, SHOTS, Shot

FOLDER = CHECKOUT / building.SCREENSHOTS
README = (CHECKOUT / "README.md").read_text(encoding="utf-8")
SHOWN = re.compile(r'!\[(?P<alt>[^\]]+)\]\((?P<path>[^)]+)\)|<img src="(?P<src>[^"]+)"[^>]* alt="(?P<words>[^"]+)">')


@pytest.mark.parametrize("shot", SHOTS, ids=lambda shot: shot.name)
def test_its_size_and_weight(shot: Shot) -> None:
    picture = (FOLDER / f"{shot.name}.png").read_bytes()
    scale = 2 if shot.printed else 1
    assert struct.unpack(">II", picture[16:24]) == (shot.size[0] * scale, shot.size[1] * scale)
    assert len(picture) <= HEAVIEST


def test_the_readme_shows_each_with_words() -> None:
    shown = {found["path"] or found["src"]: found["alt"] or found["words"] for found in SHOWN.finditer(README)}
    assert {Path(path).stem for path in shown} == {shot.name for shot in SHOTS}
    assert {path.stem for path in FOLDER.iterdir()} == {shot.name for shot in SHOTS}
    assert all(words.endswith(".") and 40 <= len(words) <= 200 for words in shown.values())


def test_they_are_no_part_of_the_site(files: dict[str, bytes]) -> None:
    assert not [path for path in files if path.endswith(".png")]
