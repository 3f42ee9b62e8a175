"""Writes `docs/refusals.md`: every finding that bickern can give, gathered from its source: none is left out."""

import ast
import re
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from console import rewritten

ROOT = Path(__file__).parents[1]
SRC = ROOT / "src" / "bickern"
PAGE = ROOT / "docs" / "refusals.md"

MAKERS = {"stop": "STOP", "warn": "look", "note": "note", "Finding": "STOP"}
"""What makes a finding, and its weight; a bare `Finding` says its own weight, or stops."""
WEIGHT = {"STOP": "STOP", "WARN": "look", "NOTE": "note"}
KEBAB = re.compile(r"[a-z]+(-[a-z]+)*")
"""How findings are named; other functions may share a wrapper's name."""
ROOMS = (
    ("Reading the file", ("book", "measure")),
    ("Bars", ("parts/bar", "geometry/curve.py", "geometry/path.py", "iron")),
    ("Rings and chain", ("parts/ring",)),
    ("Sheet", ("parts/sheet", "geometry")),
    ("Joints and fit", ("parts/joint", "parts/fit", "parts")),
    ("Printing and asking", ("desk", "paper", "making", "cli")),
    ("The page", ("web",)),
)
"""Headings of the page, and the places in the source whose findings stand under each; the first that fits is taken."""
COMPUTED = {
    "twist-over-taper": ("look", "The twist runs over a taper, which twists tighter at its thin end."),
    "twist-over-shoulder": ("look", "The twist runs over a shoulder."),
    "twist-over-bend": ("look", "The twist runs over a bend."),
    "twist-over-hole": ("look", "The twist runs over a hole, which closes and tears."),
    "twist-over-twist": ("look", "The twist runs over another twist."),
}
"""Names that `parts/bar/twist.py` puts together from parts, which no reading of literals can find."""


@dataclass
class Said:
    """One name: its weights, the first wording, and the file that says it first."""

    name: str
    says: str
    file: str
    weights: list[str] = field(default_factory=list)


@dataclass
class Wrapper:
    """A function that hands a name on to a maker: where the name and the words stand among its arguments."""

    name_at: int
    says_at: int | None
    weight: str


def called(node: ast.Call) -> str:
    """The bare name of what is called."""
    func = node.func
    return func.id if isinstance(func, ast.Name) else func.attr if isinstance(func, ast.Attribute) else ""


def words(node: ast.expr | None, around: ast.AST) -> str:
    """A wording as text, what is filled in left as three dots."""
    match node:
        case ast.Constant(value=str(text)):
            return text
        case ast.JoinedStr(values=parts):
            return "".join(str(p.value) if isinstance(p, ast.Constant) else "…" for p in parts)
        case ast.BinOp(left=left, op=ast.Add(), right=right):
            return words(left, around) + words(right, around)
        case ast.IfExp(body=body):
            return words(body, around)
        case ast.Call(func=ast.Attribute(value=text, attr="strip" | "format" | "capitalize")):
            return words(text, around).replace("{}", "…")
        case ast.Name(id=name):
            told = [n for n in ast.walk(around) if isinstance(n, ast.Assign) and _names(n.targets[0]) == [name]]
            before = [n for n in told if n.lineno < node.lineno] or told
            return words(max(before, key=lambda n: n.lineno).value, around) if before else "…"
    return "…"


def _names(node: ast.expr) -> list[str]:
    if isinstance(node, ast.Tuple):
        return [name for part in node.elts for name in _names(part)]
    return [node.id] if isinstance(node, ast.Name) else [""]


Function = ast.FunctionDef | ast.AsyncFunctionDef


def functions(tree: ast.Module) -> Iterator[Function]:
    """Every function of a file, those in classes too."""
    return (node for node in ast.walk(tree) if isinstance(node, Function))


def arguments(function: Function) -> list[str]:
    """The names of a function's arguments, `self` left out."""
    return [a.arg for a in (*function.args.posonlyargs, *function.args.args) if a.arg != "self"]


def wrappers(trees: dict[str, ast.Module]) -> dict[str, Wrapper]:
    """Functions that take a finding's name as an argument and hand it on."""
    found: dict[str, Wrapper] = {}
    for tree in trees.values():
        for function in functions(tree):
            takes = arguments(function)
            for call in (n for n in ast.walk(function) if isinstance(n, ast.Call) and called(n) in MAKERS and n.args):
                first = call.args[0]
                if isinstance(first, ast.Name) and first.id in takes and function.name not in MAKERS:
                    second = call.args[1] if len(call.args) > 1 else None
                    says = takes.index(second.id) if isinstance(second, ast.Name) and second.id in takes else None
                    found[function.name] = Wrapper(takes.index(first.id), says, _weight(call))
    return found


def _weight(call: ast.Call) -> str:
    told = [n.attr for n in ast.walk(call) if isinstance(n, ast.Attribute) and n.attr in WEIGHT]
    return WEIGHT[told[0]] if called(call) == "Finding" and told else MAKERS[called(call)]


def _texts(node: ast.expr, function: ast.AST, tree: ast.Module) -> list[tuple[str, str]]:
    """The names an argument can stand for, each with its wording where a table of the file gives it."""
    match node:
        case ast.Constant(value=str(text)):
            return [(text, "")]
        case ast.IfExp(body=body, orelse=other):
            return _texts(body, function, tree) + _texts(other, function, tree)
        case ast.Name(id=name):
            return _from_table(name, function, tree) or _assigned(name, function, tree)
    return []


def _assigned(name: str, function: ast.AST, tree: ast.Module) -> list[tuple[str, str]]:
    told = [n.value for n in ast.walk(function) if isinstance(n, ast.Assign) and _names(n.targets[0]) == [name]]
    return [pair for value in told if not isinstance(value, ast.Name) for pair in _texts(value, function, tree)]


def _from_table(name: str, function: ast.AST, tree: ast.Module) -> list[tuple[str, str]]:
    """Rows of a table in the file that the function loops over, where one column is the name and one the words."""
    for loop in (n for n in ast.walk(function) if isinstance(n, ast.For)):
        columns = _names(loop.target)
        if name in columns and isinstance(loop.iter, ast.Name):
            rows = [n.value for n in tree.body if isinstance(n, ast.Assign) and _names(n.targets[0]) == [loop.iter.id]]
            says = columns.index("says") if "says" in columns else None
            return [
                (words(row.elts[columns.index(name)], tree), words(row.elts[says], tree) if says is not None else "")
                for table in rows
                if isinstance(table, ast.Tuple)
                for row in table.elts
                if isinstance(row, ast.Tuple)
            ]
    return []


def gathered() -> dict[str, Said]:
    """All findings of the source by name."""
    trees = {str(f.relative_to(SRC)): ast.parse(f.read_text()) for f in sorted(SRC.rglob("*.py"))}
    handed = wrappers(trees)
    found: dict[str, Said] = {}
    for file, tree in trees.items():
        for function in functions(tree):
            for call in (n for n in ast.walk(function) if isinstance(n, ast.Call)):
                for name, says, weight in _made(call, function, tree, handed):
                    said = found.setdefault(name, Said(name, says, file))
                    said.says = says if said.says in ("", "…") else said.says
                    said.weights += [weight] if weight not in said.weights else []
    for name, (weight, says) in COMPUTED.items():
        found[name] = Said(name, says, "parts/bar/twist.py", [weight])
    return found


def _made(
    call: ast.Call, function: Function, tree: ast.Module, handed: dict[str, Wrapper]
) -> Iterator[tuple[str, str, str]]:
    known = MAKERS.get(called(call))
    either = _either(called(call), function)
    if either and isinstance(call.args[0], ast.IfExp):
        names = (call.args[0].body, call.args[0].orelse)
        says = words(call.args[1], function)
        yield from ((words(n, function), says, MAKERS[maker]) for n, maker in zip(names, either, strict=True))
        return
    how = Wrapper(0, 1, _weight(call)) if known else handed.get(called(call))
    if how is None or len(call.args) <= how.name_at or function.name in MAKERS:
        return
    told = call.args[how.says_at] if how.says_at is not None and len(call.args) > how.says_at else None
    for name, says in _texts(call.args[how.name_at], function, tree):
        if KEBAB.fullmatch(name):
            yield name, says or words(told, function), how.weight


def _either(name: str, function: ast.AST) -> tuple[str, str] | None:
    """Both makers where a function says `said = warn if loud else note`, the name of the finding being as told by."""
    for node in ast.walk(function):
        if isinstance(node, ast.Assign) and _names(node.targets[0]) == [name] and isinstance(node.value, ast.IfExp):
            both = (*_names(node.value.body), *_names(node.value.orelse))
            if len(both) == 2 and set(both) <= MAKERS.keys():
                return both[0], both[1]
    return None


def heading(file: str) -> str:
    """The heading under which a file's findings stand."""
    return next(head for head, places in ROOMS if file.startswith(places))


def line(said: Said) -> str:
    """One line of the page."""
    says = re.sub("…+", "…", " ".join(said.says.split())).rstrip(" ;:")
    says = says[:1].upper() + says[1:] if says[:1] != "`" else says
    ending = "" if says.endswith((".", "?", "!", "…")) else "."
    weights = ", ".join(w for w in ("STOP", "look", "note") if w in said.weights)
    return f"| `{said.name}` | {weights} | {says.replace('|', '/')}{ending} |"


INTRO = """# What is refused

A fault in a job file is never a crash: it is a finding, with file, line and column, what is wrong in words with the
sizes in it, and what to try. All findings come at once. There are three weights:

- **STOP**: the piece cannot be reckoned, or must not be made so. `bickern` ends with exit code 1. `bickern sheets`
  still prints what can be printed, with the finding on the sheet.
- **look**: think about it before lighting the fire.
- **note**: something was taken for granted, or is worth knowing.

```console
$ bickern ask ring "3/8 rd" 1/4 --closed open
```

What bickern does not do at all:

- It gives no load rating of anything, for lifting or otherwise.
- It takes no galvanised, plated or otherwise coated metal into the fire, and gives no recipe for taking zinc off.

The list below is gathered from the source by `tools/refusals.py`; sizes and names are left out (…). A name with two
weights is given in two cases, or a STOP in one place and a word of warning in another.

"""


def page() -> str:
    """The whole page."""
    found = sorted(gathered().values(), key=lambda s: s.name)
    parts = [rewritten(INTRO).rstrip() + "\n"]
    for head, _ in ROOMS:
        rows = [line(s) for s in found if heading(s.file) == head]
        parts.append("\n".join([f"## {head}", "", "| name | weight | says |", "|---|---|---|", *rows]) + "\n")
    return "\n".join(parts)


if __name__ == "__main__":
    PAGE.write_text(page())
    sys.stdout.write(f"{PAGE.relative_to(ROOT)}\n")
