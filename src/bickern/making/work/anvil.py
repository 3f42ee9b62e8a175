"""One bar before the smith: its metal, and a work filled in with its heats, blows and seconds."""

from collections.abc import Iterator
from dataclasses import dataclass

from bickern.iron.blend import section_at
from bickern.iron.forging import cold_strength
from bickern.iron.section import Section, hydraulic
from bickern.iron.steel import Steel
from bickern.making.shop import Shop
from bickern.making.work.blows import blows_for, struck
from bickern.making.work.fire import bends_cold, metal_of, resistance, window
from bickern.making.work.paces import hands
from bickern.making.work.result import Work
from bickern.parts.bar.result import BarResult, MetalRun

COLD_UNKNOWN = 600e6
"""Resistance [Pa] taken for cold metal of unknown treatment (from memory; nothing but the energy of a cold bend)."""


@dataclass(frozen=True, slots=True)
class Anvil:
    """A bar and what it is worked with: the piece's name, the shop, the metal, the way to a split end.

    `stock` is the section that it is forged from: of a split end its share of the bar.
    """

    result: BarResult
    shop: Shop
    piece: str
    steel: Steel
    stock: Section
    child: tuple[str, ...] = ()

    @property
    def length(self) -> float:
        """Length [m] of the finished bar along its line."""
        return self.result.length

    @property
    def thick(self) -> float:
        """The lesser side [m] of the stock."""
        return min(self.stock.width, self.stock.thick)

    def within(self, start: float, end: float) -> tuple[float, float]:
        """A zone cut off at the ends of the bar [m]."""
        return min(max(0.0, start), self.length), min(max(0.0, end), self.length)

    def stress(self, does: str, zone: tuple[float, float]) -> float:
        """Mean resistance [Pa] to an operation in a zone, half-way down its heat."""
        return resistance(self.steel, does, thinnest(self.result.runs, zone))

    @property
    def cold(self) -> float:
        """Resistance [Pa] to a cold bend."""
        strength = cold_strength(self.steel)
        return COLD_UNKNOWN if strength is None else strength.value

    @property
    def limber(self) -> bool:
        """Whether the metal may be bent cold at all."""
        return bends_cold(self.steel)


def anvil_of(result: BarResult, shop: Shop, piece: str, stock: Section, child: tuple[str, ...] = ()) -> Anvil:
    """The bar with its metal looked up; an unknown one is worked as the most careful of tool steels."""
    return Anvil(result, shop, piece, metal_of(result.spec.steel), stock, child)


def cold_work(anvil: Anvil, does: str, name: str, zone: tuple[float, float], pace: str, amount: float = 0.0) -> Work:
    """Work at the bench by the row `pace`."""
    key = key_of(anvil, does, name)
    return Work(key, anvil.piece, does, name, zone, seconds=hands(pace, amount), child=anvil.child)


def hot_work(
    anvil: Anvil,
    does: str,
    name: str,
    zone: tuple[float, float],
    energy: float,
    count: float = 0.0,
    *,
    free: bool = False,
    pace: str = "",
) -> Work:
    """Work in the fire's heat: blows from `energy` [J], seconds from them and from the row of `does`, or of `pace`.

    `count`: amount in the unit of the row. `free`: done by lever or wrench, no blows.
    """
    thin, least = skin_depth(anvil.result.runs, zone), thinnest(anvil.result.runs, zone)
    start, stop = window(anvil.steel, does, least)
    hand = anvil.shop.hand
    blows = blows_for(0.0 if free else energy, hand, does)
    seconds = hands(pace or does, count) + struck(blows, hand)
    return Work(
        key_of(anvil, does, name), anvil.piece, does, name, zone, True, start, stop,
        energy=energy, blows=blows, seconds=seconds, thin=thin, child=anvil.child,
    )  # fmt: skip


def key_of(anvil: Anvil, does: str, name: str) -> str:
    """What the work is known by: `arm: draw tip`."""
    return f"{'.'.join((anvil.piece, *anvil.child))}: {does} {name}".strip()


def skin_depth(runs: tuple[MetalRun, ...], zone: tuple[float, float]) -> float:
    """Area over girth [m] of the finished bar in a zone, the mean along it."""
    total = long = 0.0
    for run, low, high in _in_zone(runs, zone):
        ends = [hydraulic(section_at(run.a, run.b, u)) for u in (low, (low + high) / 2, high)]
        part = max(high - low, 1e-9) * max(run.end - run.start, 1e-9)
        total += part * (ends[0] + 4 * ends[1] + ends[2]) / 6
        long += part
    return total / long if long else 0.0


def thinnest(runs: tuple[MetalRun, ...], zone: tuple[float, float]) -> float:
    """The least area over girth [m] in a zone of the finished bar; 0 where it comes to a point."""
    found = [hydraulic(section_at(r.a, r.b, u)) for r, low, high in _in_zone(runs, zone) for u in (low, high)]
    return min(found, default=0.0)


def _in_zone(runs: tuple[MetalRun, ...], zone: tuple[float, float]) -> Iterator[tuple[MetalRun, float, float]]:
    start, end = zone
    for run in runs:
        long = run.end - run.start
        if long <= 0.0 or run.end < start - 1e-9 or run.start > end + 1e-9:
            continue
        low, high = max(0.0, (start - run.start) / long), min(1.0, (end - run.start) / long)
        if high > low or start == end:
            yield run, min(low, high), max(low, high)
