"""Bends, eyes, scrolls, hoops, twists and the fire welds of one bar, as works."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import pi

from bickern.geometry.path import Spiral
from bickern.iron.blend import section_at
from bickern.iron.section import Section, area
from bickern.making.work.anvil import Anvil, cold_work, hot_work
from bickern.making.work.effort import bending_work, forging_work, is_round, twisting_work
from bickern.making.work.fire import rounding_cold, welded
from bickern.making.work.result import Work
from bickern.parts.bar.length import box_at, thick_at
from bickern.parts.bar.result import BendSpan, TwistCheck
from bickern.parts.bar.says import counted
from bickern.parts.bar.tracks import BendLeg, Corner, EyeLeg, HoopLeg, PathLeg, ScrollLeg, StraightLeg

COLD_THICK = 6.5e-3
"""Thickest bar [m] bent cold, 1/4 in: a vise and a fork do it by hand (common practice)."""
SCARF = 1.5
"""Length of a scarf in thicknesses (a shop manual of 1906 has 1 1/2, quoted by a secondary page)."""
UPSET_BEFORE = 1.5
"""A corner or a scarf is upset to so many thicknesses first, over as many (Stokes 1992 for the corner: quoted)."""
SQUARED = 4.0
"""Thicknesses of bar that are swelled by half for a corner forged up square, driven back from one leg and the other:
so many that 3/4 in square takes four or five heats, as smiths say, and 3/4 x 1/4 in two (from memory, not counted)."""
TRUED = 1.0
"""The same of a corner bent in metal that was upset for it: it is only driven square (our estimate)."""
ROUND_FROM = 200 * pi / 180
"""A bend that turns farther than this [rad] is curled: from its tip, or from both its ends (common practice)."""


@dataclass(frozen=True, slots=True)
class Bent:
    """One leg that is bent: its number among the bends, its name, its span, how far it turns [rad], its zone [m]."""

    number: int
    name: str
    leg: PathLeg
    span: BendSpan
    turned: float
    zone: tuple[float, float]


def bent_legs(anvil: Anvil) -> tuple[Bent, ...]:
    """Every leg of the path that is not straight, with the place that was reckoned for it."""
    result = anvil.result
    path, spirals = result.spec.path, iter([leg for leg in result.legs if isinstance(leg, Spiral)])
    curved = [(i, leg) for i, leg in enumerate(path) if not isinstance(leg, StraightLeg)]
    found = []
    for number, ((i, leg), span) in enumerate(zip(curved, result.bends, strict=True)):
        spiral = next(spirals, None) if isinstance(leg, ScrollLeg) else None
        name = leg.name or counted(path, i).removeprefix("the ")
        found.append(Bent(number, name, leg, span, _turned(leg, spiral), anvil.within(span.start, span.end)))
    return tuple(found)


def _turned(leg: PathLeg, spiral: Spiral | None) -> float:
    if isinstance(leg, BendLeg):
        return leg.angle
    if spiral is not None:
        return abs(spiral.angle)
    return 2.5 * pi if isinstance(leg, EyeLeg) and leg.centred else 2 * pi


def bend_works(anvil: Anvil) -> Iterator[Work]:
    """Every bend, a corner's upset before it."""
    for bent in bent_legs(anvil):
        if isinstance(bent.leg, BendLeg) and bent.leg.corner is Corner.UPSET:
            yield _corner_upset(anvil, bent)
        yield bend_work(anvil, bent)


def bend_work(anvil: Anvil, bent: Bent) -> Work:
    """One bend, cold where the bar is thin and the strain small, else hot; nothing between."""
    does, says = _does(bent.leg), _says(bent.leg)
    turns, case = bent.turned / (2 * pi), _case(anvil, bent)
    if is_cold(anvil, bent):
        energy = _energy(anvil, bent, anvil.cold)
        work = replace(cold_work(anvil, does, bent.name, bent.zone, "cold bend", 4 * turns), energy=energy)
        metal = area(_section(anvil, (bent.span.start + bent.span.end) / 2)) * (bent.zone[1] - bent.zone[0])
        work = replace(work, seconds=work.seconds + rounding_cold(anvil.steel, metal))
    else:
        energy = _energy(anvil, bent, anvil.stress(does, bent.zone))
        work = hot_work(anvil, does, bent.name, bent.zone, energy, turns, pace=_PACES.get(case, ""))
    section = _section(anvil, (bent.span.start + bent.span.end) / 2)
    return replace(
        work,
        before=section,
        amount=bent.turned,
        radius=bent.span.inside_radius,
        bends=(bent.number,),
        says=says,
        case=case,
    )


def is_cold(anvil: Anvil, bent: Bent) -> bool:
    """Whether a bend is within the shop's limit of cold strain, in thin metal that takes it, with no forged corner."""
    gentle = bent.span.strain <= anvil.shop.ring.cold_limit
    return anvil.limber and gentle and not _is_forged(bent.leg) and _size(anvil, bent)[0] <= COLD_THICK


_PACES = {"sharp": "square corner", "curl": "curl", "bow": "curl"}
"""Rows of seconds for hot bends that take more than one push."""


def _case(anvil: Anvil, bent: Bent) -> str:
    """Which way of bending: a forged corner, a curl from its tip, round from both ends, over the horn or an edge."""
    if isinstance(bent.leg, EyeLeg):
        return "" if bent.leg.centred else "beside"
    if not isinstance(bent.leg, BendLeg):
        return ""
    if _is_forged(bent.leg):
        return "sharp"
    if bent.turned > ROUND_FROM:
        near = anvil.thick / 2
        at_an_end = bent.span.start <= near or bent.span.end >= anvil.length - near
        return "cold curl" if is_cold(anvil, bent) else "curl" if at_an_end else "bow"
    if bent.span.inside_radius <= 0.0:
        return "sharp"
    return "wide" if bent.span.inside_radius > _size(anvil, bent)[0] * (1 + 1e-9) else "close"


def _is_forged(leg: PathLeg) -> bool:
    return isinstance(leg, BendLeg) and leg.corner is not Corner.NONE


def _does(leg: PathLeg) -> str:
    return {EyeLeg: "curl", ScrollLeg: "scroll", HoopLeg: "hoop"}.get(type(leg), "bend")


def _says(leg: PathLeg) -> str:
    if not isinstance(leg, BendLeg):
        return ""
    return {
        Corner.SQUARE: "forged up to a square corner: drive the metal back into it from both legs",
        Corner.UPSET: "in the metal that was upset for it",
    }.get(leg.corner, "")


def _size(anvil: Anvil, bent: Bent) -> tuple[float, float]:
    """Thickness of the bar [m] in the plane of the bend and square to it, at its middle."""
    middle, turn = (bent.span.start + bent.span.end) / 2, getattr(bent.leg, "turn", 0.0)
    return thick_at(anvil.result.runs, middle, turn), thick_at(anvil.result.runs, middle, turn + pi / 2)


def _section(anvil: Anvil, at: float) -> Section:
    a, b, share, _ = box_at(anvil.result.runs, at)
    return section_at(a, b, share)


def _energy(anvil: Anvil, bent: Bent, stress: float) -> float:
    thick, wide = _size(anvil, bent)
    section = _section(anvil, (bent.span.start + bent.span.end) / 2)
    energy = bending_work(wide, thick, bent.turned, stress, rounded=is_round(section))
    if isinstance(bent.leg, BendLeg) and _is_forged(bent.leg):
        metal = (SQUARED if bent.leg.corner is Corner.SQUARE else TRUED) * wide * thick**2
        energy += forging_work(metal, section, _swelled(section), stress)
    return energy


def _swelled(section: Section) -> Section:
    """The section upset to half as much again, across and through alike."""
    swell = UPSET_BEFORE**0.5
    return replace(section, width=section.width * swell, thick=section.thick * swell)


def _corner_upset(anvil: Anvil, bent: Bent) -> Work:
    thick, wide = _size(anvil, bent)
    middle = (bent.span.start + bent.span.end) / 2
    section, reach = _section(anvil, middle), UPSET_BEFORE * thick
    metal = 2 * reach * wide * thick
    zone = anvil.within(middle - reach, middle + reach)
    energy = forging_work(metal, section, _swelled(section), anvil.stress("upset", zone))
    work = hot_work(anvil, "upset", bent.name, zone, energy)
    says = "where the corner is to come"
    return replace(work, before=section, after=_swelled(section), metal=metal, says=says)


def twist_works(anvil: Anvil) -> Iterator[Work]:
    """Every twist, each in one heat, and its straightening by mallet."""
    for number, check in enumerate(anvil.result.twists):
        name = check.twist.name or _named(anvil, check)
        zone, turns = (check.start, check.end), abs(check.twist.turns)
        section = _section(anvil, (check.start + check.end) / 2)
        energy = twisting_work(section, turns, anvil.stress("twist", zone))
        work = hot_work(anvil, "twist", name, zone, energy, turns, free=True)
        yield replace(work, before=section, after=section, amount=check.twist.turns, twists=(number,), whole=True)
        yield straightening(anvil, name, zone)


def _named(anvil: Anvil, check: TwistCheck) -> str:
    """A twist without a name is known by the stretch it lies in, where there is one alone."""
    inside = [r.name for r in anvil.result.runs if r.start < check.end - 1e-9 and r.end > check.start + 1e-9]
    return inside[0] if len(inside) == 1 else ""


def straightening(anvil: Anvil, name: str, zone: tuple[float, float]) -> Work:
    """A twisted stretch straightened at a falling heat, by light blows of wood that mark nothing."""
    return hot_work(anvil, "straighten", name, zone, 0.0, zone[1] - zone[0], free=True)


def scarf_works(anvil: Anvil) -> Iterator[Work]:
    """Scarfs of a closed bar's two ends and of welded eyes: made while the bar is straight."""
    if _closes(anvil):
        yield scarf(anvil, "datum end", 0.0)
        yield scarf(anvil, "other end", anvil.length)
    for bent in bent_legs(anvil):
        if isinstance(bent.leg, EyeLeg) and bent.leg.welded:
            yield scarf(anvil, bent.name, 0.0 if bent.span.start <= 0.0 else anvil.length)


def weld_works(anvil: Anvil) -> Iterator[Work]:
    """Welds of a closed bar and of welded eyes, each in one heat."""
    if _closes(anvil):
        reach = SCARF * anvil.thick
        yield weld(anvil, "joint", anvil.within(0.0, reach), 0.0)
    for bent in bent_legs(anvil):
        if isinstance(bent.leg, EyeLeg) and bent.leg.welded:
            yield weld(anvil, bent.name, bent.zone, 0.0 if bent.span.start <= 0.0 else anvil.length)


def _closes(anvil: Anvil) -> bool:
    return anvil.result.spec.closed and anvil.result.spec.welded


def scarf(anvil: Anvil, name: str, at: float) -> Work:
    """An end upset a little and drawn to a bevel, for a lap: half its metal moved, ln 2 of strain on the mean."""
    section = _section(anvil, at)
    thick = min(section.width, section.thick)
    metal = SCARF * thick * section.width * section.thick
    bevel = replace(section, thick=section.thick / 2)
    reach = 2 * SCARF * thick
    zone = anvil.within(at - reach, at + reach)
    work = hot_work(anvil, "scarf", name, zone, forging_work(metal, section, bevel, anvil.stress("scarf", zone)))
    return replace(work, before=section, metal=metal, amount=thick)


def weld(anvil: Anvil, name: str, zone: tuple[float, float], at: float) -> Work:
    """Two scarfs closed to one thickness of bar by light quick blows, in one heat."""
    section = _section(anvil, at)
    thick = min(section.width, section.thick)
    metal = SCARF * thick * section.width * section.thick
    energy = forging_work(metal, _swelled(section), section, anvil.stress("weld", zone))
    work = welded(hot_work(anvil, "weld", name, zone, energy), anvil.steel.name)
    return replace(work, before=section, after=section, metal=metal, amount=thick)
