"""Rings, links, ovals, coils and chain: what is asked and what is reckoned. Metres, kilograms."""

from dataclasses import dataclass
from enum import StrEnum

from bickern.iron.section import Section
from bickern.measure.finding import NOWHERE, Finding, Where
from bickern.measure.spread import Spread


class Closing(StrEnum):
    """How the ends of a ring meet."""

    WELDED = "welded"
    BUTTED = "butted"
    OPEN = "open"


@dataclass(frozen=True, slots=True)
class ChainSpec:
    """A chain of links like the ring: `links` or `length` [m] over all (inside of the end links to inside) is given."""

    links: int | None = None
    length: float | None = None
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True)
class RingSpec:
    """Rings of one kind. Exactly one of the three `across` sizes; `inside_long` makes it an oval link.

    `mandrel` [m] asks for a coil wound on that; 0 = the tool chooses. `make` counts rings in one set.
    """

    name: str
    wire: Section
    steel: str
    inside_across: float | None = None
    mean_across: float | None = None
    outside_across: float | None = None
    inside_long: float | None = None
    closing: Closing = Closing.BUTTED
    chain: ChainSpec | None = None
    wound: bool = False
    mandrel: float = 0.0
    make: int = 1
    coating: str = ""
    where: Where = NOWHERE


@dataclass(frozen=True, slots=True)
class RingRules:
    """The shop's choices for rings: length and weld rules by name, kerf [m], cold strain limit, tape step [m].

    A `length` that holds a weld itself is taken with that weld, and `weld` counts only for the others. `weld_times`
    multiplies the shop's own weld: learnt from the day book, and 1 without it.

    `yield_strength` and `stiffness` [Pa] are those of the cold wire, for spring back (sources: `rules.WIRE_YIELD`,
    `rules.WIRE_STIFFNESS`).
    """

    weld: str = "one thickness"
    kerf: float = 0.001
    cold_limit: float = 0.05
    tape: float = 0.0254 / 16
    yield_strength: float = 300e6
    stiffness: float = 205e9
    length: str = "pi x mean diameter"
    weld_times: float = 1.0


@dataclass(frozen=True, slots=True)
class Coil:
    """Wound on a mandrel: its diameter with spring-back taken off, whole turns, coil length, wire wanted [m].

    One turn more than there are rings, for the part turns lost at the two ends; no tail to hold on by is counted.
    `inside_after_cut` [m] is the inside across once the kerf (and a weld) is taken up and the ends meet.
    """

    mandrel: float
    turns: int
    coil_length: float
    wire: float
    inside_after_cut: float


@dataclass(frozen=True, slots=True)
class ChainResult:
    """A chain: number of links, pitch, length, mass, bar wanted, and how the last link lies to the first.

    `length` [m] is from inside to inside of the end links (links x pitch, as the length is asked for); `outside` [m] is
    two bar thicknesses more. `bar` [m] is the sum of the links before each is rounded up to the tape.
    """

    links: int
    pitch: float
    length: float
    mass: float
    bar: float
    last_lies: str
    outside: float = 0.0

    @property
    def a_metre(self) -> float:
        """Mass [kg/m] of the chain, by its length from inside to inside."""
        return self.mass / self.length


@dataclass(frozen=True, slots=True)
class RingResult:
    """One ring or link reckoned. `bare` [m] is the mean circumference, `weld` added, `cut_this` rounded up.

    `taken` [m] is the bar without the weld by the shop's `rule`: `bare`, but for a rule that makes the ring otherwise.
    Sizes and strain are those of the ring as asked; `mass` is that of the bar taken.
    `strain`: of the outer fibre when bent from straight; `opening_strain`: when opened sideways by a wire's width.
    """

    spec: RingSpec
    inside_across: float
    inside_long: float
    outside_across: float
    outside_long: float
    bare: float
    weld: float
    stock: Spread
    cut_this: float
    mass: float
    strain: float
    opening_strain: float
    taken: float
    rule: str
    coil: Coil | None = None
    chain: ChainResult | None = None
    also: tuple[tuple[str, float, str], ...] = ()
    findings: tuple[Finding, ...] = ()
