"""The demo: a dialogue of its own making that ends with a good print."""

from tests.cli.playing import PLAIN, play


def test_the_demo_ends_cured() -> None:
    code, out, err = play(["demo"])
    assert (code, err) == (0, "")
    assert "> The fault is gone: good print" in out
    assert "Cured by: " in out
    assert "Care note: " in out.splitlines()[-2]
    assert "gone: Ghosting" in out


def test_the_demo_puts_cautions_before_steps_and_fits_a_narrow_screen() -> None:
    _, out, _ = play(["demo"], environment={**PLAIN, "COLUMNS": "40"})
    assert max(map(len, out.splitlines())) <= 40
    for card in out.split("Fix · ")[1:]:
        fix = card.split("> ")[0]
        assert "! " in fix[: fix.index("  1. ")]
        assert "! " not in fix[fix.index("  1. ") :]


def test_the_demo_is_the_same_each_time() -> None:
    assert play(["demo"]) == play(["demo"])
