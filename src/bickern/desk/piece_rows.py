"""What was reckoned for a piece, as rows of words in both systems: for terminals and pages alike."""

from bickern.desk.answer import Row
from bickern.desk.beside import Beside, also_each, also_in_short
from bickern.desk.thickness import said_section, said_thickness
from bickern.measure.spread import Spread
from bickern.measure.units.say import (
    say_both,
    say_mass_both,
    say_percent,
    say_turns,
    say_up_both,
)
from bickern.measure.units.words import Style
from bickern.paper.copy import PieceResult
from bickern.paper.sheets.wording import figure as figure_words
from bickern.parts.bar.also import ALONG
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.spec import ChainResult, Coil, RingResult
from bickern.parts.set.pieces import parts_in
from bickern.parts.sheet.result import SheetFit, SheetResult
from bickern.parts.sheet.spec import Bowl, FlatOutline, Pan, SeamKind

CUT = "CUT THIS"
"""The row that the saw follows; it stands out wherever it is shown."""

_NUMBER = {JointKind.WRAP: "turns"}
_TAKES = {JointKind.TENON: "past its shoulder", JointKind.WELD: "more on each bar"}
"""Joints whose metal is no piece of its own: it is drawn from the bars that they join."""


def rows_of(piece: object, style: Style, *, every_rule: bool = True) -> tuple[Row, ...]:
    """Rows for any piece or joint reckoned; other published rules each by itself, or all in one row."""
    rows, beside = _rows(piece, style)
    return (*dict.fromkeys(rows), *(also_each if every_rule else also_in_short)(beside, style))


def _rows(piece: object, style: Style) -> tuple[tuple[Row, ...], Beside]:
    if isinstance(piece, BarResult):
        return _bar(piece, style), _bar_beside(piece)
    if isinstance(piece, RingResult):
        return _ring(piece, style), Beside(piece.also, piece.stock.value, cut=True)
    if isinstance(piece, SheetResult):
        return _sheet(piece, style), Beside((), more=piece.also)
    assert isinstance(piece, JointResult)
    return _joint(piece, style), Beside(piece.also, piece.metal, cut=piece.metal > 0)


def _bar_beside(bar: BarResult) -> Beside:
    """Other lengths along the bar, and whatever else goes by a rule."""
    lengths = tuple(one for one in bar.also if one[0].startswith(ALONG))
    return Beside(lengths, bar.length, more=tuple(one for one in bar.also if one not in lengths))


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
    patterns = sum(p.make for p in piece.patterns) if isinstance(piece, SheetResult) else 1
    return parts_in(piece) * sets * patterns


def said_spread(spread: Spread, style: Style) -> str:
    """A length and its range, as fine as a fit: the fire takes less than a mark of the tape."""
    value, low, high = (say_both(one, style, fit=True) for one in (spread.value, spread.low, spread.high))
    return value if spread.is_sharp else f"{value}, between {low} and {high}"


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
        (f"slit for {h.hole.name or 'the hole'}", say_both(h.slit, style, fit=True))
        for h in bar.holes
        if h.slit is not None
    )
    return (*twists, *walls, *slits)


def _ring(ring: RingResult, style: Style) -> tuple[Row, ...]:
    long = ring.spec.inside_long is not None
    return (
        ("from", said_section(ring.spec.wire, style)),
        ("along the middle of the bar", say_both(ring.bare, style, fit=True)),
        *((("by the shop's rule", f"{say_both(ring.taken, style, fit=True)}: {ring.rule}"),) if _by_rule(ring) else ()),
        *(_with_weld(ring, style) if ring.weld else ()),
        (CUT, say_up_both(ring.cut_this, style)),
        ("inside across", say_both(ring.inside_across, style)),
        *((("inside long", say_both(ring.inside_long, style)),) if long else ()),
        ("outside across", say_both(ring.outside_across, style)),
        ("skin stretches when bent", say_percent(ring.strain)),
        ("weighs", say_mass_both(ring.mass, style)),
        *(_coil(ring.coil, style) if ring.coil else ()),
        *(_chain(ring.chain, style) if ring.chain else ()),
    )


def _with_weld(ring: RingResult, style: Style) -> tuple[Row, Row]:
    return (
        ("and for the weld", say_both(ring.weld, style)),
        ("both together", say_both(ring.stock.value, style, fit=True)),
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
        *((("seam", "edge to edge, nothing added for it"),) if _has_seam(sheet) and not _is_lapped(sheet) else ()),
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


def _is_lapped(sheet: SheetResult) -> bool:
    return sheet.spec.seam.kind not in (SeamKind.NONE, SeamKind.BUTT)


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
