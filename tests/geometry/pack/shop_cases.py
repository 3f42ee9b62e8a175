"""Shop-size cutting cases, made from a seed: odd bars, dealer's lengths, kerf, grip, drops, shortage."""

import random
from dataclasses import dataclass

from bickern.geometry.pack.lengths.asked import Bar, Cut, Saw

INCH = 0.0254


@dataclass(frozen=True)
class Problem:
    """One section's cuts and bars."""

    cuts: tuple[Cut, ...]
    bars: tuple[Bar, ...]
    saw: Saw

    @property
    def wanted(self) -> int:
        return sum(cut.count for cut in self.cuts)


def case(seed: int) -> list[Problem]:
    """One to four sections that share 5 to 60 rack bars and 10 to 120 cuts, each a problem of its own."""
    draw = random.Random(seed)
    sections = draw.randint(1, 4)
    bars, cuts = draw.randint(5, 60), draw.randint(10, 120)
    saw = _saw(draw)
    inches = draw.random() < 0.3
    return [_section(draw, max(2, bars // sections), max(3, cuts // sections), saw, inches) for _ in range(sections)]


def _saw(draw: random.Random) -> Saw:
    keep, worth = draw.choice([(0.0, 0.0), (0.0, 0.0), (0.3, 0.5), (0.5, 0.8)])
    return Saw(draw.choice([0.0, 0.001, 0.0015, 0.003]), draw.choice([0.0, 0.0, 0.05, 0.08]), keep, worth)


def _section(draw: random.Random, bars: int, cuts: int, saw: Saw, inches: bool) -> Problem:
    """Cuts of few sorts or all unlike; a rack that is plenty, or too short, or has the dealer's lengths behind it."""
    alike = draw.choice([1, 1, 2, 4, 8])
    wanted = []
    while sum(cut.count for cut in wanted) < cuts:
        count = min(cuts - sum(cut.count for cut in wanted), draw.randint(1, alike))
        wanted.append(Cut(f"c{len(wanted)}", _length(draw, 0.08, 1.4, inches), count))
    rack = [_bar(draw, f"b{n}", inches) for n in range(bars)]
    if draw.random() < 0.5:
        rack += [Bar(f"d{n}", length, None, length) for n, length in enumerate(draw.sample([3.0, 4.0, 6.0, 6.1], 2))]
    return Problem(tuple(wanted), tuple(rack), saw)


def _bar(draw: random.Random, key: str, inches: bool) -> Bar:
    """A rack bar; its cost is its length, or a share of it where it is an old offcut."""
    length = _length(draw, 0.25, 3.0, inches) if draw.random() < 0.8 else 6.0
    return Bar(key, length, 1, round(length * draw.choice([1.0, 1.0, 0.7]), 6))


def _length(draw: random.Random, least: float, most: float, inches: bool) -> float:
    """To the millimetre, its tenth (a reckoned cut), or the sixteenth of an inch."""
    length = draw.uniform(least, most)
    if inches:
        return round(length / INCH * 16) / 16 * INCH
    return round(length, 3) if draw.random() < 0.7 else round(length, 4)
