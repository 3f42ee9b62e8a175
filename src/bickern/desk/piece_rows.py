"""What was reckoned for a piece, as rows of words in both systems: for terminals and pages alike."""

from bickern.desk.answer import Row
from bickern.desk.thickness import said_thickness
from bickern.iron.section import Section, words_of
from bickern.measure.spread import Spread
from bickern.measure.units.say import (
    say_both,
    say_mass_both,
    say_percent,
    say_section_both,
    say_turns,
    say_up_both,
)
from bickern.measure.units.words import Style
from bickern.paper.copy import PieceResult
from bickern.paper.sheets.wording import figure as figure_words
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.spec import ChainResult, Coil, RingResult
from bickern.parts.sheet.result import SheetFit, SheetResult
from bickern.parts.sheet.spec import Bowl, FlatOutline, Pan

CUT = "CUT THIS"
"""The row that the saw follows; it stands out wherever it is shown."""

_NUMBER = {JointKind.WRAP: "turns"}
_TAKES = {JointKind.TENON: "past its shoulder", JointKind.WELD: "more on each bar"}
"""Joints whose metal is no piece of its own: it is drawn from the bars that they join."""


def rows_of(piece: object, style: Style, *, every_rule: bool = True) -> tuple[Row, ...]:
    """Rows for any piece or joint reckoned; other published rules each by itself, or all in one row."""
    if isinstance(piece, BarResult):
        rows, also = _bar(piece, style), piece.also
    elif isinstance(piece, RingResult):
        rows, also = _ring(piece, style), piece.also
    elif isinstance(piece, SheetResult):
        rows, also = _sheet(piece, style), ()
    else:
        assert isinstance(piece, JointResult)
        rows, also = _joint(piece, style), piece.also
    return (*dict.fromkeys(rows), *(_also(also, style) if every_rule else _also_in_short(also, style)))


def cut_of(piece: PieceResult, style: Style) -> str:
    """What to cut for one piece, up to the next mark of the tape."""
    if isinstance(piece, SheetResult):
        return _by(piece.blank_cut, style)
    return say_up_both(piece.cut_this, style)


def made_of(piece: PieceResult, style: Style) -> str:
    """The bar or the sheet that a piece is cut from."""
    if isinstance(piece, BarResult):
        return said_section(piece.stock_section, style)
    if isinstance(piece, RingResult):
        return said_section(piece.spec.wire, style)
    return _said_sheet(piece, style)


def count_of(piece: PieceResult, sets: int) -> int:
    """How many times that is cut for so many sets; of a chain, its links."""
    links = piece.chain.links if isinstance(piece, RingResult) and piece.chain else 1
    patterns = sum(p.make for p in piece.patterns) if isinstance(piece, SheetResult) else 1
    return piece.spec.make * sets * links * patterns


def said_section(section: Section, style: Style) -> str:
    """A section in the shop's own words, with the other system behind it."""
    words = words_of(section)
    return say_section_both(words.shape, words.sizes, style)


def said_spread(spread: Spread, style: Style) -> str:
    """A length and its range."""
    if spread.is_sharp:
        return say_both(spread.value, style)
    low, high = say_both(spread.low, style), say_both(spread.high, style)
    return f"{say_both(spread.value, style)}, between {low} and {high}"


def _bar(bar: BarResult, style: Style) -> tuple[Row, ...]:
    rows = (
        ("from", said_section(bar.stock_section, style)),
        ("finished, along the bar", say_both(bar.length, style, fit=True)),
        ("by constant volume", say_both(bar.stock_bare, style, fit=True)),
        *((("and for the weld", say_both(bar.weld, style)),) if bar.weld else ()),
        *((("and to hold it by", say_both(bar.grip, style)),) if bar.grip else ()),
        ("with what the fire takes", said_spread(bar.stock, style)),
        (CUT, say_up_both(bar.cut_this, style)),
        *(("comes out at", f"{say_both(s.value, style, fit=True)}: {s.name}") for s in bar.solved),
        ("overall", _overall(bar, style)),
        *_worked(bar, style),
        ("weighs", say_mass_both(bar.mass, style)),
    )
    return rows + tuple((f"{c.spec.name}, by constant volume", say_both(c.stock_bare, style)) for c in bar.children)


def _overall(bar: BarResult, style: Style) -> str:
    named = (("reach", bar.sizes.reach), ("across", bar.sizes.across), ("rise", bar.sizes.rise))
    return ", ".join(f"{name} {say_both(size, style)}" for name, size in named if size > 0)


def _worked(bar: BarResult, style: Style) -> tuple[Row, ...]:
    twists = ((f"corners stretch, {say_turns(t.twist.turns)}", say_percent(t.corner_strain)) for t in bar.twists)
    walls = ((f"least wall at {h.hole.name or 'the hole'}", say_both(h.wall, style, fit=True)) for h in bar.holes)
    slits = (
        (f"slit for {h.hole.name or 'the hole'}", say_both(h.slit, style)) for h in bar.holes if h.slit is not None
    )
    return (*twists, *walls, *slits)


def _ring(ring: RingResult, style: Style) -> tuple[Row, ...]:
    long = ring.spec.inside_long is not None
    return (
        ("from", said_section(ring.spec.wire, style)),
        ("along the middle of the bar", say_both(ring.bare, style, fit=True)),
        *((("by the shop's rule", f"{say_both(ring.taken, style, fit=True)}: {ring.rule}"),) if _by_rule(ring) else ()),
        *((("and for the weld", say_both(ring.weld, style)),) if ring.weld else ()),
        (CUT, say_up_both(ring.cut_this, style)),
        ("inside across", say_both(ring.inside_across, style)),
        *((("inside long", say_both(ring.inside_long, style)),) if long else ()),
        ("outside across", say_both(ring.outside_across, style)),
        ("skin stretches when bent", say_percent(ring.strain)),
        ("weighs", say_mass_both(ring.mass, style)),
        *(_coil(ring.coil, style) if ring.coil else ()),
        *(_chain(ring.chain, style) if ring.chain else ()),
    )


def _by_rule(ring: RingResult) -> bool:
    """Whether the shop's rule takes another length than the middle of the bar."""
    return abs(ring.taken - ring.bare) > SAME


SAME = 1e-6
"""Lengths nearer than this are one [m]."""


def _coil(coil: Coil, style: Style) -> tuple[Row, ...]:
    return (
        ("mandrel", say_both(coil.mandrel, style, fit=True)),
        ("turns", str(coil.turns)),
        ("bar for the coil", say_up_both(coil.wire, style)),
    )


def _chain(chain: ChainResult, style: Style) -> tuple[Row, ...]:
    return (
        ("links", str(chain.links)),
        ("chain, inside to inside", say_both(chain.length, style)),
        ("chain over all", say_both(chain.outside, style)),
        ("bar for the chain", say_up_both(chain.bar, style)),
        ("chain weighs", say_mass_both(chain.mass, style)),
        ("last link", chain.last_lies),
    )


def _sheet(sheet: SheetResult, style: Style) -> tuple[Row, ...]:
    pieces = sum(p.make for p in sheet.patterns)
    return (
        ("from", _said_sheet(sheet, style)),
        *((figure.name, figure_words(figure, style)) for figure in sheet.figures if figure.name != "thickness"),
        ("bare pattern fits in", " x ".join(say_both(x, style) for x in sheet.blank)),
        *((("CUT PIECES", str(pieces)),) if pieces > 1 else ()),
        ("CUT BLANK", _by(sheet.blank_cut, style)),
        *([("seam gap when rolled up", say_both(sheet.seam_gap, style, fit=True))] if _has_seam(sheet) else []),
        *((("triangles stray at most", say_both(sheet.stray, style, fit=True)),) if sheet.stray else ()),
        *(_offer(fit, style) for fit in sheet.fits),
        ("weighs", say_mass_both(sheet.mass, style)),
    )


def _by(sizes: tuple[float, float], style: Style) -> str:
    """A blank, each side up to the next mark of the tape."""
    return " x ".join(say_up_both(x, style) for x in sizes)


def _said_sheet(sheet: SheetResult, style: Style) -> str:
    """A gauge never goes without its thickness."""
    thick = said_thickness(sheet.spec.thick, style)
    return f"{sheet.spec.gauge}, {thick}" if sheet.spec.gauge else f"sheet {thick}"


def _has_seam(sheet: SheetResult) -> bool:
    return not isinstance(sheet.spec.surface, Pan | Bowl | FlatOutline)


def _offer(fit: SheetFit, style: Style) -> Row:
    size = f"{say_both(fit.offered.wide, style)} x {say_both(fit.offered.high, style)}"
    short = " and ".join(say_both(s, style, fit=True) for s in (fit.short_wide, fit.short_high) if s > 0)
    return f"from {size}", fit.refused or ("fits" if fit.fits else f"too small by {short}")


def _joint(joint: JointResult, style: Style) -> tuple[Row, ...]:
    spec = joint.spec
    return (
        ("through", ", ".join(spec.through)),
        *(((_NUMBER.get(spec.kind, "how many"), str(spec.number)),) if spec.number > 1 else ()),
        *(((_takes(joint), say_up_both(joint.metal, style)),) if joint.metal > 0 else ()),
        ("how", joint.says),
    )


def _takes(joint: JointResult) -> str:
    """What the length is; never a length to cut where the grip or the girth is not in it."""
    if {"grip-not-known", "girth-not-known"} & {f.name for f in joint.findings}:
        return "head or laps alone, add the rest"
    return _TAKES.get(joint.spec.kind, CUT)


Also = tuple[tuple[str, float, str], ...]


def _also(also: Also, style: Style) -> tuple[Row, ...]:
    return tuple((f"also: {label}", f"{say_both(value, style)}: {why}") for label, value, why in also)


def _also_in_short(also: Also, style: Style) -> tuple[Row, ...]:
    if len(also) < 2:
        return tuple((f"also: {label}", say_both(value, style)) for label, value, _ in also)
    values = sorted(value for _, value, _ in also)
    return ((f"{len(also)} other rules say", f"{say_both(values[0], style)} to {say_both(values[-1], style)}"),)
