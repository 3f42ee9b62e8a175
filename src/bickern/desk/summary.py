"""A job reckoned, told in words: the same for a terminal and a page."""

from dataclasses import dataclass

from bickern.desk.answer import Row
from bickern.desk.piece_rows import count_of, cut_of, made_of, rows_of
from bickern.desk.reckon import Reckoning
from bickern.measure.units.say import say_mass_both
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy, PieceResult
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.result import BarResult
from bickern.parts.fit.result import FitWord
from bickern.parts.joint.spec import JointKind, JointResult


@dataclass(frozen=True, slots=True)
class Summary:
    """Title; the cut list (piece, how many, from what, cut each); each piece and joint in full; and the whole."""

    title: str
    cut_list: tuple[tuple[str, str, str, str], ...]
    pieces: tuple[tuple[str, tuple[Row, ...]], ...]
    together: tuple[Row, ...]


def summary(done: Reckoning, *, every_rule: bool = False) -> Summary | None:
    """The words; None where the job could not be read. `every_rule`: what each other published rule says, too."""
    copy = done.copy
    if copy is None:
        return None
    style = copy.shop.style
    joints = tuple((_joint_title(j), rows_of(j, style, every_rule=every_rule)) for j in copy.joints)
    return Summary(
        _title(copy),
        tuple(_cut_line(p, copy, style) for p in copy.pieces),
        (*((p.spec.name, rows_of(p, style, every_rule=every_rule)) for p in copy.pieces), *joints),
        (
            *_before_heats(copy),
            ("one set weighs", say_mass_both(copy.mass, style)),
            *_fit(copy),
            *(("no print confirms", w) for w in copy.not_validated),
        ),
    )


BEFORE_HEATS = "before the heats are counted; bickern heats counts them, and the shop sheet prints that cut"
"""Said of the lengths to cut where the fire takes by the heats that a piece sits through."""


def _before_heats(copy: Copy) -> tuple[Row, ...]:
    """That another length may be cut once the heats are known; not where the shop goes by a figure of its own."""
    worked = any(run.loss.value > 0 for p in copy.pieces if isinstance(p, BarResult) for run in p.runs if not run.kept)
    own = copy.shop.bar.scale_worked != BarRules().scale_worked
    return (("lengths to cut", BEFORE_HEATS),) if worked and not own and copy.plan is None else ()


def _fit(copy: Copy) -> tuple[Row, ...]:
    """How many checks of fit came out how, the worst first."""
    words = [row.word for row in copy.fit.rows]
    counts = [f"{words.count(word)} {word}" for word in reversed(FitWord) if word in words]
    return (("does it go together", f"{', '.join(counts)} (bickern fit shows by how much)"),) if counts else ()


def _title(copy: Copy) -> str:
    return f"{copy.job.title}: {copy.job.make} sets" if copy.job.make > 1 else copy.job.title


def _joint_title(joint: JointResult) -> str:
    spec = joint.spec
    return f"joint: {spec.ring}" if spec.kind is JointKind.RING else f"joint: {spec.kind}"


def _cut_line(piece: PieceResult, copy: Copy, style: Style) -> tuple[str, str, str, str]:
    return (piece.spec.name, str(count_of(piece, copy.job.make)), made_of(piece, style), cut_of(piece, style))
