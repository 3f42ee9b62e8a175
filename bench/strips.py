"""Strips of open packing data: how full they get in 30 s, and what it takes to start the process they run in.

`python bench/strips.py [SECONDS] [NAME...]`. The sets (JSON: name, strip_height, items with demand,
allowed_orientations in degrees and a simple polygon) are read from the folder that BICKERN_PACKING names, else from
beside the checkout. Records: best densities known of these sets.
"""

import json
import math
import os
import resource
import statistics
import sys
import time
from pathlib import Path

from bickern.geometry.pack.child import Lost, in_child
from bickern.geometry.pack.shapes.asked import Part, Spacing
from bickern.geometry.pack.shapes.strip import strip
from bickern.geometry.polygon import area, flipped, from_points

GOALS = {"swim": 73.5, "shirts": 87.0, "trousers": 89.5, "albano": 87.0, "jakobs1": 88.9, "marques": 88.5}
"""Densities to reach in 30 s on two cores [%]."""
RECORDS = {"swim": 79.83, "shirts": 90.92, "trousers": 92.61, "albano": 89.82, "jakobs1": 89.25, "marques": 92.01}
"""Best known [%] (ESICUP sets, in the versions of JeroenGar/sparrow, MIT)."""


def parts_of(data: dict[str, object]) -> list[Part]:
    """The items of a set, a unit of theirs taken as a millimetre."""
    found = []
    items = data["items"]
    assert isinstance(items, list)
    for number, item in enumerate(items):
        corners = [(x / 1000, y / 1000) for x, y in item["shape"]["data"]]
        loop = from_points(corners[:-1] if corners[0] == corners[-1] else corners)
        turns = tuple(math.radians(turn) for turn in item["allowed_orientations"])
        found.append(Part(str(number), loop if area(loop) > 0 else flipped(loop), (), item["demand"], turns))
    return found


def density(name: str, folder: Path, seconds: float, seed: int) -> float | Lost:
    """How full the strip of one set gets [%]."""
    data = json.loads((folder / f"{name}.json").read_text(encoding="utf-8"))
    parts, height = parts_of(data), data["strip_height"] / 1000
    found = strip(parts, height, Spacing(), seconds=seconds, seed=seed)
    if isinstance(found, Lost):
        return found
    return 100 * math.fsum(area(part.outline) * part.count for part in parts) / (found.length * height)


def worked() -> float:
    """Processor time of all children that have ended [s]: on a busy machine far less than they were given."""
    spent = resource.getrusage(resource.RUSAGE_CHILDREN)
    return spent.ru_utime + spent.ru_stime


def start_cost() -> None:
    """What a child costs that does nothing."""
    spent = []
    for _ in range(9):
        start = time.perf_counter()
        in_child("child:Lost", "nothing", 10)
        spent.append(time.perf_counter() - start)
    print(f"{'a child started, heard and ended':<46}{statistics.median(spent) * 1000:>10.0f} ms   goal: 120 ms")


def main() -> None:
    """Prints every figure with its goal."""
    start_cost()
    told = os.environ.get("BICKERN_PACKING")
    folder = (Path(told) if told else Path(__file__).parents[2] / "shared" / "known" / "packing") / "sheets"
    if not (folder / "swim.json").exists():
        print("strips: the open sets are not here (BICKERN_PACKING names their folder): not measured")
        return
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 30.0
    for name in sys.argv[2:] or GOALS:
        start, before = time.perf_counter(), worked()
        found = density(name, folder, seconds, seed=1)
        spent = f"{time.perf_counter() - start:.1f} s ({worked() - before:.0f} s of processor)"
        says = found.why if isinstance(found, Lost) else f"{found:.2f} %"
        print(f"{name:<12}{says:>10} in {spent}   goal: {GOALS[name]:.1f} %, record {RECORDS[name]:.2f} %", flush=True)


if __name__ == "__main__":
    main()
