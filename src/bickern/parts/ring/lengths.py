"""How much bar a ring or an oval link takes along its middle line, and what it weighs."""

from dataclasses import dataclass
from math import ceil, pi

from bickern.iron.section import Section, middle_height
from bickern.measure.spread import Spread, sharp
from bickern.parts.ring.rules import bare_length, held_weld
from bickern.parts.ring.spec import Closing, RingResult, RingRules, RingSpec
from bickern.parts.weld import weld_allowance, weld_rule_names

_DUST = 1e-6
"""Share of a tape step that is rounding dust of the reckoning and does not lift a length to the next mark."""


@dataclass(frozen=True, slots=True)
class Loop:
    """A ring or link lying flat: inside across and long, `thick` bent, `middle` of its metal over the inside [m]."""

    across: float
    long: float
    thick: float
    middle: float

    @property
    def line(self) -> float:
        """Length [m] of the middle line: two half circles and two straights, so a circle where long = across."""
        return pi * self.mean_across + self.straights

    @property
    def straights(self) -> float:
        """Length [m] of the two straights of a link; 0 where it is round."""
        return 2 * (self.long - self.across)

    def by(self, rule: str) -> float:
        """Bar [m] without a weld by a ring's `rule`: it is for the round part, and the straights stay as they are."""
        return bare_length(rule, self.across, self.mean_across) + self.straights

    @property
    def radius(self) -> float:
        """Radius [m] of the middle line in the bends."""
        return self.across / 2 + self.middle

    @property
    def mean_across(self) -> float:
        """Diameter [m] of the middle line in the bends."""
        return 2 * self.radius

    @property
    def strain(self) -> float:
        """Stretch of the outer skin [-] when bent from straight: t/(2 R) where the middle is half the thickness."""
        return (self.thick - self.middle) / self.radius


def middle_of(wire: Section) -> float:
    """Height [m] of the middle of the metal over the ring's inside: a half-round lies with its flat inside."""
    return middle_height(wire)


def loop_of(spec: RingSpec) -> Loop | None:
    """The ring as asked, whichever size was given; None where none was. Sizes may come out negative here."""
    thick, middle = spec.wire.thick, middle_of(spec.wire)
    if spec.inside_across is not None:
        across = spec.inside_across
    elif spec.mean_across is not None:
        across = spec.mean_across - 2 * middle
    elif spec.outside_across is not None:
        across = spec.outside_across - 2 * thick
    else:
        return None
    return Loop(across, across if spec.inside_long is None else spec.inside_long, thick, middle)


def weld_of(closing: Closing, rules: RingRules, thick: float) -> float:
    """Extra bar [m] for the weld, none where the ends only meet: what the length's rule holds, else the shop's own."""
    if closing is not Closing.WELDED:
        return 0.0
    held = held_weld(rules.length, thick)
    return weld_allowance(rules.weld, thick) * rules.weld_times if held is None else held


def stock_of(bare: float, weld: float, closing: Closing, thick: float) -> Spread:
    """Bar [m] for one ring; a weld is as uncertain as the published rules disagree."""
    if closing is not Closing.WELDED:
        return sharp(bare)
    shares = [weld, *(weld_allowance(name, thick) for name in weld_rule_names())]
    why = "published weld allowances disagree"
    return Spread(bare + weld, bare + min(shares), bare + max(shares), (why,))


def up_to(length: float, tape: float) -> float:
    """The next mark of the tape [m] at or above a length."""
    return ceil(length / tape - _DUST) * tape if tape > 0 else length


def cut_at_once(ring: RingResult, tape: float) -> float:
    """The length that is cut at once [m]: bar for one ring; of wound rings the wire for one coil, up to the tape."""
    return ring.cut_this if ring.coil is None else up_to(ring.coil.wire, tape)
