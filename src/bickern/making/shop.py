"""This forge: how it prints, what it has, what it costs, and which published rules it follows."""

from dataclasses import dataclass, field, replace

from bickern.measure.units.words import MILLIMETRE, GaugeSystem, Style, System
from bickern.parts.bar.allowances import BarRules
from bickern.parts.joint.spec import JointRules
from bickern.parts.ring.spec import RingRules
from bickern.parts.sheet.allowances import SheetRules


@dataclass(frozen=True, slots=True)
class Fire:
    """The fire: its name, the longest hot zone it gives and the widest piece that enters [m]; 0 = not told."""

    name: str = ""
    longest: float = 0.0
    opening: float = 0.0


@dataclass(frozen=True, slots=True)
class Shop:
    """One shop file. Sizes in metres; `rate` per hour and `currency` are kept as text until money is reckoned.

    `drifts`, `tongs` [m]: sizes that hang on the wall (empty: not told). `english`: "US" or "UK" words.
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


def millimetres_first(shop: Shop) -> Shop:
    """The same shop with a millimetre tape: what a job in mm is reckoned with where no shop file says otherwise."""
    return replace(
        shop,
        style=replace(shop.style, first=System.MM),
        bar=replace(shop.bar, tape=MILLIMETRE),
        ring=replace(shop.ring, tape=MILLIMETRE),
    )
