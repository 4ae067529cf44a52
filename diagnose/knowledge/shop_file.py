"""Reads a shop.yaml: strictly, with every problem named at once."""

from dataclasses import fields
from pathlib import Path

from diagnose.knowledge.node import Node, root
from diagnose.knowledge.schema_check import check_structure
from diagnose.knowledge.shop import Rates, Shop
from diagnose.knowledge.yaml_text import read_yaml
from diagnose.problems import Place, PressloreError, Problem


def read_shop(path: Path) -> Shop:
    """The shop that a file describes. Raises PressloreError with every problem in it."""
    try:
        data = path.read_bytes()
    except OSError as error:
        wrong = f"cannot be read ({error.strerror})"
        problem = Problem(place=Place(str(path)), code="unreadable-file", wrong=wrong, expected="a shop.yaml")
        raise PressloreError([problem]) from error
    document, problems = read_yaml(data, str(path))
    if document is not None and not problems:
        document, problems = check_structure(document, "shop")
    if problems or document is None:
        raise PressloreError(problems)
    return _shop(root(document))


def _shop(node: Node) -> Shop:
    units, rates = node.get("units") or Node(node.document, (), {}), node.get("rates")
    usual = Shop()
    return Shop(
        name=node.text("name", usual.name),
        address=node.texts("address"),
        handbook=node.text("handbook", usual.handbook),
        currency=node.text("currency", usual.currency),
        temperature=units.text("temperature", usual.temperature),
        pressure=units.text("pressure", usual.pressure),
        rates=_rates(rates) if rates else usual.rates,
    )


def _rates(node: Node) -> Rates:
    usual = Rates()
    keys = {field.name: field.name.replace("_", "-") for field in fields(Rates)}
    return Rates(**{name: node.number(key, getattr(usual, name)) for name, key in keys.items()})
