"""A made-up shop on a quay, whose draughty door pales the towels: its files, and folders made of them."""

from pathlib import Path

KB = """\
causes:
  draughty-door:
    title: The door to the quay stands open
    family: heat
    turns-up: .16
    about: Wind cools the platen.
    basis: this shop's cases
checks:
  look-at-the-door:
    title: Look at the door
    kind: look
    asks: Is the door shut?
    how: [Look.]
    needs: []
    minutes: 1
    outcomes:
      shut: {looks: Shut, said: [shut]}
      open: {looks: Open, said: [open], shows: {draughty-door: .97}, otherwise: almost never}
    basis: common practice
fixes:
  shut-the-door:
    title: Shut the door
    steps: [Shut it.]
    minutes: 1
    cures: {draughty-door: very likely}
    cautions: [swinging-door]
    basis: common practice
cautions:
  swinging-door:
    title: The door swings in a gust
    text: Keep fingers off the frame while the wind blows in.
    basis: common practice
"""
RULES = """\
adds-to: faint-colour
said: [quay pale]
status: settled
date: 2026-11-20
rules:
  - cause: draughty-door
    brings: very likely
    why: The quay wind cools the platen's front edge.
    basis: [common practice, this shop's cases]
    learned-from: ["2026-014"]
cases:
  - story: Towels pale along the quay side for the village fête.
    saw: [faint-colour]
    answers: {look-at-the-door: open}
    first: draughty-door
"""


def lay_out(folder: Path, **files: str) -> Path:
    """The shop's folder with its usual files and those given, a file's path with ``__`` for ``/`` and no ending."""
    usual = {"kb__door": KB, "rules__faint-colour": RULES, "shop": "name: The harbour workshop\n"}
    for name, text in {**usual, **files}.items():
        path = folder / (name.replace("__", "/") + ".yaml")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder
