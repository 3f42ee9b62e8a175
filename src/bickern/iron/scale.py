"""Scale: how fast hot iron turns to scale, and what share of a piece one heat takes.

Thick scale grows by the parabolic law x^2 = kp t; as long as it is thin, or air is short, by how fast oxygen comes to
it: W^2/k + W/kl = t, with W the oxygen taken up. Only kp has a measurement behind it, at one temperature; the figures
for a lean and a near neutral fire are estimates from how gas moves, so every answer is told as twice or half.
"""

import math
from functools import lru_cache

from bickern.iron.flame import Flame
from bickern.iron.heat.balance import nodes, seconds_at
from bickern.iron.heat.body import Body, Chamber, Curve, Surround
from bickern.iron.heat.cooling import cooling_curve
from bickern.iron.heat.loss import skin_gain
from bickern.iron.heat.steel_heat import DENSITY
from bickern.iron.steel import MetalClass
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread, within
from bickern.measure.units.words import ZERO_C

GAS_CONSTANT = 8.314462618
"""J/(mol K), exact since 2019 to all these digits."""
PAIDASSI = Source(
    "J. Paidassi", "oxidation of iron in air, as fitted by R. Y. Chen and W. Y. D. Yuen", 2003,
    "kp = 6.1 exp(-169452/RT) cm2/s", Kind.MEMORY,
)  # fmt: skip
_ESTIMATE = Source("", "derived here from how oxygen moves through the gas", None, "not measured", Kind.MEMORY)
_GRAM_PER_CM2 = 10.0  # kg/m2
PARABOLIC = Known(6.1e-4, "m2/s", PAIDASSI)
ACTIVATION = Known(169452.0, "J/mol", PAIDASSI)
OXYGEN_IN_AIR = Known(4.5e-4 * _GRAM_PER_CM2, "kg/(m2 s)", _ESTIMATE)
OXYGEN_IN_A_LEAN_FIRE = Known(8.0e-5 * _GRAM_PER_CM2, "kg/(m2 s)", _ESTIMATE)
OXYGEN_IN_A_NEUTRAL_FIRE = Known(1.5e-5 * _GRAM_PER_CM2, "kg/(m2 s)", _ESTIMATE)
LINEAR: dict[Flame, Known] = {
    Flame.OXIDISING: OXYGEN_IN_AIR,
    Flame.LEAN: OXYGEN_IN_A_LEAN_FIRE,
    Flame.NEUTRAL: OXYGEN_IN_A_NEUTRAL_FIRE,
}
"""The fastest that oxygen comes to the iron; in the open air as in an oxidising fire."""
IRON_IN_SCALE = Known(0.56, "m iron/m scale", Source("", "iron in its scale", None, "wuestite", Kind.MEMORY))
OXYGEN_TO_IRON = 15.999 / 55.845
"""By mass in wuestite FeO (atomic masses): nearly all of the scale of hot steel."""
OXYGEN_IN_SCALE = IRON_IN_SCALE.value * DENSITY.value * OXYGEN_TO_IRON
"""kg of oxygen in 1 m2 of scale 1 m thick."""
_BESIDE = "scale of metals in air at one heat, set beside that of iron"
SCALES_LESS: dict[MetalClass, Known] = {
    MetalClass.STAINLESS: Known(0.1, "1", Source("", _BESIDE, None, "18 % chromium: a tenth or less", Kind.MEMORY)),
    MetalClass.COPPER: Known(0.4, "1", Source("", _BESIDE, None, "copper: a third to a half", Kind.MEMORY)),
}
"""Thickness lost over that of carbon steel; families that are not named scale as it does."""
THRICE = 3.0
"""How far off such a factor may be, either way, that of the steel included (our estimate)."""
AGAIN_FROM = 700.0 + ZERO_C
"""A later heat begins with iron that is still so warm [K] (our estimate)."""
SCALES_FROM = 600.0 + ZERO_C
"""Below this, the seconds of warming leave no scale worth counting [K] (by the law above)."""
HOTTER = 100.0
"""K by which a fire is at least hotter than the iron in it (our estimate)."""
STEPS = 12
"""Steps of each curve: the loss is then within 2 % of what 80 give."""


def parabolic_constant(temperature: float) -> float:
    """kp [m2/s] of thickness of scale at a temperature [K]."""
    return PARABOLIC.value * math.exp(-ACTIVATION.value / (GAS_CONSTANT * temperature))


def scale_thickness(temperature: float, seconds: float) -> float:
    """Thickness [m] of the scale that grows on clean iron in plenty of air at one temperature [K]."""
    return math.sqrt(parabolic_constant(temperature) * max(seconds, 0.0))


def scale_along(curve: Curve, flame: Flame | None = None, start: float = 0.0) -> float:
    """Thickness [m] of scale after a curve of temperatures, `start` thick before; without a flame oxygen never lacks.

    Each stretch is taken at the mean of kp at its ends, and is exact for that.
    """
    thick = start
    times, heats = curve.seconds, curve.temperatures
    for i in range(len(times) - 1):
        kp = (parabolic_constant(heats[i]) + parabolic_constant(heats[i + 1])) / 2
        thick = _grown(thick, max(times[i + 1] - times[i], 0.0), kp, flame)
    return thick


def _grown(thick: float, seconds: float, kp: float, flame: Flame | None) -> float:
    """Thickness [m] after so many seconds more: x^2/kp + x/v is the age of a scale; v [m/s], where oxygen is short."""
    slow = 0.0 if flame is None else OXYGEN_IN_SCALE / LINEAR[flame].value
    age = thick**2 / kp + thick * slow + seconds
    # the root written so that it stays exact where slow is 0 or very large
    return 2 * age / (slow + math.sqrt(slow**2 + 4 * age / kp))


def lost_thickness(scale: float) -> float:
    """Thickness of iron [m] that went into a scale [m]."""
    return IRON_IN_SCALE.value * scale


def beside_steel(loss: Spread, metal: MetalClass) -> Spread:
    """What another metal loses where carbon steel would lose so much (shares of the mass); the same for any steel."""
    if (less := SCALES_LESS.get(metal)) is None:
        return loss
    return within(loss.value * less.value, 1 / THRICE, THRICE, *loss.why, f"{metal}: only set beside carbon steel")


def loss_of_a_heat(
    body: Body, temperature: float, soak: float, flame: Flame, stop: float, first: bool = True
) -> Spread:
    """Share of the mass lost in a heat: warmed, `soak` seconds at `temperature` [K], then worked in the air to `stop`.

    A first heat starts from cold, a later one from a dull red; iron scales so little below that that this hardly
    shows: what tells a later heat from the first is that it needs less `soak`. The old scale has fallen off under the
    hammer, so each heat starts clean. For carbon steel and wrought iron: what other metals lose, `beside_steel` says.
    """
    return within(
        _share_lost(body, temperature, soak, flame, stop, first), 0.5, 2.0,
        "how much air is left in the fire", "the growth of scale is measured at one heat only",
    )  # fmt: skip


@lru_cache(maxsize=4096)
def _share_lost(body: Body, temperature: float, soak: float, flame: Flame, stop: float, first: bool) -> float:
    if body.hydraulic <= 0:
        return 0.0
    in_fire = scale_along(_in_fire(body, temperature, soak, first), flame)
    worked = cooling_curve(body, temperature, min(stop, temperature), Surround(), STEPS)
    whole = scale_along(worked, Flame.OXIDISING, in_fire)
    # within what doubles it, no more can be lost than there is
    return min(0.5, lost_thickness(whole) / body.hydraulic)


def _in_fire(body: Body, temperature: float, soak: float, first: bool) -> Curve:
    """From where iron begins to scale up to the heat, and the soak there."""
    room = Chamber(max(Chamber().temperature, temperature + HOTTER))
    start = SCALES_FROM if first else AGAIN_FROM
    if start >= temperature:
        return Curve((0.0, soak), (temperature, temperature))
    through = nodes(body, start, temperature, lambda skin: skin_gain(skin, room), STEPS)
    times = seconds_at(body, through)
    return Curve((*times, times[-1] + soak), (*(n.mean for n in through), temperature))
