"""Writes `docs/validation.md`: what the checks in `tests/published` hold bickern against, and what nothing confirms."""

import ast
import importlib
import importlib.util
import pkgutil
import re
import sys
import tokenize
from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from math import prod
from pathlib import Path
from typing import Any

import bickern
from bickern.measure.known import Known
from bickern.measure.source import Kind, Rule, Source

ROOT = Path(__file__).parents[1]
TESTS = ROOT / "tests" / "published"
PAGE = ROOT / "docs" / "validation.md"

CERTAINTY = {
    "read in the source": r"read in (the source|it\b)|all read\b|\bread$",
    "quoted by a secondary page": r"quoted",
    "from memory": r"from memory",
    "common practice": r"common practice",
    "exact mathematics": r"exact mathematics|exact by|\(exact\)",
    "reckoned another way": r"reckoned another way|reckon.{1,20}another way|a reference library|general library",
}
"""How sure a published figure is, in the words of the tests."""
CITES = re.compile("|".join(CERTAINTY.values()) + r"|\b1[6-9]\d\d\b|\b20[0-2]\d\b", re.IGNORECASE)
"""A comment in a test that names a source."""

NOT_CHECKED = (
    "Scale lost in the fire is an estimate with a wide range: printed trade rules run from 0.6 to 7.5 %.",
    "Corner fullness, and what a twist does to the length, have no figure in print that could be checked.",
    "No piece has been forged from one of these sheets and measured against it.",
    "Shoulders: two printed examples of drawing down come out 5 and 9 % short of constant volume, because metal stays "
    "in the shoulder. The length of that ramp is what the job says; nothing printed says how long it should be.",
    "Forge welds: the published allowances run from none to 1 1/2 thicknesses. Each rule is checked against its own "
    "source; none is shown to be the right one. The row `chain link` was read off the very link it is tested with.",
    "Slits: the two published rules give different lengths for one hole; no measured pair of slit and hole was found.",
    "Punched holes: that a third of the thickness comes away as the slug is common practice.",
    "Spring back of wound rings: the theory is from memory of textbooks, and the yield of the wire is a default from "
    "memory. Wind one, measure it, correct the shop file.",
    "Strain of opening a ring sideways: our own formula for an elastic split ring; nothing printed was found.",
    "Tenons and pins: common practice only.",
    "Rivet heads: pan, cone and countersunk heads have their proportions from memory.",
    "Bowls: the disc has the area of the bowl. How far raising and dishing thin or thicken the sheet is not reckoned.",
    "The limits at which a twist, an upset or a thin wall is called out are choices of this project, not measured.",
    "Real printers: that a page is true to size is measured in the PDF, not on paper. The check rule on every page is "
    "there to be measured before anything is cut.",
)
"""Said in words; the rows without a print are added from the source."""


@dataclass(frozen=True)
class Checked:
    """One file of checks: its heading, what it says of its sources, its cases and checks, which certainty words."""

    file: str
    title: str
    about: str
    sources: tuple[str, ...]
    cases: int
    checks: int
    certainty: tuple[str, ...]


def checked(path: Path) -> Checked:
    """What a file of checks says of itself, and its counts."""
    text = path.read_text()
    tree = ast.parse(text)
    doc = ast.get_docstring(tree) or ""
    title, _, rest = doc.partition("\n")
    notes = comments(path)
    said = f"{doc}\n" + "\n".join(notes)
    return Checked(
        path.name,
        title,
        rest.strip(),
        tuple(n for n in notes if CITES.search(n)),
        cases(path, tree),
        sum(isinstance(node, ast.Assert) for node in ast.walk(tree)),
        tuple(word for word, shape in CERTAINTY.items() if re.search(shape, said, re.IGNORECASE | re.MULTILINE)),
    )


def comments(path: Path) -> list[str]:
    """The comments of a file, those on lines of their own that follow each other joined, and one-line docstrings."""
    found: list[str] = []
    last = -2
    with path.open("rb") as file:
        for token in tokenize.tokenize(file.readline):
            if token.type == tokenize.COMMENT:
                text = token.string.lstrip("# ").strip()
                if token.start[0] == last + 1 and token.line.lstrip().startswith("#"):
                    found[-1] += f" {text}"
                else:
                    found.append(text)
                last = token.start[0]
    told = [ast.get_docstring(n) for n in ast.walk(ast.parse(path.read_text())) if isinstance(n, ast.FunctionDef)]
    return [" ".join(n.split()) for n in (*found, *(t for t in told if t)) if "noqa" not in n]


def cases(path: Path, tree: ast.Module) -> int:
    """How many cases the file has: each test as often as its rows say; made-up values count once."""
    module = loaded(path)
    names = [n.name for n in tree.body if isinstance(n, ast.FunctionDef) and n.name.startswith("test_")]
    return sum(_rows(getattr(module, name)) for name in names)


def loaded(path: Path) -> Any:
    """The file as a module."""
    name = f"checks_{path.stem}"
    spec = importlib.util.spec_from_file_location(name, path)
    if spec is None or spec.loader is None:
        raise ImportError(path)
    module = importlib.util.module_from_spec(spec)
    sys.modules[name] = module
    spec.loader.exec_module(module)
    return module


def _rows(test: Any) -> int:
    marks = [m for m in getattr(test, "pytestmark", ()) if m.name == "parametrize"]
    return prod(len(list(m.args[1])) for m in marks)


def unprinted() -> list[tuple[str, str, str]]:
    """Rules and figures in the source whose row says that it is common practice or from memory."""
    found: dict[tuple[str, str], str] = {}
    for info in pkgutil.walk_packages(bickern.__path__, "bickern."):
        if info.name.endswith("__main__"):
            continue
        for name, value in vars(importlib.import_module(info.name)).items():
            for what, says, source in _told(name, value):
                if source.kind in (Kind.MEMORY, Kind.COMMON):
                    found.setdefault((what, says), str(source.kind))
    return sorted((what, says, kind) for (what, says), kind in found.items())


def _told(name: str, value: object) -> Iterator[tuple[str, str, Source]]:
    if isinstance(value, Known):
        yield name.lower().replace("_", " ").strip(), f"{value.value:g} {value.unit}".removesuffix(" 1"), value.source
    elif isinstance(value, Rule):
        yield str(value.about), f"{value.name}: {value.formula}", value.source
    elif isinstance(value, tuple) and name.isupper():
        for row in value:
            yield from _told("", row)
    elif isinstance(value, dict) and name.isupper():
        for key, row in value.items():
            for part in fields(row) if is_dataclass(row) else ():
                yield from _told(f"{key}, {part.name}", getattr(row, part.name))


def section(one: Checked) -> str:
    """A file's part of the page."""
    sure = "; ".join(one.certainty) or "see its text"
    lines = [
        f"### {one.title.rstrip('.')}",
        "",
        f"`tests/published/{one.file}`: {one.cases} cases, {one.checks} checks. {sure}.",
        "",
    ]
    if one.about:
        lines += [one.about, ""]
    lines += [f"- {said}" for said in dict.fromkeys(one.sources)]
    return "\n".join(lines).rstrip() + "\n"


INTRO = """# Checked against print

Each file below holds what bickern reckons against figures that others printed, against a standard, against exact
mathematics or against a general-purpose library that reckons another way. `make test` runs them all. A case is one run
of a test (rows of a table count one by one); a check is one comparison in its text. Values made up at random count as
one case.

How sure a printed figure is stands beside it: **read in the source**; **quoted by a secondary page** (somebody else's
page gives it with its source); **from memory** (known to those who wrote this, no page was seen); **common practice**;
**exact mathematics**. Where a book rounds, the test says so and allows that much.

This page is written by `tools/validation.py` from the tests; `tests/house/test_docs.py` fails when it is stale.

"""


def page() -> str:
    """The whole page."""
    files = [checked(path) for path in sorted(TESTS.glob("test_*.py"))]
    total = f"{len(files)} files, {sum(f.cases for f in files)} cases, {sum(f.checks for f in files)} checks."
    lacking = "\n".join(f"- {says}" for says in NOT_CHECKED)
    rows = "\n".join(f"| {what} | {says.replace('|', '/')} | {kind} |" for what, says, kind in unprinted())
    return (
        f"{INTRO}{total}\n\n## What nothing confirms\n\n{lacking}\n\n"
        "Rules and figures without a printed source, from their rows in the code:\n\n"
        f"| about | rule or figure | how known |\n|---|---|---|\n{rows}\n\n## What is checked\n\n"
        + "\n".join(section(f) for f in files)
    )


if __name__ == "__main__":
    PAGE.write_text(page())
    sys.stdout.write(f"{PAGE.relative_to(ROOT)}\n")
