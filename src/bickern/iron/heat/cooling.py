"""Seconds that iron takes to cool, by the quasi-steady balance, and how sure they are. No promise below 800 C."""

import math
from dataclasses import replace

from bickern.iron.heat.balance import STEPS, Node, nodes, seconds_at
from bickern.iron.heat.body import Body, Curve, Surround
from bickern.iron.heat.fin import fin_seconds, matters
from bickern.iron.heat.loss import skin_loss
from bickern.iron.heat.steel_heat import DENSITY, enthalpy
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread, sharp
from bickern.measure.units.words import ZERO_C

_GUESS = Source("", "ranges from handbooks and judgement", None, "what a range of seconds is made of", Kind.MEMORY)
LEAST_EMISSIVITY, MOST_EMISSIVITY = Known(0.75, "1", _GUESS), Known(0.90, "1", _GUESS)
"""How black and rough scale is."""
LEAST_DRAUGHT, MOST_DRAUGHT = Known(1.0, "1", _GUESS), Known(1.5, "1", _GUESS)
"""Heat to moved air over that to still air."""
MISS_BY_EYE = Known(25.0, "K", _GUESS)
"""One standard deviation of a heat judged by its colour."""
LEAST_HEAT_HELD, MOST_HEAT_HELD = Known(0.94, "1", _GUESS), Known(1.0, "1", _GUESS)
"""Heat in real mild steel over that of EN 1993-1-2, 800 to 1150 C."""
LEAST_LYING, MOST_LYING = Known(0.5, "1", _GUESS), Known(2.0, "1", _GUESS)
"""How well it really lies on the anvil, over what was taken."""
LEAST_OF_SHORT_ZONE, MOST_OF_SHORT_ZONE = Known(0.85, "1", _GUESS), Known(1.2, "1", _GUESS)
"""Seconds of a short hot zone over those reckoned, for where it ends and how warm the bar beside it is."""
LEAST_UNDER_RED, MOST_UNDER_RED = Known(0.5, "1", _GUESS), Known(1.3, "1", _GUESS)
"""Seconds below `SURE_TO` over those reckoned: steel changes inside there."""
THICK = Known(0.0254, "m", _GUESS)
LEAST_OF_THICK, MOST_OF_THICK = Known(0.95, "1", _GUESS), Known(1.05, "1", _GUESS)
"""Seconds of iron thicker than `THICK` on an anvil, over those reckoned: the face that lies is much colder."""
SURE_TO = 800.0 + ZERO_C
"""Under this [K] no seconds are promised (our choice: steel changes inside there)."""
TENTH = 1.28
"""Nine of ten are less than the mean and this many standard deviations (exact for the normal curve: 1.2816)."""
Doubt = tuple[float, float, str]
"""Factors on the seconds, low and high, and the reason in words."""


def cooling_nodes(body: Body, start: float, stop: float, surround: Surround, steps: int = STEPS) -> tuple[Node, ...]:
    """Points of the cooling curve from start down to stop, mean temperatures [K]."""
    return nodes(body, start, stop, lambda skin: skin_loss(body, skin, surround), steps)


def cooling_seconds(body: Body, start: float, stop: float, surround: Surround) -> float:
    """Seconds for the mean temperature to fall from start to stop [K]; 0 where it need not fall, or for a bare point.

    Within 0.5 % of a solution in the whole section by finite volumes, 1.5 to 50 mm. How true the whole is, stands in
    `seconds_of_a_heat`. Where the air and the anvil keep it from falling so far, `inf`.
    """
    if stop >= start or body.hydraulic <= 0:
        return 0.0
    return seconds_at(body, cooling_nodes(body, start, stop, surround))[-1]


def cooling_curve(body: Body, start: float, stop: float, surround: Surround, steps: int = 40) -> Curve:
    """Mean temperature [K] against seconds, from start down to stop; one point where nothing is to cool."""
    if stop >= start or body.hydraulic <= 0:
        return Curve((0.0,), (start,))
    through = cooling_nodes(body, start, stop, surround, steps)
    return Curve(seconds_at(body, through), tuple(node.mean for node in through))


def seconds_of_a_heat(
    body: Body, start: float, stop: float, surround: Surround, hot_length: float | None = None, cold_sides: int = 1
) -> Spread:
    """Seconds of work that a heat gives, from start to stop [K], as a range that holds about eight cases of ten.

    `hot_length` [m] of the hot zone (None: long), `cold_sides` of it: 1 at a free tip, 2 in the middle of a bar. The
    low and high ends take together, as independent things, what `why` says. Anvil contact is `surround.contact`.
    """
    if hot_length is None:
        seconds = cooling_seconds(body, start, stop, surround)
    else:
        seconds = fin_seconds(body, start, stop, surround, hot_length, cold_sides)
    if seconds == 0 or math.isinf(seconds):
        return sharp(seconds)
    doubts = [*_outside(body, start, stop, surround), _eye(body, start, stop, surround, seconds)]
    doubts.append((LEAST_HEAT_HELD.value, MOST_HEAT_HELD.value, "the heat that this steel holds"))
    if hot_length is not None and matters(hot_length, start, seconds):
        doubts.append(
            (
                LEAST_OF_SHORT_ZONE.value,
                MOST_OF_SHORT_ZONE.value,
                "the short hot zone: its heat runs into the cold bar beside it",
            )
        )
    low = math.exp(-math.hypot(*(math.log(d[0]) for d in doubts)))
    high = math.exp(math.hypot(*(math.log(d[1]) for d in doubts)))
    under = _change(body, start, stop, surround)
    why = tuple(d[2] for d in (*doubts, under) if d[0] < 1 or d[1] > 1)
    return Spread(seconds, seconds * low * under[0], seconds * high * under[1], why)


def _outside(body: Body, start: float, stop: float, surround: Surround) -> list[Doubt]:
    """Scale, draught and anvil: how the flow changes with them, two fifths up from stop to start."""
    skin = stop + 0.4 * (start - stop)
    flow = skin_loss(body, skin, surround)

    def doubt(name: str, most: float, least: float, why: str) -> Doubt:
        now = getattr(surround, name)
        flows = [skin_loss(body, skin, replace(surround, **{name: x})) for x in (max(most, now), min(least, now))]
        return flow / flows[0], flow / flows[1], why

    found = [
        doubt("emissivity", MOST_EMISSIVITY.value, LEAST_EMISSIVITY.value, "how black and rough its scale is"),
        doubt("moving", MOST_DRAUGHT.value, LEAST_DRAUGHT.value, "how much it is moved, and the draught"),
    ]
    if (lies := surround.contact) > 0:
        found.append(doubt("contact", lies * MOST_LYING.value, lies * LEAST_LYING.value, "how it lies on the anvil"))
    if surround.contact > 0 and body.across > THICK.value:
        found.append((LEAST_OF_THICK.value, MOST_OF_THICK.value, "thick iron: the face on the anvil is much colder"))
    return found


def _eye(body: Body, start: float, stop: float, surround: Surround, seconds: float) -> Doubt:
    """Start and stop judged by eye: the seconds that a false heat at either end makes, taken together."""
    ends = (_seconds_a_miss(body, start, surround), _seconds_a_miss(body, stop, surround))
    share = TENTH * math.hypot(*ends) / seconds
    return 1 / (1 + share), 1 + share, "heats judged by eye"


def _seconds_a_miss(body: Body, mean: float, surround: Surround) -> float:
    heat = (enthalpy(mean + MISS_BY_EYE.value) - enthalpy(mean - MISS_BY_EYE.value)) / 2
    return DENSITY.value * body.hydraulic * heat / skin_loss(body, mean, surround)


def _change(body: Body, start: float, stop: float, surround: Surround) -> Doubt:
    """What is not known below `SURE_TO`: only that share of the seconds is the less sure for it."""
    if stop >= SURE_TO:
        return 1.0, 1.0, ""
    share = 1 - cooling_seconds(body, start, SURE_TO, surround) / cooling_seconds(body, start, stop, surround)
    why = "below 800 C steel gives heat up as it changes inside, and nothing is promised there"
    return 1 - share * (1 - LEAST_UNDER_RED.value), 1 + share * (MOST_UNDER_RED.value - 1), why
