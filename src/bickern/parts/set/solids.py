"""The solids of a set: each part, and every rivet, collar and pin where it sits."""

from collections.abc import Sequence
from functools import lru_cache

from bickern.geometry.solid.solid import Fineness, Named, Solid, moved
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointKind
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import PieceResult
from bickern.parts.set.result import Fixing, SetResult
from bickern.parts.sheet.allowances import SheetRules


def piece_solid(
    piece: PieceResult,
    fineness: Fineness,
    rules: SheetRules = SheetRules(),  # noqa: B008 - frozen
) -> Solid:
    """One finished piece in its own coordinates."""
    if isinstance(piece, BarResult):
        from bickern.parts.bar.body.body import bar_body

        return bar_body(piece, fineness)
    if isinstance(piece, RingResult):
        from bickern.parts.ring.body import ring_body

        return ring_body(piece, fineness)
    from bickern.parts.sheet.body.body import sheet_body

    return sheet_body(piece, rules, fineness)


@lru_cache(maxsize=32)
def kept_solid(
    piece: PieceResult,
    rules: SheetRules = SheetRules(),  # noqa: B008 - frozen
) -> Solid:
    """One finished piece at preview, made once and kept (its arrays locked): putting together and swinging want it."""
    made = piece_solid(piece, Fineness.PREVIEW, rules)
    made.points.flags.writeable = made.faces.flags.writeable = False
    return made


def body_solids(a_set: SetResult, parts: Sequence[Solid]) -> dict[int, list[Named]]:
    """For each body the solids of its parts and then of what fixes them, in its own coordinates.

    `parts`: the solid of every part in its own coordinates. Screws are bought and not drawn; nor are heads on tenons.
    """
    own: dict[int, list[Named]] = {body: [] for body in range(len(a_set.bodies))}
    for part, solid in zip(a_set.parts, parts, strict=True):
        own[part.body].append(Named(part.name, moved(solid, part.pose)))
    for number, fixing in enumerate(a_set.fixings, start=1):
        drawn = fixing_solid(fixing, Fineness.PREVIEW)
        if drawn is not None:
            own[fixing.body].append(Named(f"{fixing.joint.kind} {number}", moved(drawn, fixing.pose)))
    return own


def fixing_solid(fixing: Fixing, fineness: Fineness) -> Solid | None:
    """A rivet with a snap head at each end, a pin that stands out by its own thickness, a collar, a wrap; no screws."""
    from bickern.parts.joint.body import collar_body, pin_body, rivet_body, wrap_body
    from bickern.parts.joint.heads import Head

    joint = fixing.joint
    if joint.kind is JointKind.RIVET:
        return rivet_body(joint.size, fixing.grip, Head.SNAP, Head.SNAP, fineness)
    if joint.kind is JointKind.PIN:
        return pin_body(joint.size, fixing.grip, joint.size, fineness)
    if joint.section is None:
        return None
    if joint.kind is JointKind.COLLAR:
        return collar_body(joint.section, fixing.across, fixing.high, fineness)
    return wrap_body(joint.section, max(fixing.across, fixing.high) / 2, joint.number, fineness)
