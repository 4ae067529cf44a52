"""What leaves a shop: its settled rules and what they lean on, and nothing else."""

import re
from pathlib import Path

import pytest

from diagnose.casebook.sharing.bundle import KB_FILE
from diagnose.casebook.sharing.contents import contents
from diagnose.casebook.sharing.sharing import SharedBundle, share
from diagnose.casebook.sharing.unpacking import unpack
from diagnose.problems import PressloreError
from tests.casebook.quay import KB, RULES, lay_out

SMALLEST = Path(__file__).parents[2] / "knowledge" / "valid" / "smallest"
HARBOUR = ("The harbour workshop",)
RULES_FILE = "rules/faint-colour.yaml"


def texts(shared: SharedBundle) -> dict[str, str]:
    return dict(unpack(shared.data, "x").files)


def shared(folder: Path, **files: str) -> SharedBundle:
    return share(lay_out(folder, **files), SMALLEST, HARBOUR)


def test_rules_go_and_cases_rates_and_numbers_stay(tmp_path: Path) -> None:
    found = shared(tmp_path, shop="name: The harbour workshop\nrates: {minute: 0.6}\n")
    assert list(texts(found)) == [KB_FILE, RULES_FILE]
    whole = "\n".join(texts(found).values())
    for kept in ("learned-from", "2026-014", "cases:", "fête", "workshop", "0.6", "this shop's cases"):
        assert kept not in whole
    assert "basis: [common practice, another shop's cases]" in whole
    for needed in ("draughty-door:", "look-at-the-door:", "shut-the-door:", "swinging-door:"):
        assert f"\n  {needed}" in texts(found)[KB_FILE]
    assert (found.picked.rules, found.picked.date) == (1, "2026-11-20")


def test_the_same_folder_gives_the_same_bytes(tmp_path: Path) -> None:
    one, other = shared(tmp_path / "a"), shared(tmp_path / "b" / "deep")
    assert one.data == other.data
    split = {"kb__door": KB[: KB.index("fixes:")], "kb__a-fix": KB[KB.index("fixes:") :]}
    assert shared(tmp_path / "c", **split).data == one.data


def test_what_a_file_says_in_short_goes_in_full(tmp_path: Path) -> None:
    rule = "  - cause: draughty-door\n    brings: very likely\n"
    basis = "    basis: [common practice, this shop's cases]\n"
    assert rule in RULES
    assert basis in RULES
    short = RULES.replace(rule, "  - by: {draughty-door: very likely}\n").replace(basis, "")
    short = short.replace("rules:\n", f"usual-basis{basis.strip().removeprefix('basis')}\nrules:\n")
    found = shared(tmp_path / "short", **{"rules__faint-colour": short})
    assert found.data == shared(tmp_path / "long").data


def test_what_words_entail_stays_at_home(tmp_path: Path) -> None:
    also = KB.replace("said: [open],", "said: [open], also: {saw: [faint-colour]},")
    assert also != KB
    assert shared(tmp_path / "more", kb__door=also).data == shared(tmp_path / "less").data


def test_rules_on_trial_stay_with_all_that_is_theirs_alone(tmp_path: Path) -> None:
    trial = "  - cause: gull\n    brings: likely\n    why: It lands.\n    basis: common practice\n    status: trial\n"
    gull = (
        "causes:\n  gull:\n    title: A gull\n    family: heat\n    turns-up: rarely\n    about: It lands.\n"
        "    basis: common practice\nfixes:\n  shoo:\n    title: Shoo\n    steps: [Shoo.]\n    minutes: 1\n"
        "    cures: {gull: likely, draughty-door: rarely}\n    basis: common practice\n"
        "  shout:\n    title: Shout\n    steps: [Shout.]\n    minutes: 1\n    cures: {gull: likely}\n"
        "    basis: common practice\n"
    )
    found = shared(tmp_path, **{"rules__faint-colour": RULES.replace("cases:\n", trial + "cases:\n"), "kb__gull": gull})
    whole = "\n".join(texts(found).values())
    assert found.picked.left == {"on trial": 1}
    assert "gull" not in whole
    assert "shout" not in whole
    assert "cures: {draughty-door: rarely}" in whole


def test_nothing_settled_is_nothing_to_share(tmp_path: Path) -> None:
    with pytest.raises(PressloreError, match=r"no rule of its own is settled.*\(1 stay out\)"):
        shared(tmp_path, **{"rules__faint-colour": RULES.replace("settled", "trial")})


def test_an_own_version_of_a_known_fix_becomes_what_it_adds(tmp_path: Path) -> None:
    shipped = (SMALLEST / "kb" / "all.yaml").read_text(encoding="utf-8")
    fix = re.search(r"  press-longer:\n(?:    .*\n)+", shipped)
    assert fix
    version = "fixes:\n" + fix[0].replace("{dwell-short: likely}", "{dwell-short: rarely, draughty-door: rarely}")
    added = "adds-to:\n  checks:\n    probe-the-platen:\n      reads-low: {draughty-door: rarely}\n"
    found = shared(tmp_path, kb__versions=version + added)
    assert found.picked.versions == 1
    assert (
        "adds-to:\n  fixes:\n    press-longer: {draughty-door: rarely}\n  checks:\n    probe-the-platen:\n"
        "      reads-low: {draughty-door: rarely}\n" in texts(found)[KB_FILE]
    )
    assert "dwell-short" not in texts(found)[KB_FILE]


def test_facts_and_sources_of_its_own_go_along(tmp_path: Path) -> None:
    more = (
        "facts:\n  item.salty: {title: Salty, ask: Is it salty?, yes-no: true}\n"
        "  item.wet: {title: Wet, ask: Is it wet?, yes-no: true}\n"
        "sources:\n  tides:\n    title: Tides\n    authors: A. Mariner\n    year: 1990\n    kind: book\n"
        "    says: The wind turns.\n    read: whole\n"
    )
    rules = RULES.replace("[common practice, this shop's cases]", "tides\n    if: {item.salty: true}")
    found = shared(tmp_path, **{"rules__faint-colour": rules}, kb__more=more)
    assert "item.salty:" in texts(found)[KB_FILE]
    assert "item.wet" not in texts(found)[KB_FILE]
    assert "\n  tides:\n" in texts(found)[KB_FILE]


def test_what_hangs_on_a_press_of_the_shops_own_stays(tmp_path: Path) -> None:
    fact = "facts:\n  press.name: {title: Press, ask: Which press?, one-of: [left, right]}\n"
    rules = RULES.replace("    why:", "    if: {press.name: left}\n    why:")
    with pytest.raises(PressloreError, match=r"\(1 stay out\)"):
        shared(tmp_path, **{"rules__faint-colour": rules}, kb__fact=fact)


def test_a_defect_of_its_own(tmp_path: Path) -> None:
    head = (
        "defect: salt-marks\ntitle: Salt marks\nlooks: White rings.\notherwise: almost never\n"
        "said: [salt, rings, white rings, sea salt, crusts, tide marks]\n"
        "look-alikes:\n  - {defect: faint-colour, tell: It is pale all over.}\n"
    )
    rules = RULES[RULES.index("status:") : RULES.index("cases:")]
    found = shared(tmp_path, **{"rules__salt-marks": head + rules})
    assert list(texts(found)) == [KB_FILE, RULES_FILE, "rules/salt-marks.yaml"]
    assert texts(found)["rules/salt-marks.yaml"].split("\n", 1)[1].startswith("defect: salt-marks\n")
    assert "look-alikes:" in texts(found)["rules/salt-marks.yaml"]
    trial = (
        (head + rules).replace("status: settled", "status: trial").replace("    why:", "    status: settled\n    why:")
    )
    held = shared(tmp_path, **{"rules__salt-marks": trial})
    assert list(texts(held)) == [KB_FILE, RULES_FILE]
    assert held.picked.left == {"about a defect on trial": 1}


def test_a_name_is_not_let_out(tmp_path: Path) -> None:
    with pytest.raises(PressloreError, match=r'"The harbour workshop" would stand in kb/entries\.yaml'):
        shared(
            tmp_path, kb__door=KB.replace("Wind cools the platen.", "At the  HARBOUR\n      workshop wind cools it.")
        )


def test_a_folder_with_faults_is_not_shared(tmp_path: Path) -> None:
    with pytest.raises(PressloreError, match=r"rules/faint-colour\.yaml:\d+:\d+: .*draughty-dor"):
        shared(tmp_path, **{"rules__faint-colour": RULES.replace("draughty-door", "draughty-dor", 1)})


def test_what_is_shared_is_what_may_be_taken(tmp_path: Path) -> None:
    bundle = unpack(shared(tmp_path).data, "x")
    told = contents(bundle, "x")
    assert [(file, defect, rule["cause"]) for file, defect, rule in told.rule_entries()] == [
        (RULES_FILE, "faint-colour", "draughty-door")
    ]
