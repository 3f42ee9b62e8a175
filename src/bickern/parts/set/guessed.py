"""Which guess serves where a sheet meets something and no place on it is named, and the note that says so."""

from collections.abc import Sequence

from bickern.geometry.pose import Pose, back, then
from bickern.geometry.space import Vec, minus, mixed
from bickern.measure.finding import Finding, note
from bickern.parts.bar.result import BarResult
from bickern.parts.set.contact import Contact
from bickern.parts.set.roll_call import Roll
from bickern.parts.set.sheet_faces import Palm, foot_on, pan_on_feet, sheet_on_palm
from bickern.parts.set.spots.bar import moved_spot
from bickern.parts.sheet.again import middle_of
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, Pan

_UP: Vec = (0.0, 0.0, 1.0)


def guessed_poses(roll: Roll, part: int, contacts: Sequence[Contact], lies: Pose) -> tuple[Pose, ...]:
    """Every way to put a part to a sheet, or a sheet to a part; `lies`: how the part that lies already does."""
    first = contacts[0]
    own, other = roll.singles[part].piece, roll.singles[first.part].piece
    if isinstance(own, SheetResult) and isinstance(other, BarResult):
        if len({c.part for c in contacts}) > 1:
            return pan_on_feet(own, [c.other for c in contacts], _up(roll, contacts), first.outside)
        spots = tuple(moved_spot(c.other, back(lies)) for c in contacts)
        palm = Palm(spots, other.centre_of_mass, first.joint.size, not first.outside)
        return tuple(then(lies, pose) for pose in sheet_on_palm(own, palm))
    if isinstance(own, BarResult) and isinstance(other, SheetResult):
        if own.spec.make > 1:
            single = roll.singles[part]
            poses = foot_on(other, first.own, single.number, own.spec.make, first.outside)
            return tuple(then(lies, pose) for pose in poses)
        palm = Palm(tuple(c.own for c in contacts), own.centre_of_mass, first.joint.size, first.outside)
        return tuple(then(lies, back(pose)) for pose in sheet_on_palm(other, palm))
    face = first.other.pose
    side = first.apart if first.outside else -first.apart
    return (then(Pose(mixed(face.origin, 1.0, face.z, side), face.x, face.y), back(first.own.pose)),)


def _up(roll: Roll, contacts: Sequence[Contact]) -> Vec:
    """Which way a pan on several bars opens: up in the sheet that the whole begins with, else to where they rise."""
    first = contacts[0]
    other = roll.singles[first.part].piece
    if isinstance(roll.singles[0].piece, SheetResult) or not isinstance(other, BarResult):
        return _UP
    return minus(first.balance, first.other.pose.origin)


def guess_notes(roll: Roll, part: int, contacts: Sequence[Contact]) -> tuple[Finding, ...]:
    """What was taken for granted, and how to say otherwise."""
    if not contacts or not contacts[0].guessed:
        return ()
    first = contacts[0]
    names = roll.singles[part].kind, roll.singles[first.part].kind
    pieces = roll.singles[part].piece, roll.singles[first.part].piece
    sheet = next((i for i, p in enumerate(pieces) if isinstance(p, SheetResult)), 0)
    whole = pieces[sheet]
    surface = middle_of(whole) if isinstance(whole, SheetResult) else None
    several = len({c.part for c in contacts}) > 1 or pieces[1 - sheet].spec.make > 1
    says = f"no place on {names[sheet]} is named for {names[1 - sheet]}: {_taken(surface, several)}"
    other = f"name a wall, as `{names[sheet]}.back`," if isinstance(surface, Pan) else "give it holes and name them"
    return (note("taken-for-granted", says, f"{other} where it is to be otherwise", first.joint.where),)


def _taken(surface: object, several: bool) -> str:
    if several:
        return "it is taken to lie level on them, its middle over theirs"
    if isinstance(surface, Pan):
        return "its back is taken to lie toward the rest of the bar, two rivets' thickness behind the last rivet"
    where = "just below its rim" if isinstance(surface, Bowl) else "half way up its side"
    return f"the bar is taken to lie against it {where} and to go on upward and outward"
