"""Simulates a shop whose true figures differ from what is taken for granted, and shows how its day book closes on them.

A test of the learning and not of the trade: the truth here is our own model with other figures, and noise. It writes
the curves of docs/day-book.md; `python tools/learning.py` draws them anew.
"""

import random
import statistics
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from math import exp, log
from pathlib import Path

from bickern.book.job.asked import Job
from bickern.desk.foresee import foreseen
from bickern.desk.heats import planned
from bickern.desk.reckon import reckon_file, reckon_job
from bickern.making.lessons.figures import all_figures, with_value
from bickern.making.lessons.learn import lessons_of, own_of
from bickern.making.lessons.record import Record, Told
from bickern.making.shop import Shop
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult

ROOT = Path(__file__).parents[1]
PIECES = (("ladle", "handle"), ("leaf-coat-hook", "hook"), ("bolt-tongs", "half"), ("porch-lantern", "arm"))
HELD_OUT = (("fire-set", "poker"), ("trivet", "hoop"))
"""Pieces that no record is ever made of."""
TRUE = {"scale": 1.6, "corners": 0.85, "weld": 0.6, "useful": 0.35 * 0.6, "contact": 100.0}
"""The true figures, on their natural scales."""
SLOWEST, FASTEST = 2.2, 0.6
LENGTH_NOISE, MINUTE_NOISE = 0.015, 0.10
SLIP = 10.0
"""A decimal point that slipped."""
RECORDS, SEEDS = 6, 9


@dataclass(frozen=True, slots=True)
class Truth:
    """What really happens with one piece: stock [m] (0: no bar), heats, seconds."""

    stock: float
    heats: float
    seconds: float


@cache
def job_of(example: str) -> Job:
    """An example job."""
    done = reckon_file(ROOT / "examples" / f"{example}.yaml")
    assert done.job is not None
    return done.job


def true_shop(seed: int) -> Shop:
    """A shop with the true figures; how slow each operation is differs from seed to seed."""
    chance = random.Random(f"shop {seed}")
    shop = Shop()
    for key, value in TRUE.items():
        shop = with_value(shop, all_figures()[key], value)
    for key, figure in all_figures().items():
        if key.startswith("minutes of "):
            shop = with_value(shop, figure, exp(chance.uniform(log(FASTEST), log(SLOWEST))))
    return shop


def truth_of(example: str, name: str, shop: Shop) -> Truth:
    """What one piece takes in a shop, with nothing left to chance."""
    job = job_of(example)
    spec = job.piece(name)
    assert spec is not None
    alone = replace(job, pieces=(replace(spec, make=1),), joints=(), hang=None, make=1)
    copy = planned(reckon_job(alone, shop)).copy
    assert copy is not None
    assert copy.plan is not None
    piece, plan = copy.pieces[0], copy.plan.pieces[0]
    stock = piece.stock.value if isinstance(piece, BarResult | RingResult) else 0.0
    return Truth(stock, plan.heats.value, plan.seconds.value)


def told(truth: Truth, chance: random.Random) -> Told:
    """What the smith writes down: heats as counted, the rest with noise."""
    stock = truth.stock * exp(chance.gauss(0.0, LENGTH_NOISE))
    seconds = truth.seconds * exp(chance.gauss(0.0, MINUTE_NOISE))
    return Told(stock=stock or None, heats=truth.heats or None, seconds=seconds)


def off(shop: Shop, true: Shop, pieces: Sequence[tuple[str, str]]) -> tuple[float, float]:
    """How far lengths and minutes are foreseen wrong, as shares: the mean over these pieces."""
    pairs = [(truth_of(*piece, shop), truth_of(*piece, true)) for piece in pieces]
    lengths = [abs(log(a.stock / b.stock)) for a, b in pairs if b.stock]
    return statistics.fmean(lengths), statistics.fmean(abs(log(a.seconds / b.seconds)) for a, b in pairs)


def course(
    seed: int, pieces: Sequence[tuple[str, str]], rounds: int, watched: Sequence[tuple[str, str]], wild: int = -1
) -> Iterator[tuple[float, float]]:
    """Errors of lengths and minutes before any record, and after each round of one record of every piece.

    `wild`: in that round one piece's stock and minutes are both written down ten times over.
    """
    chance, true, shop = random.Random(f"noise {seed}"), true_shop(seed), Shop()
    records: list[Record] = []
    yield off(shop, true, watched)
    for turn in range(rounds):
        for piece in pieces:
            before = foreseen(job_of(piece[0]), piece[1], shop)
            assert hasattr(before, "figures")
            said = told(truth_of(*piece, true), chance)
            if turn == wild and piece == pieces[0]:
                said = replace(said, stock=(said.stock or 0.0) * SLIP, seconds=(said.seconds or 0.0) * SLIP)
            records.append(Record(said, before, number=len(records) + 1))
        shop = own_of(Shop(), lessons_of(records, (), Shop()))
        yield off(shop, true, watched)


def medians(rows: Sequence[Sequence[tuple[float, float]]]) -> list[tuple[float, float]]:
    """The median over seeds, round by round, of both errors."""
    return [tuple(statistics.median(one) for one in zip(*turn, strict=True)) for turn in zip(*rows, strict=True)]  # type: ignore[misc]


if __name__ == "__main__":
    import time

    t = time.time()
    for piece in PIECES:
        rows = [list(course(seed, [piece], 5, [piece])) for seed in range(int(sys.argv[1]))]
        print(piece, [f"{a:.3f}/{b:.3f}" for a, b in medians(rows)], f"{time.time() - t:.0f}s")
