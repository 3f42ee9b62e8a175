"""One-off questions at the anvil, without a file. Sizes come as they are typed; answers in both systems.

Every question goes the same way as a job would: it builds the piece and reckons it with the shop's own rules.
"""

import math
from collections.abc import Callable
from typing import TypeVar

from bickern.desk.answer import Answer, Inputs, Row, gathered
from bickern.desk.thickness import said_thickness
from bickern.iron.gauge import resolve, thickness
from bickern.iron.section import Section, area, section_from
from bickern.iron.steel import density_of, find_steel
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, stop
from bickern.measure.source import Rule
from bickern.measure.units.read import read_angle, read_length, read_section, read_thickness
from bickern.measure.units.say import say_both, say_decimal, say_mass_both
from bickern.measure.units.words import INCH, GaugeSystem, GaugeWords, Read, System

P = TypeVar("P")


def ring(wire: str, inside: str, shop: Shop, system: System, *, long: str = "", closed: str = "butted") -> Answer:
    """Cut length of a ring or link: `3/16 rd`, inside across `3/4`."""
    from bickern.parts.ring.reckon import reckon_ring
    from bickern.parts.ring.spec import Closing, RingSpec

    across = read_length(inside, system)
    oval: Read[float] = read_length(long, system) if long else Read(0.0)
    read = gathered(section(wire, system), across, oval)
    if not read.ok or closed not in {c.value for c in Closing}:
        return _unread("Ring", read, *_one_of("closed", closed, [c.value for c in Closing]))
    spec = RingSpec(
        "ring", _section(read, 0), "mild", across.value, inside_long=oval.value or None, closing=Closing(closed)
    )
    return _answered("Ring", read, reckon_ring(spec, shop.ring, density_of("mild")), shop)


def taper(stock: str, end: str, length: str, shop: Shop, system: System, *, start: str = "") -> Answer:
    """How much bar a taper takes: stock `1/2 sq`, end `point` or `1/8 rd`, finished length `3`."""
    from bickern.parts.bar.reckon import reckon_bar
    from bickern.parts.bar.tracks import BarSpec, Metal, SectionGoal

    bar, tip, over = section(stock, system), section(end, system), read_length(length, system)
    thick_end = section(start, system) if start else bar
    read = gathered(bar, tip, over, thick_end)
    if not read.ok:
        return _unread("Taper", read)
    metal = Metal(over.value or 0.0, SectionGoal(_section(read, 3)), SectionGoal(_section(read, 1)), "taper")
    spec = BarSpec("taper", _section(read, 0), "mild", (metal,))
    return _answered("Taper", read, reckon_bar(spec, shop.bar, density_of("mild")), shop)


def cone(
    base: str, top: str, height: str, shop: Shop, system: System, *, sheet: str = "20 ga", sizes: str = "mean"
) -> Answer:
    """Pattern of a cone or frustum: base and top diameters, height, the sheet, and what the sizes are told of."""
    from bickern.parts.sheet.reckon import reckon_sheet
    from bickern.parts.sheet.spec import Cone, SheetSpec, Sized

    lengths = [read_length(t, system) for t in (base, top, height)]
    read = gathered(*lengths, sheet_thickness(sheet, shop, system))
    if not read.ok or sizes not in {s.value for s in Sized}:
        return _unread("Cone", read, *_one_of("sizes", sizes, [s.value for s in Sized]))
    b, t, h = (r.value or 0.0 for r in lengths)
    spec = SheetSpec("cone", _number(read, 3), "mild", Cone(b, t, h), Sized(sizes), gauge=sheet)
    return _answered("Cone", read, reckon_sheet(spec, shop.sheet, density_of("mild")), shop)


def weight(stock: str, length: str, shop: Shop, system: System, *, steel: str = "mild") -> Answer:
    """What a bar weighs."""
    read = gathered(section(stock, system), read_length(length, system), find_steel(steel))
    if not read.ok:
        return _unread("Weight", read)
    metal = find_steel(steel).value
    assert metal is not None
    one = area(_section(read, 0)) * metal.density.value
    rows = (
        ("weighs", say_mass_both(one * _number(read, 1), shop.style)),
        ("a foot", say_mass_both(one * 12 * INCH, shop.style)),
        ("a metre", say_mass_both(one, shop.style)),
        ("reckoned with", f"{metal.name}, {metal.density}"),
    )
    return Answer(f"{stock} x {length}", rows, read.findings)


def collar(bars: list[str], thick: str, shop: Shop, system: System) -> Answer:
    """Bar for a collar of thickness `thick` round bars that lie side by side, by every published rule."""
    from bickern.parts.joint.bundle import bundle_girth
    from bickern.parts.joint.rules import COLLAR_RULES, collar_length

    reads = [section(b, system) for b in bars]
    read = gathered(read_length(thick, system), *reads)
    if not read.ok or not bars:
        return _unread("Collar", read)
    t = _number(read, 0)
    round_all = bundle_girth([r.value for r in reads if r.value])
    rows = _by_rule(COLLAR_RULES, shop.joint.collar, lambda name: collar_length(name, round_all, t), shop)
    return Answer("Collar", (("round the bundle", say_both(round_all, shop.style)), *rows), read.findings)


def rivet(across: str, grip: str, shop: Shop, system: System) -> Answer:
    """Length of a rivet past its own head, by every published rule, and the hole for it."""
    from bickern.parts.joint.holes import hole_for_rivet
    from bickern.parts.joint.rules import RIVET_RULES, rivet_length

    read = gathered(read_length(across, system), read_length(grip, system))
    if not read.ok:
        return _unread("Rivet", read)
    d, g = _number(read, 0), _number(read, 1)
    rows = _by_rule(RIVET_RULES, shop.joint.rivet, lambda name: rivet_length(name, d, g), shop)
    return Answer("Rivet", (*rows, ("hole, at most", say_both(hole_for_rivet(d), shop.style, fit=True))), read.findings)


def bend(sheet: str, angle: str, inside_radius: str, shop: Shop, system: System) -> Answer:
    """Length that a cold bend in sheet takes, and what to take off the outside sizes."""
    from bickern.parts.sheet.bends import fold_deduction, fold_length

    read = gathered(sheet_thickness(sheet, shop, system), read_angle(angle), read_length(inside_radius, system))
    if not read.ok:
        return _unread("Bend", read)
    t, turn, r = (_number(read, i) for i in range(3))
    rule = shop.sheet.fold
    rows: list[Row] = [("length in the bend", say_both(fold_length(r, t, turn, rule), shop.style, fit=True))]
    if turn <= math.pi / 2:
        off = fold_deduction(r, t, turn, rule)
        rows.append(("take off the sum of both outside sizes", say_both(off, shop.style, fit=True)))
    swapped = (_small_angle(turn),) if turn < math.radians(1) else ()
    return Answer("Bend", (*rows, ("rule", rule)), (*read.findings, *swapped))


def _small_angle(turn: float) -> Finding:
    says = f"the angle is {math.degrees(turn):.3g} degrees"
    return stop("angle-next-to-nothing", says, "the order is: sheet, angle, inside radius")


def gauge(number: str, shop: Shop) -> Answer:
    """What a gauge number means in each system: `16`, `16 ga`."""
    words = number.lower().removesuffix("gauge").removesuffix("ga").strip()
    if not (words.isascii() and words.isdigit() and len(words) < 4):
        return Answer("Gauge", (), (stop("no-such-gauge", f"“{number}” is not a gauge number", "try 8 to 26"),))
    known = [(s, t) for s in GaugeSystem if (t := thickness(int(words), s)) is not None]
    if not known:
        return Answer("Gauge", (), (stop("no-such-gauge", f"no table has a gauge {words}", "try 8 to 26"),))
    rows = tuple((f"{words} ga, {s}", said_thickness(t, shop.style)) for s, t in known)
    return Answer(f"{words} gauge", rows)


def convert(text: str, shop: Shop, system: System) -> Answer:
    """A length in both systems, exact and as the tape reads it."""
    read = gathered(read_length(text, system, signed=True))
    if not read.ok:
        return _unread("Length", read)
    m = _number(read, 0)
    rows = (
        ("on the tape", say_both(m, shop.style)),
        ("inches", say_decimal(m / INCH, 4, shop.style)),
        ("millimetres", say_decimal(m * 1000, 3, shop.style)),
    )
    return Answer(text, rows, read.findings)


def section(text: str, system: System) -> Read[Section]:
    """A bar's section as typed."""
    words = read_section(text, system)
    if words.value is None:
        return Read(None, words.findings)
    made = section_from(words.value)
    return Read(made.value, (*words.findings, *made.findings))


def sheet_thickness(text: str, shop: Shop, system: System) -> Read[float]:
    """Thickness [m] of sheet as typed: a gauge in the shop's system, or a size."""
    read = read_thickness(text, system)
    if isinstance(read.value, GaugeWords):
        meant = resolve(read.value, shop.gauge)
        return Read(meant.value, (*read.findings, *meant.findings))
    return Read(read.value, read.findings)


def _by_rule(rules: tuple[Rule, ...], chosen: str, length: Callable[[str], float], shop: Shop) -> tuple[Row, ...]:
    star = {chosen: "  (this shop's rule)"}
    return tuple((r.name + star.get(r.name, ""), say_both(length(r.name), shop.style)) for r in rules)


def _answered(title: str, read: Inputs, done: Read[P], shop: Shop) -> Answer:
    from bickern.desk.piece_rows import rows_of

    rows = rows_of(done.value, shop.style) if done.value is not None else ()
    return Answer(title, rows, tuple(dict.fromkeys((*read.findings, *done.findings))))


def _unread(title: str, read: Inputs, *more: Finding) -> Answer:
    return Answer(title, (), (*read.findings, *more))


def _one_of(what: str, said: str, known: list[str]) -> tuple[Finding, ...]:
    return () if said in known else (stop("unknown-word", f"{what} cannot be “{said}”", f"say {', '.join(known)}"),)


def _section(read: Inputs, index: int) -> Section:
    value = read.values[index]
    assert isinstance(value, Section)
    return value


def _number(read: Inputs, index: int) -> float:
    value = read.values[index]
    assert isinstance(value, float)
    return value
