"""Every number written in the source: whose it is, whether it is a figure or only structure, and how to change it.

A figure is a number that a formula or a table stands on. Structure is what a program needs to count and to look things
up: an index, a nought, the number of a row, the year of a book. Structure is counted by kind, so that nothing hides.
"""

import ast
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from itertools import pairwise

STRUCTURE = {
    "zero": "0, which one per cent does not change",
    "index": "place in a list, in a slice or among the groups of a pattern",
    "count": "how often something is repeated, compared with a length, or kept in a cache",
    "key": "number by which a row of a table is called",
    "digits": "places that `round` keeps",
    "year": "year of a source",
    "rank": "order of the members of an enumeration",
    "parity": "remainder of a whole number",
}
COUNTING = {"range", "enumerate", "islice", "combinations", "split", "rsplit"}
COUNTED = {"maxsize", "maxsplit", "axis", "n", "strict"}
UNPROVEN = {"MEMORY", "COMMON", "SHOP", "COMMON_PRACTICE"}
"""How a source is marked when no print holds its figure."""


@dataclass(frozen=True, slots=True)
class Literal:
    """A number in a file (below `src/bickern`): where, as written, whose, in a body or not, structure, kind by shape.

    `name` is the function (`Class.method`) or the constant (`Class.field`) that it belongs to. `inside` is false for
    what is reckoned while the file is imported. `told` is the kind of survivor that its place in the code tells.
    """

    file: str
    line: int
    column: int
    text: str
    value: int | float
    name: str
    inside: bool
    structure: str
    told: str


Chain = list[ast.AST]
"""A node and all that holds it, from the inside out."""


def literals(text: str, file: str) -> list[Literal]:
    """Every number in the text of a file, in the order it is written."""
    tree = ast.parse(text)
    lines = text.encode().splitlines()
    above = {child: node for node in ast.walk(tree) for child in ast.iter_child_nodes(node)}
    notes = _notes(tree)
    unproven = _unproven(tree)
    found = []
    for node, value in numbers(tree):
        chain: Chain = [node]
        while chain[-1] in above:
            chain.append(above[chain[-1]])
        written = lines[node.lineno - 1][node.col_offset : node.end_col_offset].decode()
        name, inside = owner(chain)
        told = _told(value, chain, notes, unproven)
        found.append(Literal(file, node.lineno, node.col_offset, written, value, name, inside, structure(chain), told))
    return found


def numbers(tree: ast.AST) -> list[tuple[ast.Constant, int | float]]:
    """All whole and decimal numbers with their nodes, as they stand in the text; true and false are none."""
    found = [n for n in ast.walk(tree) if isinstance(n, ast.Constant) and not isinstance(n.value, bool)]
    found.sort(key=lambda n: (n.lineno, n.col_offset))
    return [(n, n.value) for n in found if isinstance(n.value, int | float)]


def changed(text: str, line: int, column: int, value: float) -> ast.Module:
    """The file with one number changed."""
    tree = ast.parse(text)
    (node,) = (n for n, _ in numbers(tree) if (n.lineno, n.col_offset) == (line, column))
    node.value = value
    return tree


def owner(chain: Chain) -> tuple[str, bool]:
    """The function or constant that a number belongs to, and whether it stands in a function's body."""
    names: list[str] = []
    outside_in = chain[::-1]
    for node, held in pairwise(outside_in):
        if isinstance(node, ast.ClassDef):
            names.append(node.name)
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            return ".".join((*names, node.name)), held in node.body
        elif isinstance(node, ast.Assign | ast.AnnAssign | ast.AugAssign):
            names.append(_target(node, outside_in))
            break
    return ".".join(names) or "module", False


def _target(node: ast.Assign | ast.AnnAssign | ast.AugAssign, held: Chain) -> str:
    """The name that is set; of several set at once, the one that the number is for."""
    target = node.targets[0] if isinstance(node, ast.Assign) else node.target
    if isinstance(target, ast.Tuple) and isinstance(node.value, ast.Tuple):
        mine = [to for to, value in zip(target.elts, node.value.elts, strict=False) if value in held]
        target = mine[0] if mine else target
    return ast.unparse(target).strip("()")


def structure(chain: Chain) -> str:
    """What kind of structure a number is, or nothing for a figure."""
    node = chain[0]
    if isinstance(node, ast.Constant) and not node.value:
        return "zero"
    for child, parent in pairwise(chain):
        if kind := _as_part(child, parent):
            return kind
        if isinstance(parent, ast.ClassDef):
            return "rank" if any("Enum" in ast.unparse(b) for b in parent.bases) else ""
        if isinstance(parent, ast.Call | ast.FunctionDef | ast.Lambda):
            return ""
    return ""


def _as_part(child: ast.AST, parent: ast.AST) -> str:
    """What a part of an expression is to the expression, where that makes it structure."""
    match parent:
        case ast.Subscript(slice=place) if place is child:
            return "index"
        case ast.Dict(keys=keys) if child in keys:
            return "key"
        case ast.keyword(arg=arg) if arg in COUNTED:
            return "count"
        case ast.Call():
            return _as_argument(child, parent)
        case ast.BinOp(op=ast.Mod(), right=ast.Constant(value=2) as two) if two is child:
            return "parity"
        case ast.BinOp(op=ast.Mult(), left=left, right=right) if _row(left) or _row(right):
            return "count"
        case ast.BinOp(op=ast.Add() | ast.Sub()) | ast.Compare() if any(
            _counts(c) for c in ast.iter_child_nodes(parent)
        ):
            return "count"
    return ""


def _as_argument(child: ast.AST, call: ast.Call) -> str:
    called = last_name(call.func)
    if called == "group":
        return "index"
    of_text = called == "replace" and isinstance(call.func, ast.Attribute)
    if (called in COUNTING or of_text) and child in call.args:
        return "count"
    if called == "round" and child in call.args[1:]:
        return "digits"
    return "year" if called == "Source" and _whole(child) else ""


def _whole(node: ast.AST) -> bool:
    return isinstance(node, ast.Constant) and isinstance(node.value, int)


def _row(node: ast.AST) -> bool:
    text = isinstance(node, ast.Constant) and isinstance(node.value, str)
    return text or isinstance(node, ast.List | ast.Tuple | ast.JoinedStr)


def _counts(node: ast.AST) -> bool:
    """Whether this is a length, a tally or a remainder."""
    match node:
        case ast.Call(func=func):
            return last_name(func) in ("len", "count")
        case ast.BinOp(op=ast.Mod(), right=right):
            return _whole(right)
    return False


def last_name(node: ast.AST) -> str:
    """The bare name of what is called or read."""
    return node.id if isinstance(node, ast.Name) else node.attr if isinstance(node, ast.Attribute) else ""


def mentioned(node: ast.AST) -> set[str]:
    """Every bare name in a piece of code."""
    names = {last_name(n) for n in ast.walk(node)}
    return names - {""}


def _notes(tree: ast.AST) -> dict[ast.AST, str]:
    """The text that stands below a constant or a field and says what it is."""
    bodies = [n.body for n in ast.walk(tree) if isinstance(n, ast.Module | ast.ClassDef)]
    return {a: ast.unparse(b) for body in bodies for a, b in pairwise(body) if _is_note(b)}


def _is_note(node: ast.AST) -> bool:
    return isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant) and isinstance(node.value.value, str)


def _unproven(tree: ast.Module) -> set[str]:
    """Names of a file that stand for a source which no print holds, and functions that give their rows such a one."""
    names = set(UNPROVEN)
    for _ in range(3):
        for node in tree.body:
            if isinstance(node, ast.FunctionDef) and mentioned(node) & names:
                names.add(node.name)
            if isinstance(node, ast.Assign) and isinstance(node.value, ast.Call) and mentioned(node.value) & names:
                names.add(ast.unparse(node.targets[0]))
    return names


def _told(value: float, chain: Chain, notes: dict[ast.AST, str], unproven: set[str]) -> str:
    """The kind of survivor that a number's place in the code tells."""
    calls = [n for n in chain if isinstance(n, ast.Call)]
    if calls and any(mentioned(part) & unproven for part in (calls[0].func, *calls[0].args) if part not in chain):
        return "prior"
    note = next((notes[n] for n in chain if n in notes), "")
    if "common practice" in note or "from memory" in note or _is_default(chain):
        return "prior"
    if 0.0 < value <= 1e-5:
        return "numeric"
    return "bound" if _limits(chain) or _only_finds(chain) else ""


def _is_default(chain: Chain) -> bool:
    held = [n for n in chain if isinstance(n, ast.ClassDef | ast.FunctionDef | ast.AnnAssign)]
    return len(held) > 1 and isinstance(held[0], ast.AnnAssign) and isinstance(held[1], ast.ClassDef)


def _limits(chain: Chain) -> bool:
    """Whether a number stands, alone or times something, on one side of a comparison."""
    for parent in chain[1:]:
        if isinstance(parent, ast.Compare):
            return True
        if not isinstance(parent, ast.BinOp | ast.UnaryOp):
            return False
    return False


def _only_finds(chain: Chain) -> bool:
    """Whether a number stands in a function that gives nothing but findings."""
    gives = [n.returns for n in chain if isinstance(n, ast.FunctionDef) and n.returns]
    return bool(gives) and "Finding" in mentioned(gives[-1]) and "Read" not in mentioned(gives[-1])


def functions(tree: ast.Module) -> Iterator[tuple[str, ast.FunctionDef]]:
    """The outermost functions and methods of a file with their names."""
    for node in tree.body:
        if isinstance(node, ast.FunctionDef):
            yield node.name, node
        elif isinstance(node, ast.ClassDef):
            yield from ((f"{node.name}.{n.name}", n) for n in node.body if isinstance(n, ast.FunctionDef))


def numbered(found: Iterable[Literal]) -> dict[tuple[str, str, str, int], Literal]:
    """Numbers by file, name, text and which of those alike it is: a name that stays when lines move."""
    seen: Counter[tuple[str, str, str]] = Counter()
    by_key: dict[tuple[str, str, str, int], Literal] = {}
    for one in found:
        alike = (one.file, one.name, one.text)
        by_key[*alike, seen[alike]] = one
        seen[alike] += 1
    return by_key
