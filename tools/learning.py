"""Simulates a shop whose true figures differ from what is taken for granted, and shows how its day book closes on them.

A test of the learning and not of the trade: the truth here is our own model with other figures, and noise. It writes
the curves of docs/day-book.md; `python tools/learning.py` draws them anew.
"""

import random
import statistics
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache
from math import exp, log
from pathlib import Path

from bickern.book.job.asked import Job
from bickern.desk.daybook.foresee import foreseen
from bickern.desk.reckon import reckon_file, reckon_job
from bickern.desk.work.heats import planned
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
RECORDS, SEEDS = 6, 21


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


COLOURS = ("#1b5e8c", "#b3541e", "#4a7a2c", "#7b4a8a")
WIDE, HIGH, LEFT, TOP, APART = 330, 210, 46, 34, 60
"""One panel, what stands left of it and above it, and between two, in dots."""
DASH = "5 3"


@dataclass(frozen=True, slots=True)
class Line:
    """One curve: its name, errors as shares from 0 records on, its colour, and whether it is dashed."""

    name: str
    errors: tuple[float, ...]
    colour: str
    dashed: bool = False


def panel(title: str, lines: Sequence[Line], left: float) -> Iterator[str]:
    """One panel as SVG: records along, error up in per cent."""
    largest = max(max(line.errors) for line in lines)
    step = next(one for one in (0.005, 0.01, 0.02, 0.03, 0.05, 0.1, 0.2, 0.25, 0.5) if 4 * one >= largest)
    most = 4 * step
    count = max(len(line.errors) for line in lines) - 1
    yield f'<text x="{left}" y="{TOP - 14}" font-weight="bold">{title}</text>'
    for k in range(5):
        y = TOP + HIGH * (1 - k / 4)
        yield f'<path d="M{left} {y:.1f}H{left + WIDE}" stroke="#ddd"/>'
        yield f'<text x="{left - 6}" y="{y + 4:.1f}" text-anchor="end">{100 * step * k:g} %</text>'
    for k in range(count + 1):
        yield f'<text x="{left + WIDE * k / count:.1f}" y="{TOP + HIGH + 16}" text-anchor="middle">{k}</text>'
    for line in lines:
        points = " ".join(
            f"{left + WIDE * k / count:.1f},{TOP + HIGH * (1 - error / most):.1f}"
            for k, error in enumerate(line.errors)
        )
        dash = f' stroke-dasharray="{DASH}"' if line.dashed else ""
        yield f'<polyline points="{points}" fill="none" stroke="{line.colour}" stroke-width="2"{dash}/>'


def picture(lengths: Sequence[Line], minutes: Sequence[Line], below: str) -> str:
    """Both panels with their names below."""
    wide, names = LEFT + 2 * WIDE + APART + 16, list(minutes)
    tall = TOP + HIGH + 44 + 16 * len(names)
    rows = [*panel("Length to cut: how far off", lengths, LEFT)]
    rows += panel("Minutes: how far off", minutes, LEFT + WIDE + APART)
    rows.append(f'<text x="{LEFT}" y="{TOP + HIGH + 34}">{below}</text>')
    for k, line in enumerate(names):
        y, dash = TOP + HIGH + 52 + 16 * k, f' stroke-dasharray="{DASH}"' if line.dashed else ""
        rows.append(f'<path d="M{LEFT} {y - 4}h24" stroke="{line.colour}" stroke-width="2"{dash}/>')
        rows.append(f'<text x="{LEFT + 32}" y="{y}">{line.name}</text>')
    head = (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {tall}" font-family="sans-serif" font-size="11">'
    )
    return "\n".join([head, f'<rect width="{wide}" height="{tall}" fill="#fff"/>', *rows, "</svg>", ""])


def both(name: str, rows: Sequence[tuple[float, float]], colour: str, *, dashed: bool = False) -> tuple[Line, Line]:
    """The two curves of one run."""
    lengths, minutes = zip(*rows, strict=True)
    return Line(name, lengths, colour, dashed), Line(name, minutes, colour, dashed)


def by_piece() -> str:
    """Each piece taught by its own records alone; and pieces without records, taught by those of all the others."""
    pairs = []
    for piece, colour in zip(PIECES, COLOURS, strict=True):
        rows = medians([list(course(seed, [piece], RECORDS, [piece])) for seed in range(SEEDS)])
        pairs.append(both(f"{piece[0]}: {piece[1]}, by its own records", rows, colour))
    rows = medians([list(course(seed, PIECES, RECORDS // 2, HELD_OUT)) for seed in range(SEEDS)])
    names = " and ".join(f"{example}: {name}" for example, name in HELD_OUT)
    pairs.append(
        both(f"{names}: never recorded; a step is one record of each of the four above", rows, "#333", dashed=True)
    )
    lengths, minutes = zip(*pairs, strict=True)
    return picture(lengths, minutes, f"records kept; medians of {SEEDS} simulated shops")


def with_a_slip() -> str:
    """The same piece with honest records, and with the second one ten times over in stock and minutes."""
    piece = PIECES[0]
    pairs = []
    for name, wild, colour in (("honest records", -1, COLOURS[0]), ("the second record ten times over", 1, COLOURS[1])):
        rows = medians([list(course(seed, [piece], RECORDS, [piece], wild)) for seed in range(SEEDS)])
        pairs.append(both(name, rows, colour, dashed=wild > 0))
    lengths, minutes = zip(*pairs, strict=True)
    return picture(lengths, minutes, f"records kept of {piece[0]}: {piece[1]}; medians of {SEEDS} simulated shops")


if __name__ == "__main__":
    for file, draw in (("learning.svg", by_piece), ("learning-slip.svg", with_a_slip)):
        path = ROOT / "docs" / "pictures" / file
        path.write_text(draw())
        print(path)
