"""The rules and figures that pieces are reckoned by."""

from bickern.book.forms import Takes
from bickern.book.shopfile.figures import length, no_figure, number, or_plain, rule, share, three
from bickern.book.told import Told
from bickern.measure.units.read import read_number
from bickern.parts.bar.allowances import BarRules, BendRule
from bickern.parts.bar.rules import corner_fullness
from bickern.parts.joint.spec import JointRules
from bickern.parts.ring.spec import RingRules
from bickern.parts.sheet.allowances import FoldRule, GrooveRule, SheetRules
from bickern.parts.sheet.rules import wire_allowance

T = Takes


def _full(told: Told, default: float) -> float:
    """How full forged corners are: a named rule's share, or one of the shop's own."""
    word, takes = "corners full", T.SHARE_OR_RULE
    named = rule(told, word, takes)
    if named:
        return corner_fullness(named)
    return default if no_figure(told, word, takes) else share(told, word, default, takes) or default


def _wire(told: Told, default: tuple[float, float]) -> tuple[float, float]:
    """Wire diameters and thicknesses of sheet in a wired edge: a named rule's, or diameters of the shop's own."""
    word, takes = "wire", T.NUMBER_OR_RULE
    named = rule(told, word, takes)
    if named:
        return wire_allowance(named)
    if no_figure(told, word, takes):
        return default
    own = told.read(word, takes, read_number)
    return default if own is None else (own, 0.0)


def bars_of(told: Told | None) -> BarRules:
    """The rules for bars."""
    plain = BarRules()
    if told is None:
        return plain
    return BarRules(
        BendRule(told.choice("bend", plain.bend)),
        told.choice("weld", plain.weld),
        told.choice("slit", plain.slit),
        _full(told, plain.corner_fullness),
        share(told, "twist shortening", plain.twist_shortening),
        three(told, "scale worked", plain.scale_worked),
        three(told, "scale kept", plain.scale_kept),
        number(told, "upset corner", plain.upset_corner),
        or_plain(told.length("tape"), plain.tape),
        length(told, "kerf", plain.kerf),
        told.choice("eye", plain.eye),
    )


def rings_of(told: Told | None) -> RingRules:
    """The rules for rings."""
    plain = RingRules()
    if told is None:
        return plain
    return RingRules(
        told.choice("weld", plain.weld),
        length(told, "kerf", plain.kerf),
        share(told, "cold limit", plain.cold_limit),
        or_plain(told.length("tape"), plain.tape),
        number(told, "cold yield in MPa", plain.yield_strength / 1e6) * 1e6,
        number(told, "stiffness in GPa", plain.stiffness / 1e9) * 1e9,
        told.choice("length", plain.length),
    )


def sheet_of(told: Told | None) -> SheetRules:
    """The rules for sheet."""
    plain = SheetRules()
    if told is None:
        return plain
    wire, sheets = _wire(told, (plain.wire, plain.wire_sheets))
    return SheetRules(
        fold=FoldRule(told.choice("fold", plain.fold)),
        groove=GrooveRule(told.choice("groove", plain.groove)),
        smallest_radius=number(told, "smallest radius", plain.smallest_radius),
        groove_widths=number(told, "groove widths", plain.groove_widths),
        groove_extra=number(told, "groove extra", plain.groove_extra),
        hem=number(told, "hem", plain.hem),
        double_hem=number(told, "double hem", plain.double_hem),
        wire=wire,
        wire_sheets=sheets,
        rivet_edge=number(told, "rivet edge", plain.rivet_edge),
        rivet_pitch=number(told, "rivet pitch", plain.rivet_pitch),
        rivet_clearance=length(told, "rivet clearance", plain.rivet_clearance),
        eye_straight=length(told, "eye straight", plain.eye_straight),
        kerf=length(told, "kerf", plain.kerf),
    )


def joints_of(told: Told | None) -> JointRules:
    """The rules for joints."""
    plain = JointRules()
    if told is None:
        return plain
    return JointRules(
        rivet=told.choice("rivet", plain.rivet),
        collar=told.choice("collar", plain.collar),
        tenon=told.choice("tenon", plain.tenon),
        rivet_head=number(told, "rivet head", plain.rivet_head),
        weld=told.choice("weld", plain.weld),
    )
