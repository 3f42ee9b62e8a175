"""Bar wound into a coil that stays one: a helix of so many turns at a pitch."""

from dataclasses import dataclass

from bickern.iron.section import Section, area
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import Read
from bickern.parts.ring.checks import both, size_faults
from bickern.parts.ring.coil import turn_length
from bickern.parts.ring.lengths import Loop, loop_of
from bickern.parts.ring.spec import RingSpec


@dataclass(frozen=True, slots=True)
class Helix:
    """A coil of `turns` about the middle line of `loop`, each going forward by `pitch` [m]; `density` [kg/m3]."""

    wire: Section
    loop: Loop
    turns: float
    pitch: float
    density: float

    @property
    def turn(self) -> float:
        """Bar [m] in one turn, along its middle line: sqrt((pi D)^2 + p^2) (exact)."""
        return turn_length(self.loop.mean_across, 0.0, self.pitch)

    @property
    def bar(self) -> float:
        """Bar [m] in all the turns."""
        return self.turns * self.turn

    @property
    def forward(self) -> float:
        """How far [m] the middle line goes from end to end of the coil."""
        return self.turns * self.pitch

    @property
    def long(self) -> float:
        """Length [m] of the coil over all, its ends as they are wound: one bar more than its middle line goes."""
        return self.forward + self.wire.width

    @property
    def mass(self) -> float:
        """Mass [kg]."""
        return area(self.wire) * self.bar * self.density


def reckon_helix(spec: RingSpec, turns: float, pitch: float | None, density: float) -> Read[Helix]:
    """A coil wound as round as the ring; `pitch` [m], None for one turn close on the other."""
    loop = loop_of(spec)
    faults = size_faults(spec, loop)
    if faults or loop is None:
        return Read(None, faults)
    forward = spec.wire.width if pitch is None else pitch
    if forward < spec.wire.width * (1 - 1e-9):
        return Read(None, (_too_close(spec.wire, forward),))
    return Read(Helix(spec.wire, loop, turns, forward, density))


def _too_close(wire: Section, pitch: float) -> Finding:
    says = f"At a pitch of {both(pitch)} the turns of a bar {both(wire.width)} wide lie in one another."
    return stop("turns-too-close", says, "Write the pitch of a close coil as the bar's own width, or more.")
