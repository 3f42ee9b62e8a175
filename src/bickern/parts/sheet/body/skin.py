"""The flat of one part of a rolled or folded skin, ready to be bent up: seam, hems, wires, lugs and holes."""

from collections.abc import Callable
from itertools import chain as joined
from math import acos, pi, tan
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.develop.rolling import FoldRoll, placements
from bickern.geometry.develop.thick import rolled_thick
from bickern.geometry.solid.solid import Fineness
from bickern.geometry.space import dot
from bickern.parts.sheet.again import Skin
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.body.edging import Edging, Lifted, hemmed, lugged
from bickern.parts.sheet.body.patches import Flat, Patch
from bickern.parts.sheet.body.profile import HAIR, finish_profile
from bickern.parts.sheet.body.rulings import STEP, TIGHT, TURN, Rulings, hole_points, mitres, rulings_of
from bickern.parts.sheet.body.seams import SeamEdge, closed, inside, seam_edges, seam_lines
from bickern.parts.sheet.chain import spot_at
from bickern.parts.sheet.cut import cut_pattern, edge_on, folds_of, rims, tabs_on
from bickern.parts.sheet.notches import notched
from bickern.parts.sheet.places import edge_walked
from bickern.parts.sheet.rims import allowance
from bickern.parts.sheet.spec import SheetSpec
from bickern.parts.sheet.standing import on_skin
from bickern.parts.sheet.trim import shares

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


def skin_flat(skin: Skin, spec: SheetSpec, rules: SheetRules, fineness: Fineness) -> Flat:
    """The flat of one part of a skin, cut along its rulings and every line at which it is turned."""
    pattern = cut_pattern(skin.net, spec, rules, spec.name, skin.covers)
    rulings = rulings_of(skin.development, skin.net, pattern.outline.segs, fineness)
    edges = seam_edges(
        skin.net, spec.seam, spec.thick, shares(spec.seam, spec.thick, rules), _gap(skin, spec.thick, fineness)
    )
    body = _body(skin, edges)
    edging = [_edging(skin, spec, rules, on, body, rulings, fineness) for on in ("bottom", "top")]
    seams = (line for edge in edges for line in seam_lines(edge, TIGHT[fineness]))
    return Flat(
        rulings.chords(pattern.outline.segs),
        tuple(hole_points(h.centre, h.size, fineness) for h in pattern.holes),
        (*rulings.lines, *seams, *joined.from_iterable(e.lines for e in edging)),
        (Patch(_plain(body)), *joined.from_iterable(e.patches for e in edging)),
    )


def _gap(skin: Skin, thick: float, fineness: Fineness) -> float:
    """How far each edge of a butt stands back [m]: a hair, and what the corners of its end faces would reach over."""
    turn = STEP[fineness]
    roll = skin.development.roll
    if isinstance(roll, FoldRoll):
        placed = placements(roll)
        turn = acos(max(-1.0, min(1.0, dot(placed[0].ez, placed[-1].ez)))) if placed else 0.0
        turn = turn if turn < pi / 3 else 0.0  # the seam of a part of a skin, whose ends do not meet each other
    return HAIR / 2 + thick / 2 * tan(turn / 2)


def _body(skin: Skin, edges: tuple[SeamEdge, SeamEdge]) -> Lifted:
    """How the skin is bent up, its seam closed: places of flat points, moved along the flat and lifted off it."""

    def placed(flat: "Array", move: "Array", lift: "Array", near: "Array") -> "Array":
        moved, lifted, beside = flat, lift, near
        for edge in edges:
            to, up = closed(edge, flat, near)
            moved, lifted, beside = moved + (to - flat), lifted + up, inside(edge, beside)
        return rolled_thick(skin.development.roll, moved + move, lifted, beside)

    return placed


def _plain(body: Lifted) -> "Callable[[Array, Array], Array]":
    return lambda flat, near: body(flat, np.zeros_like(flat), np.zeros(len(flat)), near)


def _edging(
    skin: Skin, spec: SheetSpec, rules: SheetRules, on: str, body: Lifted, rulings: Rulings, fineness: Fineness
) -> Edging:
    """What is turned or stands on the bottom or the top of a skin."""
    chain, edge = edge_walked(skin, on), edge_on(spec, on)
    if not chain:
        return Edging()
    extra = allowance(edge, rules, spec.thick) if edge else 0.0
    if edge is not None and extra > 0.0:
        profile = finish_profile(edge, spec.thick, extra)
        strips = notched(chain, extra, folds_of(skin.net, on))
        found = [hemmed(s.side, s.whole, profile, body, rulings, TIGHT[fineness]) for s in strips]
        folds = isinstance(skin.development.roll, FoldRoll)
        lines = (line for strip in strips if folds for line in mitres(strip.side, extra))
        return Edging(tuple(p for e in found for p in e.patches), (*(n for e in found for n in e.lines), *lines))
    tabs = sorted(tabs_on(skin.net, spec, rules, on, skin.covers), key=lambda tab: tab.at)
    outlines = rims(skin.net, spec, rules, skin.covers)[0 if on == "bottom" else 1].tabs
    found = [
        lugged(
            chain,
            tab,
            outline,
            on_skin(skin.development, spot_at(chain, tab.at)),
            (spec.thick, rules.eye_straight),
            body,
            TURN[fineness],
        )
        for tab, outline in zip(tabs, outlines, strict=True)
    ]
    return Edging(tuple(p for e in found for p in e.patches), tuple(n for e in found for n in e.lines))
