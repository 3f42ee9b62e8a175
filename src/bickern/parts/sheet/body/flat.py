"""The flats of bowls and of free outlines, ready to be bent up (an outline stays flat, its middle on z = 0)."""

from itertools import chain as joined
from math import pi
from typing import TYPE_CHECKING

import numpy as np

from bickern.geometry.develop.rolling import DishRoll
from bickern.geometry.develop.thick import rolled_thick
from bickern.geometry.polygon import ArcSeg
from bickern.geometry.polygon import points as points_of
from bickern.geometry.solid.solid import Fineness
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.body.edging import Edging, Lifted, hemmed, lugged
from bickern.parts.sheet.body.patches import Flat, Patch
from bickern.parts.sheet.body.profile import finish_profile
from bickern.parts.sheet.body.rulings import TIGHT, TURN, Rulings, dish_rulings, hole_points
from bickern.parts.sheet.chain import Chain, spot_at
from bickern.parts.sheet.flats import bowl_cut, disc_radius, rim_tabs
from bickern.parts.sheet.result import Pattern
from bickern.parts.sheet.rims import allowance, with_tabs
from bickern.parts.sheet.spec import Bowl, EdgeKind, SheetSpec
from bickern.parts.sheet.standing import dish_of, on_skin

if TYPE_CHECKING:
    from numpy.typing import NDArray

    Array = NDArray[np.float64]


def outline_flat(pattern: Pattern, fineness: Fineness) -> Flat:
    """A free outline with its cut-outs."""
    stray = {Fineness.PREVIEW: 5e-5, Fineness.FINE: 1e-5}[fineness]
    holes = (points_of(cut, stray) for cut in pattern.cutouts)

    def place(flat: "Array", near: "Array") -> "Array":
        return np.column_stack((flat, np.zeros(len(flat))))

    return Flat(points_of(pattern.outline, stray), tuple(holes), (), (Patch(place),))


def bowl_flat(bowl: Bowl, spec: SheetSpec, rules: SheetRules, fineness: Fineness) -> Flat:
    """The disc of a bowl with its rim's finish or lugs, and its holes."""
    pattern = bowl_cut(bowl, spec, rules, spec.name)
    development = dish_of(bowl)
    roll = development.roll
    assert isinstance(roll, DishRoll)
    rulings = dish_rulings(roll, _furthest(pattern), fineness)

    def body(flat: "Array", move: "Array", lift: "Array", near: "Array") -> "Array":
        return rolled_thick(roll, flat + move, lift)

    def place(flat: "Array", near: "Array") -> "Array":
        return rolled_thick(roll, flat, np.zeros(len(flat)))

    edging = _edging(bowl, spec, rules, body, rulings, fineness)
    holes = tuple(hole_points(h.centre, h.size, fineness) for h in pattern.holes)
    return Flat(
        rulings.chords(pattern.outline.segs), holes, (*rulings.lines, *edging.lines), (Patch(place), *edging.patches)
    )


def _furthest(pattern: Pattern) -> float:
    return max(float(np.hypot(*p)) for p in points_of(pattern.outline, 1e-4))


def _edging(
    bowl: Bowl, spec: SheetSpec, rules: SheetRules, body: Lifted, rulings: Rulings, fineness: Fineness
) -> Edging:
    edge = next((e for e in spec.edges if e.kind is not EdgeKind.RAW), None)
    extra = allowance(edge, rules, spec.thick) if edge else 0.0
    if edge is not None and extra > 0.0:
        round_: Chain = (ArcSeg((0.0, 0.0), disc_radius(bowl), 0.0, 2 * pi),)
        profile = finish_profile(edge, spec.thick, extra)
        whole: Chain = (ArcSeg((0.0, 0.0), disc_radius(bowl) + extra, 0.0, 2 * pi),)
        return hemmed(round_, whole, profile, body, rulings, TIGHT[fineness])
    rim, tabs = rim_tabs(bowl, spec, rules)
    inorder = sorted(tabs, key=lambda tab: tab.at)
    outlines = with_tabs(rim, tabs).tabs if tabs else ()
    found = [
        lugged(
            rim,
            tab,
            outline,
            on_skin(dish_of(bowl), spot_at(rim, tab.at)),
            (spec.thick, rules.eye_straight),
            body,
            TURN[fineness],
        )
        for tab, outline in zip(inorder, outlines, strict=True)
    ]
    return Edging(
        tuple(joined.from_iterable(e.patches for e in found)), tuple(joined.from_iterable(e.lines for e in found))
    )
