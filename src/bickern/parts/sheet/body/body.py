"""A finished sheet piece as a solid, rolled up from its pattern as it is cut, with its thickness.

Sheet keeps its volume: where it is packed or stretched (a hem on a round rim, a lap that lies further out than it was
cut for, a fold whose own line lies inside the middle) it is drawn that much thicker or thinner. Layers that touch keep
a hair's gap. Hems and wires of skins are turned to the inside, those of pans and bowls to the outside.
"""

from bickern.geometry.solid.combine import gathered
from bickern.geometry.solid.solid import Fineness, Solid
from bickern.parts.sheet.again import middle_of, skins_of
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.body.flat import bowl_flat, outline_flat
from bickern.parts.sheet.body.pan import pan_flat
from bickern.parts.sheet.body.patches import Flat, solid_of
from bickern.parts.sheet.body.skin import skin_flat
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, FlatOutline, Pan


def sheet_body(result: SheetResult, rules: SheetRules, fineness: Fineness = Fineness.PREVIEW) -> Solid:
    """The solid of a sheet piece [m], all its parts, in the coordinates that `standing` tells of."""
    solids = [solid_of(flat, result.spec.thick) for flat in flats_of(result, rules, fineness)]
    return solids[0] if len(solids) == 1 else gathered(*solids)


def flats_of(result: SheetResult, rules: SheetRules, fineness: Fineness) -> tuple[Flat, ...]:
    """The flats that a piece is bent up from, one for each of its parts."""
    spec, middle = result.spec, middle_of(result)
    if isinstance(middle, Pan):
        return (pan_flat(middle, spec, rules, fineness),)
    if isinstance(middle, Bowl):
        return (bowl_flat(middle, spec, rules, fineness),)
    if isinstance(middle, FlatOutline):
        return (outline_flat(result.patterns[0], fineness),)
    return tuple(skin_flat(skin, spec, rules, fineness) for skin in skins_of(result))
