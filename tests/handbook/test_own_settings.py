"""A shop's settings for its handbook: a few texts, and nothing that could run."""

from pathlib import Path

import pytest

from diagnose.handbook import building
from diagnose.handbook.own_settings import KEYS, read_own_settings
from diagnose.problems import PressloreError
from tests.handbook.reading import read
from tests.handbook.test_building import SETTINGS

RUNNING = {
    "a tag": 'site_name: !!python/object/apply:os.system ["touch {struck}"]\n',
    "a name": "site_name: !!python/name:os.system\n",
    "a variable": "site_name: !ENV HOME\n",
    "hooks": "site_name: Quay\nhooks: [hook.py]\n",
    "a plugin": "plugins: [macros]\n",
    "an extension": "markdown_extensions: [pymdownx.snippets]\n",
    "templates": "theme: {{name: material, custom_dir: own}}\n",
    "a script": "extra_javascript: [https://outside.invalid/x.js]\n",
    "a style sheet": "extra_css: [x.css]\n",
    "another file": "INHERIT: other.yml\n",
    "other pages": "docs_dir: /\n",
    "another place": "site_dir: /\n",
    "more": "extra: {{a: b}}\n",
}


def laid(folder: Path, text: str) -> Path:
    (folder / "mkdocs.yml").write_text(text, encoding="utf-8")
    (folder / "hook.py").write_text(f"open({str(folder / 'struck')!r}, 'w').close()\n")
    return folder


@pytest.mark.parametrize("text", RUNNING.values(), ids=RUNNING)
def test_nothing_that_runs_is_taken(text: str, tmp_path: Path) -> None:
    shop = laid(tmp_path, text.format(struck=tmp_path / "struck"))
    with pytest.raises(PressloreError) as caught:
        read_own_settings(shop)
    assert all(problem.place.line for problem in caught.value.problems)
    assert not (tmp_path / "struck").exists()


def test_every_wrong_line_is_named_with_what_may_stand_there(tmp_path: Path) -> None:
    shop = laid(tmp_path, "site_name: Quay\nhooks: [hook.py]\n\nplugins: []\nsite_url: javascript:alert(1)\n")
    with pytest.raises(PressloreError) as caught:
        read_own_settings(shop)
    assert [(problem.place.line, problem.code) for problem in caught.value.problems] == [
        (2, "not-for-shops"),
        (4, "not-for-shops"),
        (5, "bad-setting"),
    ]
    assert "a shop may not set hooks for its handbook" in str(caught.value)
    assert "site_name, site_description" in str(caught.value)


def test_what_a_shop_may_say_is_taken(tmp_path: Path) -> None:
    text = "# ours\nsite_name: 'Quay & Sons: press \"handbook\"'\nsite_url: https://quay.example/handbook/?a=1&b=2\n"
    assert read_own_settings(laid(tmp_path, text)) == {
        "site_name": "Quay & Sons: press \u201dhandbook\u201d",
        "site_url": "https://quay.example/handbook/?a=1&b=2",
    }


@pytest.mark.parametrize("text", ["", "# nothing yet\n", "\n\n"])
def test_settings_that_say_nothing_are_none(text: str, tmp_path: Path) -> None:
    assert read_own_settings(laid(tmp_path, text)) == {}
    assert read_own_settings(tmp_path / "elsewhere") == read_own_settings(None) == {}


@pytest.mark.parametrize("text", ["[a]", "just words", "site_name: [a]", "site_name: {a: b}", "site_name: ''", ": :"])
def test_no_settings_at_all_are_named(text: str, tmp_path: Path) -> None:
    with pytest.raises(PressloreError, match=r"mkdocs\.yml"):
        read_own_settings(laid(tmp_path, text))


@pytest.mark.slow
def test_markup_in_them_shows_as_text(tmp_path: Path) -> None:
    nasty = '</title><script>window.struck = 1</script>\\" onload=\\"window.struck = 1 &lt;b&gt; {{ config }}'
    own = read_own_settings(laid(tmp_path, "".join(f'{key}: "{nasty}"\n' for key in KEYS if key != "site_url")))
    (tmp_path / "checkout").mkdir()
    (tmp_path / "checkout" / "mkdocs.yml").write_text(SETTINGS)
    pages = tmp_path / "checkout" / "docs" / "generated"
    building.write(pages, {"index.md": b"# Start\n"})
    building.build(tmp_path / "checkout", tmp_path / "bare")
    building.build(tmp_path / "checkout", tmp_path / "site", own=own)
    bare, page = (read((tmp_path / name / "index.html").read_text(encoding="utf-8")) for name in ("bare", "site"))
    assert page.tags.count("script") == bare.tags.count("script")
    assert not any(name.startswith("on") for name in page.attributes)
    assert "window.struck = 1" in page.seen
