"""The plan: what is done between two visits to the fire, in order. SI: metres, kelvin, seconds."""

from dataclasses import dataclass
from enum import StrEnum

from bickern.iron.section import Section
from bickern.making.work.result import NO_TIME, Work
from bickern.measure.finding import Finding
from bickern.measure.spread import Spread, sharp

ONE_HEAT = sharp(1.0)


class End(StrEnum):
    """The two ends of a bar as a smith tells them apart."""

    DATUM = "datum end"
    OTHER = "other end"
    NEITHER = ""  # the middle, a ring, a sheet


class Grip(StrEnum):
    """How the piece is held."""

    HAND = "in the hand"  # the cold end is long enough
    LONGER = "in the hand, by the longer bar"  # what it is still part of
    TONGS = "in tongs"
    VISE = "in the vise"  # twisting, bending a tight corner
    BENCH = "on the bench"  # cold work
    CLAMP = "by a clamp made for it: no cold bar is left"  # a heat that nothing here can hold; a finding says so


@dataclass(frozen=True, slots=True)
class Hold:
    """Where it is held: which end, how, the section that the tongs must fit, and its place now from that end [m].

    `by`: what is there, where it is no longer straight bar ("the eye", "the scroll"); else "". `small`: only small
    tongs find room there, close to the heat: they are cooled in water.
    """

    end: End = End.NEITHER
    grip: Grip = Grip.BENCH
    section: Section | None = None
    at: float = 0.0
    tongs_there: bool = True
    by: str = ""
    small: bool = False


@dataclass(frozen=True, slots=True)
class Spell:
    """Work between two visits to the fire (a heat), or between two turns at the bench (`hot` False).

    `number` counts the heats of the job from 1 (0 at the bench); where the work wants several heats alike, `times`
    says how many and `number` is the first. `works` in order. `zone`: what is hot, on the finished bar [m]; `now`: the
    same on the bar as it lies, told from the end `told_from` [m]. `start`: the heat to pull at, `stop`: to stop at [K].
    `gives`: seconds that one heat gives after the carry; `wants`: seconds of work in all of it; `warms`: seconds in
    the fire, the first time. `cool`: what must be kept cold, in words. `loss`: share of the metal in the hot zone that
    one such heat takes. `done_before`: the works done on this piece before it, by key (for the picture).
    """

    piece: str
    works: tuple[Work, ...]
    hot: bool
    number: int = 0
    times: Spread = ONE_HEAT
    zone: tuple[float, float] = (0.0, 0.0)
    now: tuple[float, float] = (0.0, 0.0)
    told_from: End = End.NEITHER
    start: float = 0.0
    stop: float = 0.0
    gives: Spread = NO_TIME
    wants: Spread = NO_TIME
    warms: Spread = NO_TIME
    hold: Hold = Hold()
    cool: tuple[str, ...] = ()
    loss: Spread = NO_TIME
    done_before: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class ToolFirst:
    """A tool to make (or find) before the fire is lit: what it is, its size [m] (0: its drawing says), for what.

    `section`: what it must fit, where one size does not tell that (None: it does).
    """

    what: str
    size: float
    of: str
    why: str
    section: Section | None = None


@dataclass(frozen=True, slots=True)
class Lot:
    """How the copies of one piece are made: `make` in all, `irons` in the fire at once, `together`: the same spell for
    all of them in turn (else piece by piece), seconds for the lot, and why in words."""

    piece: str
    make: int
    irons: int
    together: bool
    seconds: Spread
    why: str


@dataclass(frozen=True, slots=True)
class PiecePlan:
    """One piece: its spells in order, or why none are offered (`refused`); heats and seconds of one copy.

    `test_first`: a figure that is not trusted yet, in words; then one is made before the rest. `first_cut`,
    `last_cut` [m]: the stock before the heats were counted, and with them (0: no bar).
    """

    piece: str
    make: int
    spells: tuple[Spell, ...]
    heats: Spread
    seconds: Spread
    lot: Lot
    refused: str = ""
    test_first: str = ""
    first_cut: float = 0.0
    last_cut: float = 0.0


@dataclass(frozen=True, slots=True)
class Plan:
    """The order of work for one job. `pieces` stand in the order to make them. `tools` are made or found first.

    `joining`: spells that join pieces (a ring's piece is planned with its closing left to here where it must be
    threaded first), `finish`: spells on the finished set. `heats`, `seconds` [s]: in all, every copy counted.
    `passes`: how often loss and heats were reckoned against each other.
    """

    pieces: tuple[PiecePlan, ...]
    tools: tuple[ToolFirst, ...]
    joining: tuple[Spell, ...]
    finish: tuple[Spell, ...]
    heats: Spread
    seconds: Spread
    passes: int = 1
    findings: tuple[Finding, ...] = ()
