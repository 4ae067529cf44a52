"""A made-up shop on a quay, whose draughty door pales the towels: its files, and folders made of them."""

from pathlib import Path

HERE = Path(__file__).parents[1] / "shops" / "quay"
KB = (HERE / "kb" / "door.yaml").read_text(encoding="utf-8")
RULES = (HERE / "rules" / "faint-colour.yaml").read_text(encoding="utf-8")
SHOP = (HERE / "shop.yaml").read_text(encoding="utf-8")


def lay_out(folder: Path, **files: str) -> Path:
    """The shop's folder with its usual files and those given, a file's path with ``__`` for ``/`` and no ending."""
    usual = {"kb__door": KB, "rules__faint-colour": RULES, "shop": SHOP}
    for name, text in {**usual, **files}.items():
        path = folder / (name.replace("__", "/") + ".yaml")
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return folder
