"""The main question of this room: how much metal a joint takes, and what other published rules would say."""

from collections.abc import Callable
from dataclasses import dataclass
from math import pi

from bickern.iron.section import area
from bickern.measure.finding import Finding, note, stop, warn
from bickern.measure.units.say import say_both, say_down_both
from bickern.measure.units.words import Read, Style
from bickern.parts.joint.heads import HEADS, Head, filling_length, head_length
from bickern.parts.joint.holes import Clearance, hole_for_rivet, hole_for_screw
from bickern.parts.joint.rules import (
    COLLAR_RULES,
    PIN_RULE,
    RIVET_RULES,
    SHOPS_OWN,
    TENON_RULES,
    collar_length,
    rivet_length,
    tenon_length,
    wrap_length,
)
from bickern.parts.joint.spec import JointKind, JointResult, JointRules, JointSpec
from bickern.parts.weld import WELD_RULES, weld_allowance

LONG_GRIP = 5.0
"""Grip in rivet diameters above which a rivet bends in its hole before it fills it (from memory)."""

Also = tuple[tuple[str, float, str], ...]


@dataclass(frozen=True, slots=True)
class _Asked:
    """A joint with all it needs; `grip` [m] is the girth for a collar or a wrap; 0 where not known.

    `drawn`: the place whose own bar is the pin.
    """

    spec: JointSpec
    rules: JointRules
    density: float
    grip: float
    drawn: str = ""


def reckon_joint(
    spec: JointSpec,
    rules: JointRules,
    density: float,
    grip: float | None,
    girth: float | None = None,
    drawn: str = "",
) -> Read[JointResult]:
    """Metal of a joint; `density` [kg/m3], `grip` [m] the thickness it goes through, None where that is not known.

    `girth` [m] is that of the bundle a collar or a wrap goes round (`bundle.bundle_girth`). Where grip or girth is not
    known, a finding says so and the metal holds the head or the laps alone. `drawn` names the place that is the pin
    itself: such a pin is metal of its piece, and is not cut a second time.
    """
    faults = _faults(spec, grip, girth)
    if faults:
        return Read(None, tuple(f.at(spec.where) for f in faults))
    wanted = girth if spec.kind in _ROUND else grip
    result = _BY_KIND[spec.kind](_Asked(spec, rules, density, wanted or 0.0, drawn))
    findings = tuple(f.at(spec.where) for f in (*_unknown(spec, wanted), *_cares(spec, wanted or 0.0)))
    made = JointResult(spec, result.metal, result.grip, result.mass, result.says, result.also, findings)
    return Read(made, findings)


_ROUND = (JointKind.COLLAR, JointKind.WRAP)
_SIZED = (JointKind.RIVET, JointKind.TENON, JointKind.PIN, JointKind.SCREW)
_GRIPPING = (JointKind.RIVET, JointKind.TENON, JointKind.PIN, JointKind.WELD)


def _faults(spec: JointSpec, grip: float | None, girth: float | None) -> tuple[Finding, ...]:
    if spec.number < 1:
        return (stop("no-joints", f"{spec.number} of a {spec.kind} is nothing to make.", "Write 1 or more."),)
    if spec.kind in _SIZED and spec.size <= 0:
        return (stop("no-joint-size", f"The {spec.kind} has no size.", f"Say how thick the {spec.kind} is."),)
    if spec.kind in _ROUND and (spec.section is None or spec.section.thick <= 0 or spec.section.width <= 0):
        return (
            stop("no-joint-size", f"The {spec.kind} has no bar.", f"Say its bar, such as `{spec.kind}: 1/8 x 1/2`."),
        )
    if (grip is not None and grip < 0) or (girth is not None and girth < 0):
        return (stop("grip-below-nothing", f"The {spec.kind} grips less than nothing.", "Look at the thicknesses."),)
    return ()


def _unknown(spec: JointSpec, wanted: float | None) -> tuple[Finding, ...]:
    if wanted:
        return ()
    if spec.kind in _ROUND:
        says = f"How far it is round the bars in the {spec.kind} is not known: only its laps are reckoned."
        return (warn("girth-not-known", says, "Measure round them with a string and add that."),)
    if spec.kind in _GRIPPING:
        says = f"How thick the metal is that the {spec.kind} goes through is not known: add it to the length."
        return (warn("grip-not-known", says, "Write `grip:`, or name places whose thickness is known."),)
    return ()


def _cares(spec: JointSpec, grip: float) -> tuple[Finding, ...]:
    if spec.kind is JointKind.RIVET and grip > LONG_GRIP * spec.size:
        says = f"A rivet of {_both(spec.size)} through {_both(grip)} may bend in its hole before it fills it."
        return (note("long-rivet", says, "Take a thicker rivet, or heat it and upset it from the middle."),)
    if spec.kind is JointKind.SCREW and _screw_hole(spec.size) is None:
        says = f"No clearance hole is known here for a screw of {_both(spec.size)}."
        return (note("screw-hole-not-known", says, "Drill a trial hole in scrap of the same thickness."),)
    return ()


def _rivet(asked: _Asked) -> JointResult:
    d, grip, own = asked.spec.size, asked.grip, asked.rules.rivet_head
    metal = rivet_length(asked.rules.rivet, d, grip, own)
    rows = [r for r in RIVET_RULES if r.name not in (asked.rules.rivet, SHOPS_OWN)]
    also = tuple((r.name, rivet_length(r.name, d, grip), f"{r.formula}; {r.source}") for r in rows)
    mass = pi / 4 * d**2 * (metal + head_length(Head.SNAP, d)) * asked.density * asked.spec.number
    says = f"rivet past its head: {asked.rules.rivet}; hole no bigger than {say_down_both(hole_for_rivet(d), Style())}"
    return JointResult(asked.spec, metal, grip, mass, says, (*also, *_by_volume(d, grip)))


def _by_volume(d: float, grip: float) -> Also:
    """The length that just fills the head and the hole, with nothing lost: side by side with the rules of thumb."""
    fill = filling_length(d, hole_for_rivet(d), grip)
    return tuple(
        (f"volume of a {head} head and of the hole", grip + fill + head_length(head, d), str(HEADS[head].source))
        for head in (Head.SNAP, Head.COUNTERSUNK)
    )


def _tenon(asked: _Asked) -> JointResult:
    d, name = asked.spec.size, asked.rules.tenon
    also = tuple((r.name, tenon_length(r.name, d, asked.grip), str(r.source)) for r in TENON_RULES if r.name != name)
    says = f"tenon past its shoulder: {name}; it is drawn from its own bar"
    return JointResult(asked.spec, tenon_length(name, d, asked.grip), asked.grip, 0.0, says, also)


def _collar(asked: _Asked) -> JointResult:
    section, name = asked.spec.section, asked.rules.collar
    assert section is not None  # looked at in `_faults`
    metal = collar_length(name, asked.grip, section.thick) + asked.rules.collar_more * section.thick
    rows = [r for r in COLLAR_RULES if r.name != name]
    also = tuple((r.name, collar_length(r.name, asked.grip, section.thick), str(r.source)) for r in rows)
    mass = area(section) * metal * asked.density * asked.spec.number
    return JointResult(asked.spec, metal, asked.grip, mass, f"collar: {name}; make one first", also)


def _wrap(asked: _Asked) -> JointResult:
    section = asked.spec.section
    assert section is not None  # looked at in `_faults`
    metal = wrap_length(asked.spec.number, asked.grip, section.thick)
    says = "wrap: turns x (girth + pi x its thickness); add the tails"
    return JointResult(asked.spec, metal, asked.grip, area(section) * metal * asked.density, says)


def _weld(asked: _Asked) -> JointResult:
    """The bars lie one on the other: each takes its share of the thickness."""
    thick, name = asked.grip / max(1, len(asked.spec.through)), asked.rules.weld
    rows = [r for r in WELD_RULES if r.name != name]
    also = tuple((r.name, weld_allowance(r.name, thick), str(r.source)) for r in rows)
    says = f"forge weld: {name} more on each bar, to upset and scarf"
    metal = weld_allowance(name, thick) * asked.rules.weld_times
    return JointResult(asked.spec, metal, asked.grip, 0.0, says, also)


def _pin(asked: _Asked) -> JointResult:
    if asked.drawn:
        return JointResult(asked.spec, 0.0, asked.grip, 0.0, f"pin: {asked.drawn} is the pin, metal of its own bar")
    metal = asked.grip + 2 * asked.spec.size
    mass = pi / 4 * asked.spec.size**2 * metal * asked.density * asked.spec.number
    return JointResult(asked.spec, metal, asked.grip, mass, f"pin: {PIN_RULE.name}")


def _screw(asked: _Asked) -> JointResult:
    hole = _screw_hole(asked.spec.size)
    says = f"screw hole: {_fit(hole)}, ISO 273 medium" if hole else "screw hole: not known here"
    also = tuple((f"hole, {s}", h, "ISO 273") for s in Clearance if (h := hole_for_screw(asked.spec.size, s)))
    return JointResult(asked.spec, 0.0, asked.grip, 0.0, says, also)


def _ring(asked: _Asked) -> JointResult:
    how = "hung on" if asked.spec.hooked else "closed through"
    what = "hook" if asked.spec.hooked else "ring"
    return JointResult(asked.spec, 0.0, asked.grip, 0.0, f"{what} {asked.spec.ring} {how} {_named(asked.spec)}")


_BY_KIND: dict[JointKind, Callable[[_Asked], JointResult]] = {
    JointKind.RIVET: _rivet,
    JointKind.TENON: _tenon,
    JointKind.COLLAR: _collar,
    JointKind.WRAP: _wrap,
    JointKind.WELD: _weld,
    JointKind.PIN: _pin,
    JointKind.SCREW: _screw,
    JointKind.RING: _ring,
}


def _named(spec: JointSpec) -> str:
    return " and ".join(spec.through)


def _screw_hole(size: float) -> float | None:
    return hole_for_screw(size, Clearance.MEDIUM)


def _both(length: float) -> str:
    return say_both(length, Style())


def _fit(length: float) -> str:
    return say_both(length, Style(), fit=True)
