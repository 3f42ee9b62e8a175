"""The shop file: this forge's own figures and the published rules it follows, from text."""

from collections.abc import Callable
from dataclasses import replace
from typing import TypeVar

from bickern.book.forms import GAUGES, Form, Key, Takes
from bickern.book.text import Items, Value, Word, read_page
from bickern.book.told import Reading, Told, guess, sized, tell
from bickern.iron.colour import TABLES
from bickern.iron.flame import Flame
from bickern.making.shop import Fire, Hand, Shop
from bickern.measure.finding import Finding, stop
from bickern.measure.source import Rule
from bickern.measure.units.read import read_length, read_mass, read_number, read_share, read_temperature
from bickern.measure.units.words import ZERO_C, GaugeSystem, Read, Style, System
from bickern.parts.bar.allowances import BarRules, BendRule
from bickern.parts.bar.rules import BEND_RULES, FULLNESS_RULES, SLIT_RULES, corner_fullness
from bickern.parts.eye import EYE_RULES
from bickern.parts.joint.rules import COLLAR_RULES, RIVET_RULES, TENON_RULES
from bickern.parts.joint.spec import JointRules
from bickern.parts.ring.rules import RING_RULES
from bickern.parts.ring.spec import RingRules
from bickern.parts.sheet.allowances import FoldRule, GrooveRule, SheetRules
from bickern.parts.sheet.rules import FOLD_RULES, SEAM_RULES, WIRE_RULES, wire_allowance
from bickern.parts.weld import WELD_RULES

T = Takes
V = TypeVar("V")


def _names(rules: tuple[Rule, ...], about: str = "") -> tuple[str, ...]:
    return tuple(str(r.name) for r in rules if about in ("", r.about))


_WELD = Key("weld", T.CHOICE, "allowance of a forge weld", _names(WELD_RULES))
_TAPE = Key("tape", T.LENGTH, "step to which `cut this` is rounded up")
_KERF = Key("kerf", T.ANY_LENGTH, "metal lost to one cut")
PRINT = Form("print", "How sizes are printed.", (
    Key("fractions", T.CHOICE, "the finest part of an inch", ("8", "16", "32", "64")),
    Key("fit fractions", T.CHOICE, "the same, where parts must fit", ("16", "32", "64", "128")),
    Key("millimetres", T.LENGTH, "the finest step in millimetres"),
    Key("fit millimetres", T.LENGTH, "the same, where parts must fit"),
    Key("decimal comma", T.YES, "millimetres with a comma"),
))  # fmt: skip
FIRE = Form("fire", "The fire.", (
    Key("name", T.TEXT, "what it is"),
    Key("longest heat", T.LENGTH, "the longest hot zone it gives"),
    Key("opening", T.LENGTH, "the widest piece that enters"),
    Key("temperature", T.HEAT, "how hot its heart is"),
    Key("flame", T.CHOICE, "how much air it leaves, so how fast iron scales in it", tuple(Flame)),
    Key("irons", T.COUNT, "how many irons lie in it at once"),
))  # fmt: skip
HAND = Form("hand", "How this smith strikes.", (
    Key("hammer", T.MASS, "weight of the hammer used most"),
    Key("speed in m/s", T.NUMBER, "how fast it meets the iron"),
    Key("useful blow in J", T.NUMBER, "of one blow, what is left as work in the iron"),
    Key("blows a second", T.NUMBER, "while the iron is struck"),
    Key("contact in W/m2K", T.NUMBER, "heat to the anvil while hammering: how well, over the whole skin"),
    Key("carry in seconds", T.NUMBER, "from the fire to the first blow"),
    Key("colours", T.CHOICE, "whose words for heat colours are printed", tuple(TABLES)),
))  # fmt: skip
BARS = Form("bars", "Rules and figures for bars.", (
    Key("bend", T.CHOICE, "where the length of a bend is taken", _names(BEND_RULES)),
    _WELD,
    Key("slit", T.CHOICE, "length of a slit", _names(SLIT_RULES)),
    Key("eye", T.CHOICE, "length of an eye or a hoop", _names(EYE_RULES)),
    Key(
        "corners full",
        T.SHARE_OR_RULE,
        "share of a sharp-cornered forged section that is really there",
        _names(FULLNESS_RULES),
    ),
    Key("twist shortening", T.SHARE, "share of the twisted length lost"),
    Key("scale worked", T.SHARES_OF_THREE, "lost to the fire where 3/8 sq is forged: low, likely, high"),
    Key("scale kept", T.SHARES_OF_THREE, "lost to the fire where it is only heated"),
    Key("upset corner", T.NUMBER, "extra length of an upset corner, in thicknesses"),
    _TAPE, _KERF,
))  # fmt: skip
RINGS = Form("rings", "Rules and figures for rings.", (
    Key("length", T.CHOICE, "length of a ring or a link", _names(RING_RULES)),
    _WELD, _KERF, Key("cold limit", T.SHARE, "strain up to which rings are bent and closed cold"), _TAPE,
    Key("cold yield in MPa", T.NUMBER, "yield of the wire, for the spring of a coil"),
    Key("stiffness in GPa", T.NUMBER, "its modulus of elasticity"),
))  # fmt: skip
SHEET = Form("sheet", "Rules and figures for sheet.", (
    Key("fold", T.CHOICE, "where the length of a fold is taken", _names(FOLD_RULES, "fold")),
    Key("groove", T.CHOICE, "how a grooved seam is shared", _names(SEAM_RULES, "grooved seam")),
    Key("smallest radius", T.NUMBER, "inside radius of a fold, in thicknesses"),
    Key("groove widths", T.NUMBER, "widths of a grooved seam in all"),
    Key("groove extra", T.NUMBER, "more for its bends, in thicknesses"),
    Key("hem", T.NUMBER, "widths added for a hem"),
    Key("double hem", T.NUMBER, "widths added for a double hem"),
    Key("wire", T.NUMBER_OR_RULE, "wire diameters added for a wired edge", _names(WIRE_RULES)),
    Key("rivet edge", T.NUMBER, "least distance from the edge, in rivet diameters"),
    Key("rivet pitch", T.NUMBER, "least distance from rivet to rivet, in rivet diameters"),
    Key("rivet clearance", T.ANY_LENGTH, "hole larger than the rivet"),
    Key("eye straight", T.ANY_LENGTH, "flat between a rolled eye and the edge"),
    _KERF,
))  # fmt: skip
JOINTS = Form("joints", "Rules and figures for joints.", (
    Key("rivet", T.CHOICE, "length of a rivet", _names(RIVET_RULES)),
    Key("rivet head", T.NUMBER, "the shop's own figure, in diameters past the grip"),
    Key("collar", T.CHOICE, "length of a collar", _names(COLLAR_RULES)),
    Key("tenon", T.CHOICE, "length of a tenon", _names(TENON_RULES)),
    _WELD,
))  # fmt: skip
SHOP = Form("shop", "This forge.", (
    Key("shop", T.TEXT, "its name", needed=True),
    Key("units", T.CHOICE, "what a bare number means here, and which system is printed first", ("in", "mm")),
    Key("english", T.CHOICE, "which shop words are printed", ("US", "UK")),
    Key("gauge", T.CHOICE, "which numbers a bare gauge means", GAUGES),
    Key("print", T.GROUP, "how sizes are printed"),
    Key("fire", T.GROUP, "the fire"),
    Key("hand", T.GROUP, "how this smith strikes"),
    Key("tools", T.TEXTS, "other tools there are, in words"),
    Key("drifts", T.LENGTHS, "drifts there are"),
    Key("tongs", T.LENGTHS, "sizes that the tongs hold"),
    Key("currency", T.TEXT, "the money, as GBP or USD"),
    Key("rate", T.NUMBER, "price of an hour"),
    Key("bars", T.GROUP, "rules for bars"),
    Key("rings", T.GROUP, "rules for rings"),
    Key("sheet", T.GROUP, "rules for sheet"),
    Key("joints", T.GROUP, "rules for joints"),
))  # fmt: skip
FORMS = (SHOP, PRINT, FIRE, HAND, BARS, RINGS, SHEET, JOINTS)
"""Every group of a shop file."""


def read_shop(text: str | bytes, file: str) -> tuple[Shop, tuple[Finding, ...]]:
    """The shop; where a figure is not told or at fault, the house's own stands in and a finding says so."""
    page = read_page(text, file, "shop")
    if page.top is None:
        return Shop(), page.findings
    reading = Reading(_system(page.top.get("units")), findings=list(page.findings))
    told = tell(reading, page.top, SHOP)
    shop = Shop() if told is None else _shop(told)
    return shop, tuple(sorted(reading.findings, key=lambda f: (f.where.line, f.where.column)))


def _system(said: Value | None) -> System | None:
    return {"in": System.INCH, "mm": System.MM}.get(said.text.strip().lower()) if isinstance(said, Word) else None


def _shop(told: Told) -> Shop:
    plain = Shop()
    return Shop(
        told.text("shop"),
        _style(_below(told, PRINT), System(told.choice("units", "in"))),
        told.choice("english", plain.english),
        GaugeSystem(told.choice("gauge", plain.gauge)),
        _fire(_below(told, FIRE)),
        _lengths(told, "drifts"),
        _lengths(told, "tongs"),
        _bars(_below(told, BARS)),
        _rings(_below(told, RINGS)),
        _sheet(_below(told, SHEET)),
        _joints(_below(told, JOINTS)),
        told.text("currency"),
        _rate(told),
        _hand(_below(told, HAND)),
        told.texts("tools"),
    )


def _below(told: Told, form: Form) -> Told | None:
    value = told.value(form.name, T.GROUP)
    return None if value is None else tell(told.reading, value, form, form.name)


def _style(told: Told | None, first: System) -> Style:
    plain = Style(first=first)
    if told is None:
        return plain
    return Style(
        first,
        int(told.choice("fractions", str(plain.inch_denominator))),
        (told.length("millimetres") or plain.mm_step / 1000) * 1000,
        int(told.choice("fit fractions", str(plain.fit_denominator))),
        (told.length("fit millimetres") or plain.fit_mm_step / 1000) * 1000,
        told.yes("decimal comma", plain.comma),
    )


def _fire(told: Told | None) -> Fire:
    if told is None:
        return Fire()
    plain = Fire()
    return Fire(
        told.text("name"),
        _or(_sensible(told, "longest heat", T.LENGTH, told.length_of), plain.longest),
        told.length("opening") or 0.0,
        _or(_sensible(told, "temperature", T.HEAT, read_temperature), plain.temperature),
        Flame(told.choice("flame", plain.flame)),
        told.count("irons", plain.irons),
    )


SENSIBLE: dict[str, tuple[float, float, str]] = {
    "longest heat": (0.02, 2.0, "from 3/4 in to 6 ft (20 mm to 2 m)"),
    "temperature": (800 + ZERO_C, 1700 + ZERO_C, "from 800 to 1700 C"),
    "hammer": (0.1, 15.0, "from 1/4 lb to 33 lb (0.1 to 15 kg)"),
    "speed in m/s": (1.0, 15.0, "from 1 to 15 m/s"),
    "useful blow in J": (0.1, 1000.0, "from 0.1 to 1000 J"),
    "blows a second": (0.2, 5.0, "from 0.2 to 5 a second"),
    "contact in W/m2K": (0.0, 5000.0, "from 0 to 5000 W/m2K"),
    "carry in seconds": (0.0, 60.0, "from 0 to 60 s"),
}
"""Least and greatest that can be meant by a figure of a fire or a hand: choices of ours, wide on purpose."""


def _sensible(told: Told, word: str, takes: Takes, reader: Callable[[str], Read[float]]) -> float | None:
    """A figure that a smith can mean; None where it is not told, and with a finding where it cannot be meant."""
    found, (least, most, says) = told.read(word, takes, reader), SENSIBLE[word]
    if found is None or least <= found <= most:
        return found
    told.fault("figure-out-of-range", f"`{word}` is {says}", "look for a slipped digit or another unit", word)
    return None


def _hand(told: Told | None) -> Hand:
    plain = Hand()
    if told is None:
        return plain

    def number(word: str, default: float) -> float:
        return _or(_sensible(told, word, T.NUMBER, read_number), default)

    hand = Hand(
        _or(_sensible(told, "hammer", T.MASS, read_mass), plain.hammer),
        number("speed in m/s", plain.speed),
        plain.useful,
        number("blows a second", plain.pace),
        number("contact in W/m2K", plain.contact),
        number("carry in seconds", plain.carry),
        told.choice("colours", plain.colours),
    )
    return replace(hand, useful=_useful(told, hand))


def _useful(told: Told, hand: Hand) -> float:
    """The share of a blow that is useful, from the useful joules that are told."""
    told_joules = _sensible(told, "useful blow in J", T.NUMBER, read_number)
    if told_joules is None:
        return hand.useful
    whole = hand.hammer * hand.speed**2 / 2
    if told_joules < whole:
        return told_joules / whole
    says = f"a useful blow of {told_joules:g} J is more than this hammer has in all ({whole:.1f} J)"
    told.fault("more-than-the-blow", says, "about a third of the blow is useful work", "useful blow in J")
    return hand.useful


def _rate(told: Told) -> str:
    """The price of an hour, checked to be a number and kept as written."""
    word = told.word("rate", T.NUMBER)
    if word is None or told.read("rate", T.NUMBER, read_number) is None:
        return ""
    return word.text.strip()


def _or(value: V | None, default: V) -> V:
    return default if value is None else value


def _number(told: Told, word: str, default: float) -> float:
    return _or(told.read(word, T.NUMBER, read_number), default)


def _length(told: Told, word: str, default: float) -> float:
    """A length that may be nothing."""
    found = told.any_length(word)
    if found is not None and found < 0:
        told.fault("negative-size", f"`{word}` is less than nothing", "", word)
        return default
    return _or(found, default)


def _share(told: Told, word: str, default: float, takes: Takes = T.SHARE) -> float:
    value = told.word(word, takes)
    return default if value is None else _or(told.reading.take(read_share(value.text), value.where), default)


def _rule(told: Told, word: str, takes: Takes) -> str:
    """The rule that is named where a figure may stand as well; "" where nothing is told, or a figure."""
    value, key = told.word(word, takes), told.form.key(word)
    if value is None or key is None:
        return ""
    return {c.lower(): c for c in key.choices}.get(" ".join(value.text.lower().split()), "")


def _no_figure(told: Told, word: str, takes: Takes) -> bool:
    """Whether what is told is neither a rule with a row nor any figure; a finding then says so."""
    value, key = told.word(word, takes), told.form.key(word)
    if value is None or key is None or any(c.isdigit() for c in value.text):
        return False
    says = f"`{word}` is {takes} ({', '.join(key.choices)}); here it is `{value.text}`"
    told.fault("not-a-choice", says, guess(value.text, key.choices), word)
    return True


def _full(told: Told, default: float) -> float:
    """How full forged corners are: a named rule's share, or one of the shop's own."""
    word, takes = "corners full", T.SHARE_OR_RULE
    named = _rule(told, word, takes)
    if named:
        return corner_fullness(named)
    return default if _no_figure(told, word, takes) else _share(told, word, default, takes) or default


def _wire(told: Told, default: tuple[float, float]) -> tuple[float, float]:
    """Wire diameters and thicknesses of sheet in a wired edge: a named rule's, or diameters of the shop's own."""
    word, takes = "wire", T.NUMBER_OR_RULE
    named = _rule(told, word, takes)
    if named:
        return wire_allowance(named)
    if _no_figure(told, word, takes):
        return default
    own = told.read(word, takes, read_number)
    return default if own is None else (own, 0.0)


def _three(told: Told, word: str, default: tuple[float, float, float]) -> tuple[float, float, float]:
    found = _each(told, word, T.SHARES_OF_THREE, read_share)
    if not told.has(word):
        return default
    if len(found) == 3 and found[0] <= found[1] <= found[2]:
        return (found[0], found[1], found[2])
    told.fault(
        "three-shares", f"`{word}` wants three percentages, low, likely and high", "write `[0.8 %, 2.5 %, 5 %]`", word
    )
    return default


def _each(told: Told, word: str, takes: Takes, reader: Callable[[str], Read[float]]) -> tuple[float, ...]:
    value = told.value(word, takes)
    items = () if value is None else value.items if isinstance(value, Items) else (value,)
    found = []
    for item in items:
        if not isinstance(item, Word):
            told.reading.say(stop("one-value", f"`{word}` takes {takes}", "write `[1/4, 3/8]`"), item.where)
            continue
        number = told.reading.take(reader(item.text), item.where)
        if number is not None:
            found.append(number)
    return tuple(found)


def _lengths(told: Told, word: str) -> tuple[float, ...]:
    def one(text: str) -> Read[float]:
        return sized(Word(text, told.where, 0, 0), lambda t: read_length(t, told.reading.system))

    return tuple(sorted(_each(told, word, T.LENGTHS, one)))


def _bars(told: Told | None) -> BarRules:
    plain = BarRules()
    if told is None:
        return plain
    return BarRules(
        BendRule(told.choice("bend", plain.bend)),
        told.choice("weld", plain.weld),
        told.choice("slit", plain.slit),
        _full(told, plain.corner_fullness),
        _share(told, "twist shortening", plain.twist_shortening),
        _three(told, "scale worked", plain.scale_worked),
        _three(told, "scale kept", plain.scale_kept),
        _number(told, "upset corner", plain.upset_corner),
        _or(told.length("tape"), plain.tape),
        _length(told, "kerf", plain.kerf),
        told.choice("eye", plain.eye),
    )


def _rings(told: Told | None) -> RingRules:
    plain = RingRules()
    if told is None:
        return plain
    return RingRules(
        told.choice("weld", plain.weld),
        _length(told, "kerf", plain.kerf),
        _share(told, "cold limit", plain.cold_limit),
        _or(told.length("tape"), plain.tape),
        _number(told, "cold yield in MPa", plain.yield_strength / 1e6) * 1e6,
        _number(told, "stiffness in GPa", plain.stiffness / 1e9) * 1e9,
        told.choice("length", plain.length),
    )


def _sheet(told: Told | None) -> SheetRules:
    plain = SheetRules()
    if told is None:
        return plain
    wire, sheets = _wire(told, (plain.wire, plain.wire_sheets))
    return SheetRules(
        fold=FoldRule(told.choice("fold", plain.fold)),
        groove=GrooveRule(told.choice("groove", plain.groove)),
        smallest_radius=_number(told, "smallest radius", plain.smallest_radius),
        groove_widths=_number(told, "groove widths", plain.groove_widths),
        groove_extra=_number(told, "groove extra", plain.groove_extra),
        hem=_number(told, "hem", plain.hem),
        double_hem=_number(told, "double hem", plain.double_hem),
        wire=wire,
        wire_sheets=sheets,
        rivet_edge=_number(told, "rivet edge", plain.rivet_edge),
        rivet_pitch=_number(told, "rivet pitch", plain.rivet_pitch),
        rivet_clearance=_length(told, "rivet clearance", plain.rivet_clearance),
        eye_straight=_length(told, "eye straight", plain.eye_straight),
        kerf=_length(told, "kerf", plain.kerf),
    )


def _joints(told: Told | None) -> JointRules:
    plain = JointRules()
    if told is None:
        return plain
    return JointRules(
        rivet=told.choice("rivet", plain.rivet),
        collar=told.choice("collar", plain.collar),
        tenon=told.choice("tenon", plain.tenon),
        rivet_head=_number(told, "rivet head", plain.rivet_head),
        weld=told.choice("weld", plain.weld),
    )
