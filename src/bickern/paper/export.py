"""Files for other tools: DXF and SVG of patterns and outlines, solids, the cut list as CSV, all reckoned as JSON."""

import csv
import io
import json
import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import Any

from bickern.measure.units.say import say_up, say_up_both
from bickern.measure.units.words import Style, System
from bickern.paper.copy import Copy, PieceResult
from bickern.paper.marks import Drawing
from bickern.paper.pens.dxf import dxf
from bickern.paper.pens.svg import svg
from bickern.paper.sheets import wording
from bickern.paper.sheets.markout import bars_of
from bickern.paper.sheets.patterns import pattern_drawing, pattern_name, patterns_of
from bickern.paper.telling import told
from bickern.paper.views.outline import bend_pictures, bent_outlines
from bickern.paper.views.ring import ring_outline
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult

COLUMNS = ("piece", "count", "section", "steel", "cut this in", "cut this mm", "note")
"""The heads of the cut list."""
_INCH, _MM = Style(first=System.INCH), Style(first=System.MM)


def reckoning(copy: Copy) -> bytes:
    """Everything reckoned as JSON: keys sorted, units in the keys, the same job the same bytes."""
    return as_json(told(copy)).encode()


def as_json(told: Mapping[str, Any]) -> str:
    """Plain data as JSON: keys sorted, the same data the same text."""
    return json.dumps(told, ensure_ascii=False, allow_nan=False, indent=1, sort_keys=True) + "\n"


def cut_list(copy: Copy) -> bytes:
    """What to cut, one row for each piece and each joint that takes metal."""
    return as_csv(COLUMNS, _rows(copy))


def as_csv(heads: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    """A table of cells under its heads; UTF-8 with a mark that sheets know."""
    buffer = io.StringIO()
    writer = csv.writer(buffer, lineterminator="\r\n")
    writer.writerow(heads)
    for row in rows:
        writer.writerow([plain_cell(cell) for cell in row])
    return b"\xef\xbb\xbf" + buffer.getvalue().encode()


def plain_cell(says: str) -> str:
    """A cell that no spreadsheet takes for a formula: one that starts like one gets an apostrophe before it."""
    return f"'{says}" if says[:1] in ("=", "+", "-", "@", "\t", "\r") else says


def _rows(copy: Copy) -> Iterator[tuple[str, ...]]:
    for cut in wording.to_cut(copy):
        yield _piece_row(cut, copy.shop.style)
    for joint in copy.joints:
        if joint.metal > 0 and joint.spec.kind is not JointKind.RING:
            yield _joint_row(joint, copy)


def _piece_row(cut: wording.Cut, style: Style) -> tuple[str, ...]:
    piece = cut.piece
    sizes = piece.blank_cut if isinstance(piece, SheetResult) else (piece.cut_this,)
    inches, millimetres = (" x ".join(_bare(size, one) for size in sizes) for one in (_INCH, _MM))
    section = wording.from_what(piece, style)
    return (cut.name, str(cut.count), section, piece.spec.steel, inches, millimetres, _note(piece, style))


def _bare(size: float, style: Style) -> str:
    """What to cut as a number without its unit, up to the next mark of that tape."""
    return say_up(size, style).rsplit(" ", 1)[0]


def _note(piece: PieceResult, style: Style) -> str:
    if isinstance(piece, SheetResult):
        return f"{sum(pattern.make for pattern in piece.patterns)} patterns, see their files"
    if isinstance(piece, RingResult):
        return f"{piece.spec.closing}, inside {wording.short(piece.inside_across, style)}"
    return f"with {say_up_both(piece.grip, style)} to hold it by" if piece.grip > 0 else ""


def _joint_row(joint: JointResult, copy: Copy) -> tuple[str, ...]:
    spec, style = joint.spec, copy.shop.style
    section = wording.section(spec.section, style) if spec.section else f"{wording.short(spec.size, style)} rd"
    inches, millimetres = _bare(joint.metal, _INCH), _bare(joint.metal, _MM)
    return (
        f"{spec.kind}: {', '.join(spec.through)}",
        str(spec.number * copy.job.make),
        section,
        "",
        inches,
        millimetres,
        joint.says,
    )


def drawing_files(copy: Copy) -> dict[str, bytes]:
    """DXF and SVG at full size of each pattern, each bent bar and each ring."""
    units = copy.job.units or copy.shop.style.first
    files: dict[str, bytes] = {}
    for folder, name, picture in _pictures(copy):
        stem = _free(files, f"{folder}/{file_name(name)}", "dxf")
        files[f"{stem}.dxf"] = dxf(picture, units)
        files[f"{stem}.svg"] = svg(picture, name).encode()
    return files


def solid_files(copy: Copy) -> dict[str, bytes]:
    """GLB and 3MF of the set as it hangs or stands, and of each piece by itself, in real units."""
    if not copy.made and len(copy.solids) < 2:
        return {}
    from bickern.geometry.solid.files import glb, three_mf

    files: dict[str, bytes] = {}
    if len(copy.solids) > 1:
        files |= {"set.glb": glb(copy.solids), "set.3mf": three_mf(copy.solids)}
    for one in copy.made:
        stem = _free(files, f"solids/{file_name(one.name)}", "glb")
        files |= {f"{stem}.glb": glb((one,)), f"{stem}.3mf": three_mf((one,))}
    return files


def _pictures(copy: Copy) -> Iterator[tuple[str, str, Drawing]]:
    for sheet, pattern in patterns_of(copy):
        yield "patterns", pattern_name(sheet, pattern), pattern_drawing(sheet, pattern)
    for bar in bars_of(copy):
        shown = bend_pictures(bar)
        for picture, seen in shown:
            numbers = "".join(f" B{number}" for number, _ in seen) if len(shown) > 1 else ""
            yield "outlines", f"{bar.spec.name}{numbers}", picture
        if not shown:
            yield "outlines", bar.spec.name, bent_outlines(bar)[0]
    for piece in copy.pieces:
        if isinstance(piece, RingResult):
            yield "outlines", piece.spec.name, ring_outline(piece)


def file_name(says: str) -> str:
    """A name as a file may have it on any machine: letters, figures, dashes; nothing that could leave its folder."""
    kept = re.sub(r"[^\w-]+", "-", says.strip(), flags=re.UNICODE).strip("-_")[:60]
    return kept or "unnamed"


def _free(files: dict[str, bytes], stem: str, end: str) -> str:
    """The stem, or the stem with a number where that name is taken (capitals do not tell names apart everywhere)."""
    taken = {name.lower() for name in files}
    number, name = 1, stem
    while f"{name.lower()}.{end}" in taken:
        number += 1
        name = f"{stem}-{number}"
    return name
