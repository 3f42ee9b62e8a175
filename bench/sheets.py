"""Odd remnants: how much of the open sets and of seeded mixes is laid, and in what time.

`python bench/sheets.py [NAME...]`. The sets (planted_*, rect_*: made from Terashima's sets, ESICUP, CC0; a full nest
is known to exist for each) are read from the folder that BICKERN_PACKING names, else from beside the checkout.
"""

import importlib.util
import json
import math
import os
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

from bickern.geometry.pack.shapes.asked import Part, Remnant, Spacing
from bickern.geometry.pack.shapes.check import faults_of
from bickern.geometry.pack.shapes.nest import nest
from bickern.geometry.polygon import area, from_points

ROOT = Path(__file__).parents[1]
LIMITS = {"planted_d75": 5.0, "planted_d85": 30.0, "rect_d80": 5.0}
"""Seconds given to each set by its family."""
GOALS = {"planted_d75": "all in 5 s", "planted_d85": "96.5 % on average in 30 s", "rect_d80": "all in 5 s"}
MIXES = ((0.65, 5.0), (0.70, 30.0))
"""Share of metal filled and seconds, of the seeded mixes."""
COUNT = 20


def folder() -> Path:
    """Where the open sets lie."""
    told = os.environ.get("BICKERN_PACKING")
    return (Path(told) if told else ROOT.parent / "shared" / "known" / "packing") / "sheets"


def asked(path: Path) -> tuple[list[Part], list[Remnant]]:
    """Parts and sheets of one set, a unit of theirs taken as a millimetre."""
    data = json.loads(path.read_text(encoding="utf-8"))
    parts = [
        Part(f"p{n}", _loop(item["pts"]), (), item["demand"], tuple(math.radians(turn) for turn in item["rots"]))
        for n, item in enumerate(data["items"])
    ]
    return parts, [
        Remnant(f"b{n}", _loop(one["outer"]), tuple(_loop(hole) for hole in one["holes"]))
        for n, one in enumerate(data["bins"])
    ]


def _loop(points):
    return from_points([(x / 1000, y / 1000) for x, y in points])


def tried(parts: list[Part], remnants: list[Remnant], spacing: Spacing, seconds: float) -> tuple[float, float, bool]:
    """Share of the parts' metal that is laid, seconds it took, and whether the exact check finds it sound."""
    start = time.perf_counter()
    made = nest(parts, remnants, spacing, keep_going=lambda: time.perf_counter() - start < seconds)
    spent, short = time.perf_counter() - start, dict(made.short)
    missing = math.fsum(_metal(p) * short.get(p.key, 0) for p in parts)
    return (
        1 - missing / math.fsum(_metal(p) * p.count for p in parts),
        spent,
        not faults_of(made, parts, remnants, spacing),
    )


def _metal(part: Part) -> float:
    return abs(area(part.outline)) - math.fsum(abs(area(cut)) for cut in part.cutouts)


def _line(name: str, got: tuple[float, float, bool]) -> str:
    share, spent, sound = got
    return f"{name:<24}{share * 100:>8.2f} % of the metal laid in {spent:>5.1f} s{'' if sound else '   NOT SOUND'}"


def set_lines(names: list[str]) -> Iterator[str]:
    """A line for each open set and one for each family."""
    paths = sorted(folder().glob("*_d??.json"))
    if not paths:
        yield "open sets of sheets: not run: they are not beside the checkout, and BICKERN_PACKING does not name them"
    for family, seconds in LIMITS.items():
        head, tail = family.split("_")
        found = []
        for path in paths:
            if path.stem.startswith(head) and path.stem.endswith(tail) and _wanted(path.stem, names):
                found.append(tried(*asked(path), Spacing(), seconds))
                yield _line(path.stem, found[-1])
        if found:
            mean, full = sum(f[0] for f in found) / len(found), sum(f[0] > 1 - 1e-9 for f in found)
            yield f"{family}: {mean * 100:.2f} % on average, {full} of {len(found)} all laid   goal: {GOALS[family]}"


def mix_lines(names: list[str]) -> Iterator[str]:
    """A line for each seeded mix that is not all laid, and one for each share."""
    mixes = _mixes()
    for fill, seconds in MIXES if _wanted("mixes", names) else ():
        found = []
        for seed in range(COUNT):
            parts, remnants = mixes.mix(seed, fill)
            found.append(tried(parts, remnants, mixes.SPACING, seconds))
            if found[-1][0] < 1 - 1e-9 or not found[-1][2]:
                yield _line(f"mix {seed} at {fill:.2f}, {len(parts)} parts", found[-1])
        full, longest = sum(f[0] > 1 - 1e-9 for f in found), max(f[1] for f in found)
        laid = f"{full} of {COUNT} all laid, longest {longest:.1f} s"
        yield f"mixes at {fill * 100:.0f} %: {laid}   goal: all in {seconds:.0f} s"


def _mixes() -> ModuleType:
    spec = importlib.util.spec_from_file_location("mixes", ROOT / "tests" / "geometry" / "pack" / "mixes.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def _wanted(name: str, names: list[str]) -> bool:
    return not names or any(one in name for one in names)


def lines(names: list[str] | None = None) -> Iterator[str]:
    """All figures, measured by the clock: on a busy machine less is laid in the same time."""
    yield from set_lines(names or [])
    yield from mix_lines(names or [])


if __name__ == "__main__":
    for line in lines(sys.argv[1:]):
        print(line, flush=True)
