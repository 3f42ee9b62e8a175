"""Writes `docs/validation.md`: every printed figure that bickern is held against, and what nothing confirms."""

import ast
import importlib
import importlib.util
import pkgutil
import re
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
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
sys.path.insert(0, str(TESTS))

import shelf  # noqa: E402 - it lies with the printed figures, not in the package
from shelf import Printed  # noqa: E402 - the same

KNOWN = {
    "read": "read in the source",
    "quoted": "quoted by a secondary page",
    "maths": "exact mathematics of printed sizes",
    "common": "common practice",
    "memory": "from memory",
}
"""How a printed figure is known: the word in its row, and in full. Only the first two count toward what is printed."""
PRINTED = ("read", "quoted")
KIND = re.compile(r"Kind: ([a-z' ]+)\.\s*")
KINDS = (
    "standard", "law", "handbook", "book", "manual", "paper", "school book", "course", "trade page", "maker's page",
    "lesson page", "question page",
)  # fmt: skip
"""What a source may be, those that many eyes have seen first."""
TRANSCRIBED = "transcribed"
"""Stands in the note of a figure that a row of ours was copied from: it shows that it was copied rightly, no more."""

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
    "Rivet heads: the proportions of the cone head are from memory. DIN 661 has a countersunk head of 1.75 d at 75 "
    "degrees; ours is that of BS 275, 1.5 d at 60.",
    "Chain: makers print masses up to 4 % from a plain link of the same bar, for a weld stays on it and the widths are "
    "greatest ones. Two more tables that were seen differ by more and in both directions (one by 9 %, one from -5.5 to "
    "3.5 %), for a reason that is not printed: they are not counted as agreeing.",
    "Bowls: the disc has the area of the bowl. How far raising and dishing thin or thicken the sheet is not reckoned.",
    "The limits at which a twist, an upset or a thin wall is called out are choices of this project, not measured.",
    "Real printers: that a page is true to size is measured in the PDF, not on paper. The check rule on every page is "
    "there to be measured before anything is cut.",
)
"""Said in words; the rows without a print are added from the source."""


@dataclass(frozen=True)
class Held:
    """A printed figure, and how far ours is from it as a share of ours (None: a bound or a misprint)."""

    figure: Printed
    off: float | None

    @property
    def counts(self) -> bool:
        """Whether it is a printed figure that our own row was not copied from, and no cell of a table."""
        return not self.is_cell and not self.is_copy and self.figure.row.known in PRINTED

    @property
    def is_cell(self) -> bool:
        """Whether it is one of many cells of a whole table."""
        return self.figure.key.endswith("_table")

    @property
    def is_copy(self) -> bool:
        """Whether a row of ours was copied from it."""
        return TRANSCRIBED in self.figure.row.note


@dataclass(frozen=True)
class Checked:
    """One file of checks: its source and of what kind it is, what is said of it, its figures, its other cases."""

    file: str
    title: str
    kind: str
    about: str
    held: tuple[Held, ...]
    cases: int


def checked(path: Path) -> Checked:
    """What a file of checks says of its source; every printed figure in it is held once more."""
    tree = ast.parse(path.read_text())
    title, kind, about = told(ast.get_docstring(tree) or "")
    module = loaded(path)
    tests = [
        getattr(module, n.name) for n in tree.body if isinstance(n, ast.FunctionDef) and n.name.startswith("test_")
    ]
    held = tuple(one for test in tests if figures_in(test) for one in held_by(test))
    cases = sum(_rows(test) for test in tests if not figures_in(test))
    return Checked(path.name, title, kind, about, held, cases)


def told(doc: str) -> tuple[str, str, str]:
    """Of a docstring: the source, its kind, and what is said of it."""
    title, _, rest = doc.partition("\n\n")
    found = KIND.match(rest)
    assert found, f"no kind: {title}"
    return " ".join(title.removeprefix("Against ").rstrip(".").split()), found[1], rest[found.end() :].strip()


def figures_in(test: Any) -> list[Printed]:
    """The printed figures that a test is given, if that is what it is given."""
    marks = [m for m in getattr(test, "pytestmark", ()) if m.name == "parametrize" and m.args[0] == "row"]
    return [row for m in marks for row in m.args[1] if isinstance(row, Printed)]


def held_by(test: Any) -> Iterator[Held]:
    """Runs a test on each of its figures, and tells how far off each is."""
    for figure in figures_in(test):
        shelf.HELD.clear()
        test(figure)
        ((_, _, ours),) = shelf.HELD
        loose = figure.row.bound or figure.row.right is not None
        yield Held(figure, None if loose else abs(figure.row.value - ours) / (abs(ours) or 1.0))


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


INTRO = """# Checked against print

What bickern reckons, held against figures that others printed, against standards and against general-purpose libraries
that reckon another way. `make test` runs all of it. The figures lie as rows in `tests/published/books/`: what to ask,
what is printed, how far off its rounding allows, page and certainty. This page is written from those very tests by
`tools/validation.py`; `tests/house/test_docs.py` fails when it is stale.

**Read in the source**: the figure was seen in the source's own text, scan or table. **Quoted**: somebody else's page
gives it. **Exact mathematics**: the sizes are printed, the answer is not, and follows from geometry. **From memory**:
no page was seen; such figures are counted apart, and so are cells of whole tables, and figures that a row of ours was
**copied** from, which only show that it was copied rightly. A **bound** is a print that carries an allowance (weld,
scarf, shoulder, rounding up): ours must lie within it. A **misprint** is kept as a trap: ours must not be what is
printed. *Worst* is the largest difference between print and ours where the print claims to be exact; it is the
print's own rounding.

Every figure can be asked at the terminal, and a book of your own can be tried: write its figures in a CSV file with
the columns `ask`, `answer`, `printed`, `unit` (and `within`, `pi`, `where`, `note` where wanted), as those in
`tests/published/books/` are written, and say `bickern ask book my_book.csv`. `bickern ask ring '1/2 rd' 10 --digits`
shows the names of the figures in an answer.

"""


def totals(files: list[Checked]) -> str:
    """How many figures from how many sources, by certainty; and what is counted apart."""
    plain = [(h, f.file) for f in files for h in f.held if not h.is_cell]
    rows = [
        (word, [(h, f) for h, f in plain if h.figure.row.known == known and not h.is_copy])
        for known, word in KNOWN.items()
    ]
    both = [(h, f) for h, f in plain if h.counts]
    rows.insert(2, ("**read or quoted, together**", both))
    rows += [
        ("copied: a row of ours comes from this figure", [(h, f) for h, f in plain if h.is_copy]),
        ("cells of whole tables", [(h, f.file) for f in files for h in f.held if h.is_cell]),
        ("of all these: bounds", [(h, f.file) for f in files for h in f.held if h.figure.row.bound]),
        ("of all these: misprints kept as traps", [(h, f.file) for f in files for h in f.held if _trap(h)]),
    ]
    lines = (f"| {word} | {len(found)} | {len({file for _, file in found})} |" for word, found in rows if found)
    return "| known | figures | sources |\n|---|---|---|\n" + "\n".join(lines)


def _trap(held: Held) -> bool:
    return held.figure.row.right is not None


def by_kind(files: list[Checked]) -> str:
    """Figures read or quoted, by what their sources are."""
    lines = []
    for kind in KINDS:
        counted = {f.file: sum(h.counts for h in f.held) for f in files if f.kind == kind}
        cells = sum(h.is_cell for f in files if f.kind == kind for h in f.held)
        lines.append(f"| {kind} | {sum(n > 0 for n in counted.values())} | {sum(counted.values())} | {cells} |")
    return "| a source is a | sources | figures read or quoted | cells |\n|---|---|---|---|\n" + "\n".join(lines)


def by_topic(files: list[Checked]) -> str:
    """Figures and worst difference of each topic."""
    topics = Counter(h.figure.row.topic for f in files for h in f.held)
    lines = []
    for topic in sorted(topics):
        held = [(h, f.file) for f in files for h in f.held if h.figure.row.topic == topic]
        single = [h for h, _ in held if not h.is_cell]
        sources = len({file for _, file in held})
        lines.append(
            f"| {topic} | {len(single)} | {len(held) - len(single)} | {sources} | {worst(h for h, _ in held)} |"
        )
    return "| topic | figures | cells | sources | worst |\n|---|---|---|---|---|\n" + "\n".join(lines)


def by_source(files: list[Checked]) -> str:
    """A row for each source."""
    lines = [_source(f) for f in files if f.held]
    return "| source | a | topics | figures | cells | worst | known |\n|---|---|---|---|---|---|---|\n" + "\n".join(
        lines
    )


def _source(one: Checked) -> str:
    cells = sum(h.is_cell for h in one.held)
    known = ", ".join(f"{n} {word}" for word, n in Counter(_known(h) for h in one.held).items())
    topics = ", ".join(dict.fromkeys(h.figure.row.topic for h in one.held))
    title = one.title.replace("|", "/")
    return f"| {title} | {one.kind} | {topics} | {len(one.held) - cells} | {cells} | {worst(one.held)} | {known} |"


def _known(held: Held) -> str:
    word = "copied" if held.is_copy else held.figure.row.known
    return "misprint" if _trap(held) else f"{word}, bound" if held.figure.row.bound else word


def worst(held: Iterable[Held]) -> str:
    """The largest difference, in per cent with two figures; below a ten-thousandth of a per cent it is none."""
    offs = [h.off for h in held if h.off is not None]
    if not offs:
        return "within bounds"
    most = 100 * max(offs)
    return "none" if most < 1e-4 else f"{most:.2g} %"


def section(one: Checked) -> str:
    """What a source is: how it was read, what it rounds, what was left out."""
    more = f" {one.cases} further checks in the same file." if one.cases and one.held else ""
    alone = f"{one.cases} checks. " if one.cases and not one.held else ""
    return f"**{one.title}** (`{one.file}`). {alone}{' '.join(one.about.split())}{more}\n"


def page() -> str:
    """The whole page."""
    files = [checked(path) for path in sorted(TESTS.glob("test_*.py"))]
    lacking = "\n".join(f"- {says}" for says in NOT_CHECKED)
    rows = "\n".join(f"| {what} | {says.replace('|', '/')} | {kind} |" for what, says, kind in unprinted())
    return (
        f"{INTRO}{totals(files)}\n\n{by_kind(files)}\n\n## What nothing confirms\n\n{lacking}\n\n"
        "Rules and figures without a printed source, from their rows in the code:\n\n"
        f"| about | rule or figure | how known |\n|---|---|---|\n{rows}\n\n"
        f"## By topic\n\n{by_topic(files)}\n\n## By source\n\n{by_source(files)}\n\n"
        "## What each source is\n\n" + "\n".join(section(f) for f in files)
    )


if __name__ == "__main__":
    PAGE.write_text(page())
    sys.stdout.write(f"{PAGE.relative_to(ROOT)}\n")
