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
from beside import Beside  # noqa: E402 - the same
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
"""Begins the note of a figure that a row of ours was copied from: it shows that it was copied rightly, no more."""
DIFFERS = "differs"
"""Begins the note of a figure that the print has otherwise, for a reason that it does not give as an allowance."""
FOUND = "density found"
"""Begins the note of a cell whose table does not tell its density: it checks the shape alone."""
APART = ("units",)
"""Topics that are no smith's work, counted apart."""
FORGE = (
    "rings and links", "chains", "coils", "drawing and upsetting", "bends in bars", "twists and scrolls",
    "holes and slits", "rivets", "collars", "folds in sheet", "seams and edges",
)  # fmt: skip
"""Topics of the forge and the bench itself; the others are weights, gauges, and mensuration."""

NOT_CHECKED = (
    "Scale lost in the fire is an estimate with a wide range: printed trade rules run from 0.6 to 7.5 %. One measured "
    "run of two hours at one heat comes out 5 % thicker here; what a lean or neutral flame spares is estimated.",
    "Blows, heats and minutes: nothing in print was found to hold them against. The energy of a change of shape is at "
    "best exact for an ideal metal; the useful share of a blow, the seconds of hands and where a heat is pulled are "
    "guesses, told with ranges, and the smith's own count replaces them.",
    "Cooling on the anvil, and of small iron in still air: no measurement was found. Still air agrees with text books "
    "and with finite volumes; bars measured while they were rolled lost a little more heat, in one pause half as much "
    "again (below). Under 800 C no seconds are promised.",
    "Warming in a fire: the fire is taken as an ideal hot room; nothing measured was found to hold it against.",
    "Hot strength: formulas from rolling and from tests of steel, none measured under a hand hammer; stainless, copper "
    "and brass are only set beside steel or from memory.",
    "Other metals than carbon steel are taken to warm and cool as it does: copper holds about a quarter less heat, so "
    "its seconds are as much too long; stainless is near to it, and has no change inside at 735 C.",
    "Corner fullness stands on one printed lesson (a square taper a fifth longer when rounded); what a twist does to "
    "the length has no figure in print that could be checked.",
    "No piece has been forged from one of these sheets and measured against it.",
    "Shoulders: two printed examples of drawing down come out 5 and 9 % short of constant volume, because metal stays "
    "in the shoulder. The length of that ramp is what the job says; nothing printed says how long it should be.",
    "Forge welds: the published allowances run from none to 1 1/2 thicknesses. Each rule is checked against its own "
    "source; none is shown to be the right one. The row `chain link` was read off the very link it is tested with.",
    "Slits: the two published rules give different lengths for one hole; no measured pair of slit and hole was found.",
    "Punched holes: that a third of the thickness comes away as the slug is common practice.",
    "Spring back of wound rings, and the strain of opening a ring sideways: the mechanics are integrated another way "
    "by a library, but nothing printed was found that shows real wire to follow them, and the yield of the wire is a "
    "default from memory. Wind one, measure it, correct the shop file.",
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
    """A printed figure, the file that holds it, and how far ours is from it as a share of ours."""

    figure: Printed
    file: str
    off: float

    @property
    def is_cell(self) -> bool:
        """Whether it is one of many cells of a table."""
        return self.figure.key.endswith("_table")

    @property
    def is_copy(self) -> bool:
        """Whether a row of ours was copied from it."""
        return self.figure.row.note.startswith(TRANSCRIBED)

    @property
    def is_wrong(self) -> bool:
        """Whether the print is wrong, and ours must not be what it says."""
        return self.figure.row.right is not None

    @property
    def is_printed(self) -> bool:
        """Whether it counts: seen in print, true, told alone, and not the figure that ours was copied from."""
        return self.figure.row.known in PRINTED and not (self.is_cell or self.is_copy or self.is_wrong)

    @property
    def how(self) -> str:
        """How ours agrees with it."""
        row = self.figure.row
        return "differs" if row.note.startswith(DIFFERS) else "bound" if row.bound else "exact"


@dataclass(frozen=True)
class Checked:
    """One file of checks: its source and of what kind it is, what is said of it, its figures, its other cases."""

    file: str
    title: str
    kind: str
    about: str
    held: tuple[Held, ...]
    cases: int
    beside: tuple[Beside, ...] = ()


def checked(path: Path) -> Checked:
    """What a file of checks says of its source; every printed figure in it is held once more."""
    tree = ast.parse(path.read_text())
    title, kind, about = told(ast.get_docstring(tree) or "")
    module = loaded(path)
    tests = [
        getattr(module, n.name) for n in tree.body if isinstance(n, ast.FunctionDef) and n.name.startswith("test_")
    ]
    held = tuple(one for test in tests if figures_in(test) for one in held_by(test, path.name))
    cases = sum(_rows(test) for test in tests if not figures_in(test))
    beside = tuple(module.beside()) if hasattr(module, "beside") else ()
    return Checked(path.name, title, kind, about, held, cases, beside)


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


def held_by(test: Any, file: str) -> Iterator[Held]:
    """Runs a test on each of its figures, and tells how far off each is."""
    for figure in figures_in(test):
        shelf.HELD.clear()
        test(figure)
        assert shelf.HELD, f"{file} does not hold {figure.row.where}"
        # a row may be held by several roads: the worst counts
        yield Held(figure, file, max(abs(figure.row.value - ours) / (abs(ours) or 1.0) for *_, ours in shelf.HELD))


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
            if isinstance(row, Known):
                yield from _told(f"{name}, {key}", row)
            for part in fields(row) if is_dataclass(row) else ():
                yield from _told(f"{key}, {part.name}", getattr(row, part.name))


INTRO = """# Checked against print

What bickern reckons, held against figures that others printed, against standards and against general-purpose libraries
that reckon another way. `make test` runs all of it. The figures lie as rows in `tests/published/books/`: what to ask,
what is printed, how far off its rounding allows, page and certainty. This page is written from those very tests by
`tools/validation.py`; `tests/house/test_docs.py` fails when it is stale. Every figure can be asked at the terminal, and
a book of your own can be tried: see [questions at the anvil](asking.md).

How a figure is known: **read in the source**, in its own text, scan or table, or a copy of it; **quoted**, somebody
else's page gives it; **exact mathematics**, the sizes are printed and the answer follows; **common practice**; **from
memory**, no page was seen. How ours agrees: **exact**, within the print's own rounding; **bound**, the print carries an
allowance that it names, and ours lies within it; **differs**, print and reckoning part for a reason that the row gives
(metal left in a shoulder, a blunt point) and the print does not count. Counted apart: cells of tables, figures from
memory, figures that a row of ours was **copied** from (they show that it was copied rightly, no more), and figures that
are **wrong in print** or in the scan, which stay as traps: ours must not be what they say. Where a book takes 22/7 or
3.14 for pi, ours is reckoned with its pi. *Worst* is the largest difference of print from ours among figures that agree
exactly: most of it is the print's rounding, in chain a little of the weld.

The figures were found by hand, and a figure that no rounding explains was left out as a doubtful scan, or kept as
wrong in print; what a source left out says so below. So this page shows that bickern agrees with a great deal of
print, not with all of it.

"""


def table(heads: str, lines: Iterable[str]) -> str:
    """A table from its heads and its rows."""
    columns = heads.count("|") + 1
    return f"| {heads} |\n|{'---|' * columns}\n" + "\n".join(f"| {line} |" for line in lines)


def sources(held: Iterable[Held]) -> int:
    """From how many sources figures come."""
    return len({h.file for h in held})


def totals(held: list[Held]) -> str:
    """How many printed figures from how many sources, what they are of, and how they agree."""
    printed = [h for h in held if h.is_printed]
    rows = [
        ("**printed figures**, read or quoted", printed),
        ("read in the source", [h for h in printed if h.figure.row.known == "read"]),
        ("quoted by a secondary page", [h for h in printed if h.figure.row.known == "quoted"]),
        ("of the forge and the bench itself", [h for h in printed if h.figure.row.topic in FORGE]),
        ("of weights, gauges and mensuration", [h for h in printed if h.figure.row.topic not in (*FORGE, *APART)]),
        ("of units", [h for h in printed if h.figure.row.topic in APART]),
        ("agree exactly", [h for h in printed if h.how == "exact"]),
        ("lie within a bound that is printed with them", [h for h in printed if h.how == "bound"]),
        ("differ, for a reason that their row gives", [h for h in printed if h.how == "differs"]),
    ]
    return table("printed | figures | sources", (f"{word} | {len(of)} | {sources(of)}" for word, of in rows))


def apart(held: list[Held]) -> str:
    """What is checked as well, and does not count as a printed figure."""
    alone = [h for h in held if not h.is_cell]
    cells = [h for h in held if h.is_cell]
    rows = [
        ("cells of tables", [h for h in cells if not h.figure.row.note.startswith(FOUND) and not h.is_wrong]),
        (
            "cells whose density was found from the table itself",
            [h for h in cells if h.figure.row.note.startswith(FOUND)],
        ),
        *(
            (word, [h for h in alone if h.figure.row.known == known and not h.is_copy and not h.is_wrong])
            for known, word in KNOWN.items()
            if known not in PRINTED
        ),
        ("copied: a row of ours comes from this figure", [h for h in alone if h.is_copy and not h.is_wrong]),
        ("wrong in print or in the scan, kept as traps", [h for h in held if h.is_wrong]),
    ]
    lines = (f"{word} | {len(of)} | {sources(of)}" for word, of in rows if of)
    return table("counted apart | figures | sources", lines)


def by_kind(files: list[Checked]) -> str:
    """Printed figures by what their sources are."""
    lines = []
    for kind in KINDS:
        held = [h for f in files if f.kind == kind for h in f.held]
        printed = [h for h in held if h.is_printed]
        forge = sum(h.figure.row.topic in FORGE for h in printed)
        if held:
            lines.append(f"{kind} | {sources(held)} | {len(printed)} | {forge} | {sum(h.is_cell for h in held)}")
    return table("a source is a | sources | printed figures | of the forge and bench | cells", lines)


def by_topic(held: list[Held]) -> str:
    """Figures and worst difference of each topic."""
    lines = []
    for topic in sorted({h.figure.row.topic for h in held}):
        of = [h for h in held if h.figure.row.topic == topic]
        cells, printed = sum(h.is_cell for h in of), sum(h.is_printed for h in of)
        lines.append(f"{topic} | {printed} | {cells} | {len(of) - cells - printed} | {sources(of)} | {worst(of)}")
    return table("topic | printed figures | cells | others | sources | worst", lines)


def by_source(files: list[Checked]) -> str:
    """A row for each source."""
    return table(
        "source | a | topics | figures | cells | worst | known and how it agrees", (_source(f) for f in files if f.held)
    )


def _source(one: Checked) -> str:
    cells = sum(h.is_cell for h in one.held)
    known = ", ".join(f"{n} {word}" for word, n in Counter(_known(h) for h in one.held).items())
    topics = ", ".join(dict.fromkeys(h.figure.row.topic for h in one.held))
    title = one.title.replace("|", "/")
    return f"{title} | {one.kind} | {topics} | {len(one.held) - cells} | {cells} | {worst(one.held)} | {known}"


def _known(held: Held) -> str:
    if held.is_wrong:
        return "wrong in print"
    word = "copied" if held.is_copy else held.figure.row.known
    return word if held.how == "exact" else f"{word}, {held.how}"


def worst(held: Iterable[Held]) -> str:
    """The largest difference of those that agree exactly, in per cent with two figures."""
    offs = [h.off for h in held if h.how == "exact" and not h.is_wrong]
    if not offs:
        return ""
    most = 100 * max(offs)
    return "none" if most < 1e-4 else f"{most:.2g} %"


def section(one: Checked) -> str:
    """What a source is: how it was read, what it rounds, what was left out."""
    more = f" {one.cases} further checks in the same file." if one.cases and one.held else ""
    alone = f"{one.cases} checks. " if one.cases and not one.held else ""
    return f"**{one.title}** (`{one.file}`). {alone}{' '.join(one.about.split())}{more}\n"


SIDE_BY_SIDE = """What others measured of hot iron, or have other formulas and figures for, beside what is reckoned
here. These are no checks that pass or fail: the last column but one tells how far apart the two lie (theirs over ours),
and where they disagree it is said. What each was measured on stands with its source below. Nothing was found that
measured small iron in still air, iron on an anvil, the warming of iron in a small fire, the scale of one forging heat,
or the blows and heats that a piece takes: there, nothing stands beside ours."""


def side_by_side(files: Iterable[Checked]) -> str:
    """A row for everything that is set beside ours."""
    lines = (
        f"{one.what} | {one.theirs:.4g} {one.unit} | {one.ours:.4g} {one.unit} | {one.apart} | {_said(one, f)}"
        for f in files
        for one in f.beside
    )
    return table("what | theirs | ours | theirs over ours | said", lines)


def _said(one: Beside, file: Checked) -> str:
    source = file.title.split(",")[0]
    return f"{source}; {one.says}" if one.says else source


def page() -> str:
    """The whole page."""
    files = [checked(path) for path in sorted(TESTS.glob("test_*.py"))]
    held = [h for f in files for h in f.held]
    lacking = "\n".join(f"- {says}" for says in NOT_CHECKED)
    rows = table(
        "about | rule or figure | how known", (f"{a} | {b.replace('|', '/')} | {kind}" for a, b, kind in unprinted())
    )
    alone = "\n".join(section(f) for f in files if not f.held)
    return (
        f"{INTRO}{totals(held)}\n\n{apart(held)}\n\n{by_kind(files)}\n\n## What nothing confirms\n\n{lacking}\n\n"
        f"Rules and figures without a printed source, from their rows in the code:\n\n{rows}\n\n"
        f"## Measured, and ours beside it\n\n{SIDE_BY_SIDE}\n\n{side_by_side(files)}\n\n"
        f"## By topic\n\n{by_topic(held)}\n\n## By reckoning another way\n\n{alone}\n"
        f"## By source\n\n{by_source(files)}\n\n## What each source is\n\n"
        + "\n".join(section(f) for f in files if f.held)
    )


if __name__ == "__main__":
    PAGE.write_text(page())
    sys.stdout.write(f"{PAGE.relative_to(ROOT)}\n")
