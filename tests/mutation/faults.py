"""The small faults that can be put into a module: each changes one expression or statement."""

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import unified_diff
from pathlib import Path
from types import NoneType

FLIPPED: dict[type[ast.cmpop], type[ast.cmpop]] = {
    ast.Lt: ast.LtE, ast.LtE: ast.Lt, ast.Gt: ast.GtE, ast.GtE: ast.Gt, ast.Eq: ast.NotEq, ast.NotEq: ast.Eq,
    ast.In: ast.NotIn, ast.NotIn: ast.In, ast.Is: ast.IsNot, ast.IsNot: ast.Is,
}  # fmt: skip
SWAPPED: dict[type[ast.operator], type[ast.operator]] = {
    ast.Add: ast.Sub, ast.Sub: ast.Add, ast.Mult: ast.Div, ast.Div: ast.Mult, ast.FloorDiv: ast.Mult,
    ast.Mod: ast.Mult, ast.Pow: ast.Mult, ast.LShift: ast.RShift, ast.BitAnd: ast.BitOr,
}  # fmt: skip
PASSED_OVER = ("annotation", "returns", "decorator_list", "type_params")  # what no test of behaviour can tell


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """``path``: of the module. ``inside``: the function or class it stands in. ``was`` becomes ``now`` from the byte
    ``start`` up to ``end``; ``line`` is where."""

    path: Path
    inside: str
    line: int
    start: int
    end: int
    was: str
    now: str

    def into(self, source: bytes) -> bytes:
        return source[: self.start] + self.now.encode() + source[self.end :]

    def diff(self, source: bytes) -> str:
        """The lines that change, as a diff without its head."""
        before, after = (text.decode().splitlines() for text in (source, self.into(source)))
        return "\n".join(list(unified_diff(before, after, n=0, lineterm=""))[3:])


def faults(path: Path) -> list[Fault]:
    """Every fault that can be put into a module, in the order of the text."""
    source = path.read_bytes()
    starts = [0]
    for line in source.splitlines(keepends=True):
        starts.append(starts[-1] + len(line))
    return [
        Fault(path=path, inside=inside, line=node.lineno, start=start, end=end, was=source[start:end].decode(), now=now)
        for node, inside in _nodes(ast.parse(source), "")
        for now in _changes(node)
        for start in [starts[node.lineno - 1] + node.col_offset]
        for end in [starts[(node.end_lineno or 0) - 1] + (node.end_col_offset or 0)]
    ]


def _nodes(node: ast.AST, inside: str) -> Iterator[tuple[ast.expr | ast.stmt, str]]:
    """What can be changed below a node, each with what it stands in."""
    for name, value in ast.iter_fields(node):
        if name in PASSED_OVER:
            continue
        for below in value if isinstance(value, list) else [value]:
            if not isinstance(below, ast.AST) or isinstance(below, ast.JoinedStr) or _is_typing(below):
                continue  # within an f-string places are not told right
            own = getattr(below, "name", "") if isinstance(below, ast.FunctionDef | ast.ClassDef) else ""
            within = ".".join(filter(None, (inside, own)))
            if isinstance(below, ast.expr | ast.stmt):
                yield below, within
            yield from _nodes(below, within)


def _is_typing(node: ast.AST) -> bool:
    """Whether a statement is there for the checks alone."""
    return isinstance(node, ast.If) and "TYPE_CHECKING" in ast.unparse(node.test)


def _changes(node: ast.expr | ast.stmt) -> Iterator[str]:
    """What can stand in a node's place."""
    match node:
        case ast.Compare(left=left, ops=[one], comparators=[right]) if type(one) in FLIPPED:
            yield _text(ast.Compare(left, [FLIPPED[type(one)]()], [right]))
        case ast.BoolOp(op=op, values=values):
            yield _text(ast.BoolOp(ast.Or() if isinstance(op, ast.And) else ast.And(), values))
        case ast.UnaryOp(op=ast.Not(), operand=operand):
            yield _text(operand)
        case ast.BinOp(left=left, op=op, right=right) if type(op) in SWAPPED and not _is_text(left, right):
            yield _text(ast.BinOp(left, SWAPPED[type(op)](), right))
        case ast.Constant(value=bool(value)):
            yield str(not value)
        case ast.Constant(value=int(value) | float(value)):
            yield _text(ast.Constant(value + 1))
        case ast.IfExp(test=test, body=body, orelse=other):
            yield _text(ast.IfExp(ast.UnaryOp(ast.Not(), test), body, other))
        case ast.Return(value=value) if not isinstance(value, ast.Constant | NoneType) and not _is_good(value):
            yield "return None"
        case ast.AugAssign() | ast.Raise() | ast.Expr(value=ast.Call()):
            yield "pass"
        case ast.Continue():
            yield "break"
        case ast.Break():
            yield "continue"


def _is_good(value: ast.expr) -> bool:
    """Whether a command ends well, for which nothing is taken as well."""
    return isinstance(value, ast.Attribute) and value.attr == "GOOD"


def _is_text(*sides: ast.expr) -> bool:
    """Whether a sum is one of texts, which cannot be taken from each other: any test would notice."""
    return any(isinstance(side, ast.JoinedStr) or isinstance(getattr(side, "value", 0), str) for side in sides)


def _text(node: ast.expr) -> str:
    return f"({ast.unparse(ast.fix_missing_locations(node))})"
