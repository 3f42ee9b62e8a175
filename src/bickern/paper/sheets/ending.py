"""What stands at the end of a sheet: rules that disagree, how sure it is, cautions, finish, faults, what happened."""

from collections.abc import Sequence

from bickern.making.work.caution import Caution
from bickern.making.work.faults import faults_of
from bickern.making.work.operations import of_any, of_joint
from bickern.measure.units.say import say_both
from bickern.paper.copy import Copy
from bickern.paper.sheets.setting import (
    BODY,
    NOTHING,
    SMALL,
    Part,
    boxed,
    bullets,
    heading,
    keep,
    lines_to_fill,
    row,
    stack,
    words,
)
from bickern.parts.sheet.result import SheetResult


def other_rules(copy: Copy) -> Part:
    """Figures by other published rules, where they disagree with the one that the shop goes by."""
    style, lines = copy.shop.style, []
    owners = [(piece.spec.name, piece.also) for piece in copy.pieces if not isinstance(piece, SheetResult)]
    owners += [(str(joint.spec.kind), joint.also) for joint in copy.joints]
    for name, also in owners:
        for label, value, why in also:
            head = words(f"{name}, {label}: ", SMALL, bold=True)
            lines.append(row(head, words(f"{say_both(value, style)}; {why}", SMALL)))
    return stack(heading("Where published rules disagree"), bullets(lines, 2)) if lines else NOTHING


def how_sure(copy: Copy) -> Part:
    """What no print has confirmed, and why figures are a range."""
    reasons: dict[str, list[str]] = {}
    for piece in copy.pieces:
        if not isinstance(piece, SheetResult):
            for why in piece.stock.why:
                reasons.setdefault(why, []).append(piece.spec.name)
    lines = [words(f"{why} ({', '.join(names)})", SMALL) for why, names in reasons.items()]
    lines += [words(f"Not confirmed by anything printed: {says}", SMALL) for says in copy.not_validated]
    return stack(heading("How sure this is"), bullets(lines)) if lines else NOTHING


def cautions_part(cautions: Sequence[Caution], columns: int = 3) -> Part:
    """The cautions as they stand."""
    if not cautions:
        return NOTHING
    return stack(heading("Cautions for this work"), bullets([words(one.says, SMALL) for one in cautions], columns))


def faults_part(copy: Copy) -> Part:
    """The usual faults of these operations and their cures; common practice, not taken from a print."""
    keys: frozenset[str] = frozenset().union(*(of_any(p) for p in copy.pieces), *(of_joint(j) for j in copy.joints))
    lines = [row(words(f"{f.shows}: ", SMALL, bold=True), words(f.cure, SMALL)) for f in faults_of(keys)]
    return stack(heading("Faults and cures", "common practice"), bullets(lines, 3)) if lines else NOTHING


def notes_part(copy: Copy) -> Part:
    """The smith's own notes, as written."""
    lines = [words(says, BODY) for says in copy.job.notes]
    return stack(heading("Notes"), bullets(lines)) if lines else NOTHING


def finish_part(copy: Copy) -> Part:
    """The finish, as asked."""
    return stack(heading("Finish"), words(copy.job.finish, BODY)) if copy.job.finish else NOTHING


def happened() -> Part:
    """A box to write in what really happened, for the next one."""
    names = ["Stock used", "Finished length", "Heats", "Minutes", "Change next time", "Date"]
    return keep(stack(heading("What really happened"), boxed(lines_to_fill(names, 2))))


def sign_off() -> Part:
    """A box for a class: who made it, who saw it, when."""
    return keep(stack(heading("Signed off"), boxed(lines_to_fill(["Student", "Instructor", "Date"], 3))))
