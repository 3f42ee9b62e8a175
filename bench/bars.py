"""Cutting plans measured: open sets of bars against the best known, and shop-size cases; time to the proof or the end.

The open sets are read from the folder that BICKERN_PACKING names, else from `shared/known/packing` beside the checkout.
"""

import io
import json
import os
import re
import statistics
import sys
import tarfile
import time
from collections import Counter
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass
from pathlib import Path

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw
from bickern.geometry.pack.lengths.plan import plan_lengths
from bickern.geometry.pack.lengths.result import LengthPlan

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT / "tests" / "geometry" / "pack"))

from shop_cases import Problem, case  # noqa: E402 - the cases of the tests

SECONDS = 1.9
"""Time for a case [s]; starting and ending a process comes to it."""
FEW, NEAR = 40, 6e-4
"""Cases of so many cuts are to be proven, larger ones to lie so near their bound."""

FALKENAUER = ("t60", "t120", "t249")
"""E. Falkenauer, A Hybrid Grouping Genetic Algorithm for Bin Packing, J. of Heuristics 2 (1996), 5-30: triplets."""
HARD = {13: 67, 14: 62, 40: 59, 47: 71, 60: 63, 119: 77, 144: 73, 175: 84, 178: 80, 181: 72, 195: 64, 359: 76, 360: 62}
"""Best known of hard28 (J. Schoenfield, ESICUP's sets), as far as it is noted beside the set."""


@dataclass(frozen=True)
class Case:
    """A problem with the best known cost (None: not noted) and bound."""

    name: str
    cuts: tuple[Cut, ...]
    bars: tuple[Bar, ...]
    saw: Saw
    best: float | None


def folder() -> Path | None:
    """Where the open sets lie."""
    place = Path(os.environ.get("BICKERN_PACKING") or ROOT.parent / "shared" / "known" / "packing") / "bars"
    return place if place.is_dir() else None


def sets(place: Path) -> dict[str, list[Case]]:
    """The open sets by name."""
    found = {"shop": shop(place / "shop.json"), "hard28": list(hard((place / "hard28.txt").read_text()))}
    for name in FALKENAUER:
        found[name] = list(falkenauer((place / f"falkenauer_{name}.txt").read_text()))
    raw = (place / "falkenauer_u120.txt").read_bytes()
    if raw[:3] == b"bin":  # the set came as an archive of the uniform files, 250 to 1000 cuts
        with tarfile.open(fileobj=io.BytesIO(raw)) as box:
            for member in box:
                if re.match(r"binpack[234]\.txt", member.name):
                    text = raw[member.offset_data : member.offset_data + member.size].decode()
                    found[member.name.removesuffix(".txt")] = list(falkenauer(text))
    else:
        found["u120"] = list(falkenauer(raw.decode()))
    return found


def shop(file: Path) -> list[Case]:
    """Six-metre bars and odd offcuts; cost is length."""
    return [
        Case(
            told["name"],
            tuple(Cut(f"c{n}", c["length_mm"] / 1000, c["count"]) for n, c in enumerate(told["cuts"])),
            tuple(Bar(f"b{n}", b["length_mm"] / 1000, b["available"], b["cost"]) for n, b in enumerate(told["bars"])),
            Saw(kerf=told["kerf_mm"] / 1000),
            told["best_known_cost"],
        )
        for told in json.loads(file.read_text())
    ]


def falkenauer(text: str) -> Iterator[Case]:
    """How many; then name, capacity, items, best; then the items."""
    words = iter(text.split())
    for _ in range(int(next(words))):
        name, room, items, best = next(words), float(next(words)), int(next(words)), float(next(words))
        yield one_length(name, room, Counter(float(next(words)) for _ in range(items)), best)


def hard(text: str) -> Iterator[Case]:
    """Name in quotes, sorts, capacity; then length and count of each sort."""
    words = iter(re.sub(r"'BPP\s+(\d+)'", r"\1", text).split())
    for name in words:
        sorts, room = int(next(words)), float(next(words))
        items = Counter({float(next(words)): int(next(words)) for _ in range(sorts)})
        yield one_length(f"BPP{name}", room, items, HARD.get(int(name)))


def one_length(name: str, room: float, items: Counter[float], best: float | None) -> Case:
    """As few bars of one length as can be."""
    cuts = tuple(Cut(f"{size:g}", size / 1000, n) for size, n in items.items())
    return Case(name, cuts, (Bar("bar", room / 1000, None, 1.0),), Saw(), best)


def timed(cuts: tuple[Cut, ...], bars: tuple[Bar, ...], saw: Saw, seconds: float) -> tuple[LengthPlan, float]:
    """A plan and the seconds it took."""
    start = time.perf_counter()
    plan = plan_lengths(cuts, bars, saw, seconds=seconds)
    return plan, time.perf_counter() - start


def share(plan: LengthPlan) -> float:
    """How far a plan lies above its bound."""
    return 0.0 if plan.proven else (plan.cost - plan.bound) / max(abs(plan.bound), 1e-12)


def lines(most: int = 20) -> None:
    """Prints the figures: so many of each open set, and as many shop-size cases."""
    place = folder()
    if place is None:
        print("bars: the open sets are not here (BICKERN_PACKING names their folder): not measured")
    for name, cases in (sets(place) if place else {}).items():
        got = [(case, *timed(case.cuts, case.bars, case.saw, 10.0)) for case in cases[:most]]
        over = sum(max(0.0, plan.cost - case.best) for case, plan, _ in got if case.best is not None)
        said = f"bars, {name}: {len(got)} problems, {sum(plan.proven for _, plan, _ in got)} proven"
        spent = [seconds for _, _, seconds in got]
        far = 100 * max(share(plan) for _, plan, _ in got)
        print(
            f"{said}, {over:g} over the best known in all, mean {statistics.mean(spent):.2f} s, worst {max(spent):.2f}"
        )
        print(f"  furthest from its bound: {far:.3f} %")
    shop_size(most)


def side_by_side(problems: list[Problem], seconds: float) -> list[LengthPlan]:
    """A plan for each section, all at once, as the cut list makes them."""
    with ThreadPoolExecutor(4) as at_once:
        return list(at_once.map(lambda p: plan_lengths(p.cuts, p.bars, p.saw, seconds=seconds), problems))


def shop_size(most: int) -> None:
    """Prints how the seeded shop-size cases go, all sections of a case side by side in two seconds."""
    spent, sections, proven, met = [], 0, 0, 0
    for seed in range(most):
        problems = case(seed)
        start = time.perf_counter()
        plans = side_by_side(problems, SECONDS)
        spent.append(time.perf_counter() - start)
        sections += len(plans)
        proven += sum(plan.proven for plan in plans)
        met += all(plan.proven or (cuts_of(problems) > FEW and share(plan) <= NEAR) for plan in plans)
    print(f"bars, shop size: {met} of {most} cases proven, or within 0.06 % with more than {FEW} cuts")
    print(f"  {proven} of {sections} sections proven; {statistics.mean(spent):.2f} s a case, worst {max(spent):.2f} s")


def cuts_of(problems: list[Problem]) -> int:
    """Cuts of a case, all sections together."""
    return sum(problem.wanted for problem in problems)


if __name__ == "__main__":
    lines(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
