"""Files of a cut plan: the list to print, nests as DXF, SVG and pages at full size, the plan as JSON and CSV."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from bickern.making.stock.cuts import BarCuts, Lack, SectionCuts, length_of, running
from bickern.making.stock.sheet_cuts import GaugeCuts, SheetCuts
from bickern.measure.finding import Finding
from bickern.measure.units.say import say_both, say_length, say_up_both, up_to_step
from bickern.measure.units.words import Style, System
from bickern.paper.clip import clip
from bickern.paper.export import as_csv, as_json, file_name
from bickern.paper.marks import Drawing, Layer, Text, bounds
from bickern.paper.pens.dxf import dxf
from bickern.paper.pens.page import Paper, Sheet, compile_pdf
from bickern.paper.pens.pdf import pdf
from bickern.paper.pens.svg import svg
from bickern.paper.sheets import wording
from bickern.paper.sheets.cut_list import cut_list
from bickern.paper.sheets.cut_words import CutCopy, letters_of, mark_step, marks, marks_said, short_says
from bickern.paper.tiling import tile
from bickern.paper.views.nest import nest_drawing

SCHEMA = "bickern cut plan"
VERSION = 1
"""Goes up when a key is renamed, dropped or changes its meaning; new keys do not change it."""
TIMESTAMP = 0
"""Written into each PDF [s since 1970]: fixed, so that the same plan gives the same bytes."""
MOST_PAGES = 40
"""Pages of one sheet at full size that a person will still tape together; larger ones are drawn from their DXF."""
COLUMNS = ("stock", "place", "section", "letter", "piece", "job", "cut in", "cut mm", "mark in", "mark mm", "left mm")
"""The heads of the cut list as CSV; one row for each length, in the order of cutting."""
_INCH, _MM = Style(first=System.INCH), Style(first=System.MM)


def cut_packet(copy: CutCopy, paper: Paper) -> dict[str, bytes]:
    """File name -> content of all that belongs to a plan; nests only where sheets are cut."""
    source, files = cut_list(copy, paper)
    done = {"cut-list.pdf": compile_pdf(source, files, TIMESTAMP)}
    pages: list[Sheet] = []
    for name, picture in nests(copy):
        done[f"nests/{file_name(name)}.dxf"] = dxf(picture, copy.shop.style.first)
        done[f"nests/{file_name(name)}.svg"] = svg(picture, name).encode()
    for name, shown in printed_nests(copy):
        if pages_by_area(shown, paper) <= MOST_PAGES:
            pages += tile(shown, paper, ", ".join(copy.jobs), name=name).sheets
    if pages:
        done["nests.pdf"] = pdf(tuple(pages), TIMESTAMP)
    done["cut-plan.json"] = as_json(plan_told(copy)).encode()
    done["cut-plan.csv"] = plan_csv(copy)
    return done


def near_parts(picture: Drawing) -> Drawing:
    """What is printed of a nest at full size: the parts and the edges beside them, not the bare sheet beyond."""
    parts = [mark for mark in picture.marks if not isinstance(mark, Text) and mark.layer is Layer.CUT]
    return clip(picture, bounds(parts).grown(BESIDE))


BESIDE = 0.010
"""How far beyond its parts a nest is printed at full size [m]."""


def pages_by_area(picture: Drawing, paper: Paper) -> int:
    """Pages that a drawing at full size covers, not laid out."""
    page = paper.printable.width * paper.printable.height
    return math.ceil(picture.bounds.width * picture.bounds.height / page)


def nests(copy: CutCopy, sizes: bool = True) -> Iterator[tuple[str, Drawing]]:
    """Each sheet that is cut, by its id, at full size with its parts; with running sizes or without."""
    named = letters_of(copy)
    for plan in copy.sheets:
        for cut in plan.sheets:
            yield cut.stock.id, nest_drawing(cut, named, copy.shop.style, sizes)


def printed_nests(copy: CutCopy) -> Iterator[tuple[str, Drawing]]:
    """Each nest as it is printed at full size: its sizes would cost pages, lie on the paper and stand in the list."""
    for name, picture in nests(copy, sizes=False):
        yield name, near_parts(picture)


def plan_told(copy: CutCopy) -> dict[str, Any]:
    """The plan as dicts, lists, strings and numbers."""
    named = letters_of(copy)
    return {
        "schema": SCHEMA,
        "schema_version": VERSION,
        "version": copy.version,
        "jobs": list(copy.jobs),
        "bars": [_section(plan, copy, named) for plan in copy.bars],
        "sheets": [_gauge(plan, copy, named) for plan in copy.sheets],
        "short_says": list(short_says(copy, named)),
        "other_stock": [{"key": key, "says": says} for key, says in copy.instead],
        "cautions": [one.says for one in copy.cautions],
        "findings": findings_told(copy.findings),
    }


def findings_told(findings: tuple[Finding, ...]) -> list[dict[str, str]]:
    """Findings as plain data."""
    return [
        {
            "name": one.name,
            "weight": one.weight.name.lower(),
            "says": one.says,
            "try": one.try_this,
            "where": str(one.where),
        }
        for one in findings
    ]


def _section(plan: SectionCuts, copy: CutCopy, named: Mapping[str, str]) -> dict[str, Any]:
    style = copy.shop.style
    return {
        "section": wording.section(plan.section, style),
        "steel": plan.steel,
        "proven": plan.proven,
        "why": plan.why,
        **_length("spared", plan.spared, style),
        "bars": [_bar(cut, copy, named) for cut in plan.bars],
        "short": [_lack(lack, style, named) for lack in plan.lacks],
        "buy": [{"count": one.count, **_length("length", one.length, style)} for one in plan.buy],
        **_length("short_in_all", plan.metres, style),
    }


def _bar(cut: BarCuts, copy: CutCopy, named: Mapping[str, str]) -> dict[str, Any]:
    stock, style = cut.stock, copy.shop.style
    return {
        "id": stock.id,
        "place": stock.place,
        "steel": stock.steel,
        "offcut": stock.offcut,
        **_length("length", stock.length, style),
        "cuts": [
            {
                "letter": named[off.want.key],
                "key": off.want.key,
                "piece": off.want.name,
                "job": off.want.job,
                "length_m": round(length_of(off.want, copy.shop.cutting), 9),
                "length_said": say_up_both(length_of(off.want, copy.shop.cutting), style),
                **_length("start", off.start, marks(style)),
                "end_m": round(off.end, 9),
                "end_said": f"{first} ({other})",
            }
            for off, (first, other) in zip(cut.offs, marks_said(cut, copy), strict=True)
        ],
        **_length("drop", cut.drop, style),
        "kept": cut.kept,
        "tight": cut.tight,
    }


def _lack(lack: Lack, style: Style, named: Mapping[str, str]) -> dict[str, Any]:
    want = lack.want
    told = {"letter": named[want.key], "key": want.key, "piece": want.name, "job": want.job, "count": lack.count}
    return {**told, "bought_ready_made": want.bought, **_length("length", want.length, style)}


def _length(name: str, length: float, style: Style) -> dict[str, Any]:
    """A length under a key with its unit, and its words."""
    return {f"{name}_m": round(length, 9), f"{name}_said": say_both(length, style)}


def _gauge(plan: GaugeCuts, copy: CutCopy, named: Mapping[str, str]) -> dict[str, Any]:
    style = copy.shop.style
    return {
        "thickness": wording.thickness(plan.thick, plan.gauge, style),
        "thick_m": plan.thick,
        "steel": plan.steel,
        "cut_short": plan.cut_short,
        "why": plan.why,
        "sheets": [_sheet(cut, named) for cut in plan.sheets],
        "short": [
            {"letter": named[one.want.key], "key": one.want.key, "piece": one.want.name, "count": one.count}
            for one in plan.lacks
        ],
    }


def _sheet(cut: SheetCuts, named: Mapping[str, str]) -> dict[str, Any]:
    """A sheet with its parts: each turned about its pattern's own origin, then shifted."""
    return {
        "id": cut.stock.id,
        "place": cut.stock.place,
        "used": round(cut.used, 6),
        "parts": [
            {
                "letter": named[part.want.key],
                "key": part.want.key,
                "piece": part.want.name,
                "job": part.want.job,
                "turn_rad": round(part.laid.turn, 12),
                "x_m": round(part.laid.x, 9),
                "y_m": round(part.laid.y, 9),
            }
            for part in cut.parts
        ],
        "drops": len(cut.left),
    }


def plan_csv(copy: CutCopy) -> bytes:
    """The lengths of bar, a row for each."""
    return as_csv(COLUMNS, _rows(copy))


def _rows(copy: CutCopy) -> Iterator[tuple[str, ...]]:
    named = letters_of(copy)
    for plan in copy.bars:
        for cut in plan.bars:
            of = (cut.stock.id, cut.stock.place, wording.section(cut.stock.section, copy.shop.style))
            inches, metric = (running(cut, copy.shop.cutting, mark_step(way)) for way in (_INCH, _MM))
            for off, inch, mm in zip(cut.offs, inches, metric, strict=True):
                long = length_of(off.want, copy.shop.cutting)
                cut_at = _both(up_to_step(long, _INCH), up_to_step(long, _MM), _INCH)
                sizes = (*cut_at, *_both(inch, mm, marks(_INCH)))
                left = say_length(cut.drop, _MM, unit=False) if off is cut.offs[-1] else ""
                yield (*of, named[off.want.key], off.want.name, off.want.job, *sizes, left)


def _both(inches: float, metric: float, style: Style) -> tuple[str, str]:
    """A length as told on a tape in inches, and as told on one in millimetres."""
    return say_length(inches, style, unit=False), say_length(metric, _MM, unit=False)
