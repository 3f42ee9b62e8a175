"""This forge: how it prints, what it has, what it costs, and which published rules it follows."""

from dataclasses import dataclass, field, replace

from bickern.iron.flame import Flame
from bickern.iron.section import Section
from bickern.measure.source import Kind, Source
from bickern.measure.units.words import MILLIMETRE, ZERO_C, GaugeSystem, Style, System
from bickern.parts.bar.allowances import BarRules
from bickern.parts.joint.spec import JointRules
from bickern.parts.ring.spec import RingRules
from bickern.parts.sheet.allowances import SheetRules


@dataclass(frozen=True, slots=True)
class Fire:
    """The fire: its name, the longest hot zone it gives and the widest piece that enters [m]; 0 = not told.

    `temperature` [K] of its hot heart, its `flame` (how much it scales), and how many `irons` lie in it at once
    (0: not told). `slow`: times the seconds that iron warms in it, and `doubt`: the share that is
    left of the doubt in them; both learnt from the day book, and 1 without it.
    """

    name: str = ""
    longest: float = 0.0
    opening: float = 0.0
    temperature: float = 1250.0 + ZERO_C
    flame: Flame = Flame.LEAN
    irons: int = 0
    slow: float = 1.0
    doubt: float = 1.0


@dataclass(frozen=True, slots=True)
class Hand:
    """The smith's own figures, each learnable; the sources of the defaults stand beside them in `HAND_SOURCES`.

    `hammer` [kg], and its `speed` [m/s] at the iron; `useful`: the share of a blow that goes into ideal work of the
    iron (with it the ONE learnable figure of all hammering: useful joules a blow); `pace`: blows a second; `contact`
    [W/m2K] to the anvil while hammering; `carry`: seconds from fire to first blow; `colours`: which book's table of
    heat colours is printed. Learnt from the day book, and neutral without it: `slow` multiplies the seconds of all
    work, and `slow_at` those of one operation (`Work.does`); `doubt` is the share that is left of the doubt in them.
    """

    hammer: float = 1.1
    speed: float = 6.0
    useful: float = 0.35
    pace: float = 1.85
    contact: float = 50.0
    carry: float = 3.0
    colours: str = "Ilgen 1912"
    slow: float = 1.0
    slow_at: tuple[tuple[str, float], ...] = ()
    doubt: float = 1.0

    @property
    def blow(self) -> float:
        """Useful joules of one blow."""
        return self.useful * self.hammer * self.speed**2 / 2


def _guess(title: str, where: str = "") -> Source:
    return Source("", title, None, where, Kind.MEMORY)


HAND_SOURCES: dict[str, Source] = {
    "hammer": Source("", "common practice in the trade", None, "2 to 2 1/2 lb for a day's work", Kind.COMMON),
    "speed": _guess("speed of a hand hammer at the iron", "4 to 6 m/s, as many as the stroke has decimetres"),
    "useful": _guess(
        "share of a blow that is left as ideal work when drawing",
        "0.95 to the iron x 0.75 not sprung back / 1.2 friction / 1.4 to 1.8 spread, 0.33 to 0.42: not validated",
    ),
    "pace": _guess("blows of one smith", "1.6 to 2.1 a second"),
    "contact": _guess("iron to anvil while hammering", "a twentieth of the skin, 1000 W/m2K there: not measured"),
    "carry": Source("", "common practice in the trade", None, "fire beside the anvil", Kind.COMMON),
    "colours": Source("W. L. Ilgen", "Forge Work", 1912, "p. 94", Kind.HANDBOOK),
}
"""Where each default of a `Hand` comes from: guesses mostly, to be replaced by what the smith counts."""
FIRE_SOURCES: dict[str, Source] = {
    "temperature": _guess("heart of a coal or gas fire", "1200 to 1300 C"),
    "flame": _guess("flame of a small gas forge", "a little air left"),
}
"""The same of a `Fire`; its sizes and irons have no default."""


@dataclass(frozen=True, slots=True)
class Cutting:
    """How stock is cut [m]: what each cut of the saw loses, what its vise holds of the last end, what is worth keeping.

    `hot`: bars are cut hot on the hardy: no kerf, but `dress` [m] for each ragged end. `least_drop`: the shortest drop
    of a bar that goes back to the rack; `least_sheet` [m]: the least width of a sheet's. `gap`, `margin`: between
    patterns, and to the edge of a sheet. `weld_short`: two short bars may be welded into one. `unknown`: steel that
    nobody can name may be used. `lengths`: what the dealer sells, [m] (empty: not told).
    """

    kerf: float = 0.0025
    hot: bool = False
    dress: float = 0.003
    grip: float = 0.0
    least_drop: float = 0.1
    least_sheet: float = 0.1
    gap: float = 0.003
    margin: float = 0.003
    weld_short: bool = False
    unknown: bool = False
    lengths: tuple[float, ...] = ()


CUTTING_SOURCES: dict[str, Source] = {
    "kerf": _guess("kerf of a saw for metal", "band 1 to 1.3 mm, chop saw 2 to 3 mm"),
    "dress": _guess("lost where a hot-cut end is dressed", "2 to 4 mm"),
    "grip": _guess("what a vise must hold of the last end", "nothing: the last end is held by tongs or a stop"),
    "least_drop": _guess("shortest end of a bar worth keeping", "4 in"),
    "least_sheet": _guess("narrowest piece of sheet worth keeping", "4 in"),
    "gap": _guess("between patterns cut by hand", "1/8 in"),
    "margin": _guess("from a pattern to the edge of its sheet", "1/8 in"),
}
"""Where each default of `Cutting` comes from: guesses, to be replaced by what the shop's own saw and shears do."""


@dataclass(frozen=True, slots=True)
class SectionPrice:
    """What this shop pays for one section: `price` as written, by length or by weight (`1.20 a foot`)."""

    section: Section
    price: str


@dataclass(frozen=True, slots=True)
class Terms:
    """What this shop asks for its work; amounts are text as written until money is reckoned ("": not told).

    `fuel`: an hour of fire. `metal`: plain bar or sheet, as `3.10 a lb` (a bare amount: a kilogram); `sections`: those
    that have a price of their own; `metals`: the same by the metal's name. `fixed`: once for a job (drawing, talking,
    fetching). `each`: on every set (a screw, a box). `waste`: bar lost, as a share of what is cut. `failed`: share of
    the work that is made again. `finish_minutes`: on every set, beside what the plan counts. `margin`: share of the
    cost that is put on top of it. `learns`: share of the time that the hand needs when the count doubles (1: never
    learns). `light` [s]: to light the fire and let it come up, once a job. `round_to`: the step a price is rounded up
    to. `counts`: how many sets are priced.
    """

    fuel: str = ""
    metal: str = ""
    fixed: str = ""
    each: str = ""
    waste: float = 0.1
    failed: float = 0.0
    finish_minutes: float = 0.0
    margin: float = 0.0
    learns: float = 1.0
    light: float = 900.0
    round_to: str = "1"
    counts: tuple[int, ...] = (1, 6, 24)
    sections: tuple[SectionPrice, ...] = ()
    metals: tuple[tuple[str, str], ...] = ()


MOST_SETS = 10_000
"""Sets that are priced at most: more than that leaves no small shop."""
MOST_COUNTS = 6
"""Counts that are priced at once: a sheet has room for no more columns."""
TERMS_SOURCES: dict[str, Source] = {
    "waste": _guess("metal lost to saw, ends and slips", "a tenth; not measured"),
    "failed": Source("", "nothing is made again until the shop says so", None, "", Kind.SHOP),
    "margin": Source("", "nothing is put on until the shop says so", None, "", Kind.SHOP),
    "learns": Source("", "nobody learns until the shop's own times say so", None, "", Kind.SHOP),
    "light": _guess("a fire is lit and comes up", "10 to 20 minutes"),
}
"""Where each default of `Terms` comes from; an amount of money has no default."""


@dataclass(frozen=True, slots=True)
class Shop:
    """One shop file. Sizes in metres; `rate` per hour and `currency` are kept as text until money is reckoned.

    `drifts`, `tongs` [m]: sizes that hang on the wall (empty: not told); `tools`: others, in words. `english`: "US" or
    "UK" words.
    """

    name: str = ""
    style: Style = field(default_factory=Style)
    english: str = "US"
    gauge: GaugeSystem = GaugeSystem.US
    fire: Fire = Fire()
    drifts: tuple[float, ...] = ()
    tongs: tuple[float, ...] = ()
    bar: BarRules = field(default_factory=BarRules)
    ring: RingRules = field(default_factory=RingRules)
    sheet: SheetRules = field(default_factory=SheetRules)
    joint: JointRules = field(default_factory=JointRules)
    currency: str = ""
    rate: str = ""
    hand: Hand = Hand()
    tools: tuple[str, ...] = ()
    cutting: Cutting = Cutting()
    terms: Terms = Terms()


SAME_SIZE = 0.5 * MILLIMETRE
"""Tongs and drifts this near to a size [m] are of that size (common practice)."""


def hangs_there(size: float, told: tuple[float, ...]) -> bool:
    """Whether a tool of that size [m] is among those `told` of; a shop that told of none is taken to have it."""
    return not told or any(abs(one - size) <= SAME_SIZE for one in told)


def millimetres_first(shop: Shop) -> Shop:
    """The same shop with a millimetre tape: what a job in mm is reckoned with where no shop file says otherwise."""
    return replace(
        shop,
        style=replace(shop.style, first=System.MM),
        bar=replace(shop.bar, tape=MILLIMETRE),
        ring=replace(shop.ring, tape=MILLIMETRE),
    )
