"""One bar before the smith: its metal, its heats, and a work filled in with blows and seconds from its energy."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from bickern.iron.blend import section_at
from bickern.iron.forging import ForgingRange, cold_strength, forging_range, hot_strength
from bickern.iron.section import Section, hydraulic
from bickern.iron.steel import STEELS, MetalClass, Steel, find_steel
from bickern.making.shop import Shop
from bickern.making.work.result import Work
from bickern.making.work.times import blows_for, hands, struck
from bickern.measure.known import Known
from bickern.measure.source import COMMON_PRACTICE, Kind, Source
from bickern.parts.bar.result import BarResult, MetalRun

BLACK_HEAT = 973.15
"""No steel is worked hot below this [K], 700 C: from there down to hand heat nothing is bent (common practice)."""
RATE = 250.0
"""Mean rate of strain [1/s] under a hand hammer: half of speed over thickness (our estimate)."""
RATE_AT_WRENCH = 1.0
"""Rate of strain [1/s] of a twist by hand (our estimate)."""
STRAIN_OF_A_BLOW = 0.10
"""The strain a blow leaves: hot iron softens again between blows, so stress is the mean up to here (our estimate)."""
STRAIN_PRESSED = 0.5
"""The strain beside a punch or chisel, and in the corner of a twist (our estimate)."""
COLD_UNKNOWN = 600e6
"""Resistance [Pa] taken for cold metal of unknown treatment (from memory; nothing but the energy of a cold bend)."""
_PRESSED = ("punch", "slit", "split", "twist", "cut off")
_UNKNOWN = STEELS["O1"]
_LIMBER = frozenset((MetalClass.WROUGHT, MetalClass.MILD, MetalClass.STAINLESS, MetalClass.COPPER))


@dataclass(frozen=True, slots=True)
class Pull:
    """How many kelvin below the general heat a thing is pulled from the fire, and why.

    `share`: never by more than this share of what lies between the metal's two heats, or no time is left to work.
    """

    lower: float
    why: str
    source: Source
    share: float = 0.3


THIN = Known(1.0e-3, "m", COMMON_PRACTICE)
"""Area over girth below which an end or an edge is thin: it burns in seconds."""
THIN_MOST = Known(1150.0 + 273.15, "K", COMMON_PRACTICE)
"""Thin ends and edges are pulled at yellow, no hotter; but not colder either, where their metal is drawn at that."""
_ORANGE = Pull(100.0, "bent at orange: hotter, it kinks and scales for nothing", COMMON_PRACTICE)
_EVEN = Pull(50.0, "an even orange to yellow heat twists evenly", COMMON_PRACTICE)
_DULL = Pull(200.0, "straightened at a falling heat", COMMON_PRACTICE, 1.0)
PULLS: dict[str, Pull] = {
    "bend": _ORANGE,
    "curl": _ORANGE,
    "hoop": _ORANGE,
    "scroll": _ORANGE,
    "twist": _EVEN,
    "straighten": _DULL,
}
"""Rows by operation; what is not named is pulled at the metal's general heat."""
WELD_FALLS = Pull(
    250.0,
    "the first blows join, or nothing does",
    Source("", "fall of heat within which the blows of a weld are struck", None, "", Kind.MEMORY),
)
WELD_SAYS = "joined by its first light blows, or not at all; dressed as it cools"
"""Said of every weld: its heat lasts for the dressing too, but not for the joining."""
_LEAST_WINDOW = 100.0
"""Kelvin that a heat falls at least: nothing is pulled nearer to its stop."""


def pulled_at(heats: ForgingRange, does: str, stop: float, thin: float) -> float:
    """The heat [K] to pull at for one operation on metal whose least area over girth is `thin` [m]."""
    pull, start = PULLS.get(does), heats.start
    if pull is not None:
        start -= min(pull.lower, pull.share * (heats.start - stop))
    most = THIN_MOST.value if thin < THIN.value else start
    return max(min(start, most), stop + _LEAST_WINDOW)


@dataclass(frozen=True, slots=True)
class Anvil:
    """A bar and what it is worked with: the piece's name, the shop, the metal, its heats, the way to a split end.

    `stock` is the section that it is forged from: of a split end its share of the bar.
    """

    result: BarResult
    shop: Shop
    piece: str
    steel: Steel
    heats: ForgingRange
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
        """Mean resistance [Pa] half-way between the heat that a zone is pulled at and the heat to stop at."""
        start, stop = self.window(does, thinnest(self.result.runs, zone))
        if does == "weld":
            stop = max(stop, start - WELD_FALLS.lower)
        rate = RATE_AT_WRENCH if does == "twist" else RATE
        strain = STRAIN_PRESSED if does in _PRESSED else STRAIN_OF_A_BLOW
        return hot_strength(self.steel, (start + stop) / 2, strain, rate).value

    def window(self, does: str, thin: float = 1.0) -> tuple[float, float]:
        """Heat to pull at and heat to stop at [K] for metal whose least area over girth is `thin` [m]."""
        heats = self.heats
        stop = heats.stop if self.steel.family is MetalClass.COPPER else max(heats.stop, BLACK_HEAT)
        if does == "weld" and heats.weld is not None:
            return heats.weld, stop
        return pulled_at(heats, does, stop, thin), stop

    @property
    def cold(self) -> float:
        """Resistance [Pa] to a cold bend."""
        strength = cold_strength(self.steel)
        return COLD_UNKNOWN if strength is None else strength.value

    @property
    def limber(self) -> bool:
        """Whether the metal may be bent cold at all: spring and tool steel snap."""
        return self.steel.family in _LIMBER and self.steel.name != "12L14"


def anvil_of(result: BarResult, shop: Shop, piece: str, stock: Section, child: tuple[str, ...] = ()) -> Anvil:
    """The bar with its metal looked up; an unknown one is worked as the most careful of tool steels."""
    steel = find_steel(result.spec.steel).value or _UNKNOWN
    heats = forging_range(steel) or forging_range(_UNKNOWN)
    if heats is None:
        raise ValueError("the careful steel has a forging range")
    return Anvil(result, shop, piece, steel, heats, stock, child)


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
) -> Work:
    """Work in the fire's heat: blows from `energy` [J], seconds from them and from the row of `does`.

    `count`: amount in the unit of the row. `free`: done by lever or wrench, no blows.
    """
    thin, least = skin_depth(anvil.result.runs, zone), thinnest(anvil.result.runs, zone)
    start, stop = anvil.window(does, least)
    hand = anvil.shop.hand
    blows = blows_for(0.0 if free else energy, hand, does)
    return Work(
        key_of(anvil, does, name), anvil.piece, does, name, zone, True, start, stop,
        energy=energy, blows=blows, seconds=hands(does, count) + struck(blows, hand), thin=thin, child=anvil.child,
    )  # fmt: skip


def key_of(anvil: Anvil, does: str, name: str) -> str:
    """What the work is known by: `arm: draw tip`."""
    return f"{'.'.join((anvil.piece, *anvil.child))}: {does} {name}".strip()


def unlike(works: Iterable[Work]) -> tuple[Work, ...]:
    """The works with keys that all differ: the second of one key is told as `... 2`."""
    seen: dict[str, int] = {}
    made = []
    for work in works:
        seen[work.key] = number = seen.get(work.key, 0) + 1
        made.append(work if number == 1 else replace(work, key=f"{work.key} {number}"))
    return tuple(made)


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
