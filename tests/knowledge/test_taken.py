"""What a shop may be called in its bundle: nothing that passes for a word of ours, a digest or another's name."""

import pytest

from diagnose.knowledge.taken import TakenBundle, alike, fitting, wrong_with_name


@pytest.mark.parametrize(
    "name",
    [
        "The quay, digest 4821-0937-5520-1184-7302",
        "4821 0937",
        "this shop",
        "Th\u00eds shop",
        "th1s sh0p",
        "shipped",
        "SETTLED",
        "on trial",
        "t r i a l",
        "di-gest",
        "presslore",
        "\u1d18\u0280\u1d07ss\u029f\u1d0f\u0280\u1d07",
        "The \u2018quay\u2019",
        "Anna's",
        "The \u02baquay\u02ba",
        "The \uff02quay\uff02",
        "The quay (on the left)",
        "\u0422he quay",
        "q\u0308\u0308uay",
        "e\u0301\u0301",
        "Quay\u3164",
        "Qu\u034fay",
        "Quay\u2460",
        "\U0001d413he quay",
        "a" * 61,
        "...",
    ],
)
def test_names_that_pretend(name: str) -> None:
    assert wrong_with_name(name)
    assert not wrong_with_name(fitting(name)) or fitting(name) == ""


@pytest.mark.parametrize(
    "name",
    [
        "The quay",
        "Caf\u00e9 M\u00fcller",
        "Print & Press, Hull",
        "Industrial Prints",
        "Quay 2026",
        "\u041f\u0435\u0447\u0430\u0442\u044c",
        "\u6771\u4eac\u30d7\u30ea\u30f3\u30c8",
    ],
)
def test_names_that_say_whose_it_is(name: str) -> None:
    assert wrong_with_name(name) == ""
    assert fitting(name) == name


def test_a_shops_own_name_is_made_to_fit() -> None:
    assert fitting("Anna's \u201cQuay\u201d (east)") == "Annas Quay east"


def test_names_that_look_alike_are_alike() -> None:
    for other in ("THE QUAY", "The  quay.", "Th\u00e9 quay", "The qu4y", "\u0422h\u0435 qu\u0430y"):
        assert alike("The quay", other), other
    assert not alike("The quay", "The pier")
    assert not alike("", "")


def test_the_digest_stands_before_the_name() -> None:
    origin = TakenBundle(folder="taken-0", name="The quay", digest="0" * 63 + "7").origin
    assert origin == "the bundle 0000-0000-0000-0000-0007 of \u201cThe quay\u201d"
