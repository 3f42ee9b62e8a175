"""What stands at the end of a sheet: rules that disagree, how sure it is, cautions, finish, faults, what happened."""

from collections.abc import Sequence

from bickern.making.work.caution import Caution
from bickern.making.work.faults import faults_of
from bickern.making.work.operations import of_job
from bickern.measure.units.say import say_both
from bickern.paper.copy import Copy, PieceResult
from bickern.paper.sheets import wording
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.heat_words import faults_told, unproved
from bickern.paper.sheets.setting import (
    BODY,
    FINE,
    NOTHING,
    Part,
    Sign,
    beside,
    boxed,
    bullets,
    heading,
    keep,
    lines_to_fill,
    row,
    stack,
    words,
)
from bickern.paper.sheets.wording import sentence
from bickern.parts.bar.result import BarResult
from bickern.parts.sheet.result import SheetResult


def other_rules(copy: Copy) -> Part:
    """Figures by other published rules, where they disagree with the shop's own; a line for each rule."""
    found = [(piece.spec.name, _ours(piece), piece.also) for piece in copy.pieces]
    found += [
        (name, joint.metal, joint.also) for name, joint in zip(wording.joint_names(copy), copy.joints, strict=True)
    ]
    told: dict[tuple[str, str], list[tuple[str, str]]] = {}
    for name, ours, also in found:
        for label, value, why in also:
            if abs(value - ours) > ALIKE:
                told.setdefault((label, why), []).append((name, say_both(value, copy.shop.style)))
    aside = "the sheet goes by the shop's own"
    lines = [_rule(label, why, values) for (label, why), values in told.items()]
    return stack(heading("Where published rules disagree", aside), bullets(lines, 2)) if lines else NOTHING


ALIKE = 1e-6
"""Figures nearer than this do not disagree [m]."""


def _ours(piece: PieceResult) -> float:
    """The figure of our own that other rules are told beside [m]; of sheet each has its own."""
    if isinstance(piece, SheetResult):
        return 0.0
    return piece.length if isinstance(piece, BarResult) else piece.taken + piece.weld


def _rule(label: str, why: str, values: Sequence[tuple[str, str]]) -> Part:
    """One rule, whom it concerns, and what it comes to for each of them."""
    head = f"{', '.join(name for name, _ in values)}, {label}  "
    says, by = "; ".join(dict.fromkeys(says for _, says in values)), whose(why)
    shown = f"{says}, {by}" if by and len(head + says + by) < LINE else says
    return row(words(head, FINE, bold=True), words(shown, FINE))


LINE = 68
"""Letters that a line of half the page's width holds in fine type."""


def whose(why: str) -> str:
    """Who printed a rule, and how sure that is: the head of its source, as `W. L. Ilgen`; "" where it names none."""
    if not why.endswith("]"):
        return ""
    source, kind = why[:-1].rsplit("[", 1)
    head = source.split(",")[0].strip()
    return head if kind == "handbook" or kind in head else f"{head}, {kind}"


def how_sure(copy: Copy) -> Part:
    """What no print has confirmed, and why figures are a range."""
    told = () if copy.plan is None else unproved(copy)  # these stand at the head of the plan
    unconfirmed = tuple(one for one in copy.not_validated if one not in told)
    reasons: dict[str, list[str]] = {}
    for piece in copy.pieces:
        if not isinstance(piece, SheetResult):
            for why in piece.stock.why:
                reasons.setdefault(why, []).append(piece.spec.name)
    once = [why for why in reasons if not (_of_scale(why) and any(_of_scale(says) for says in unconfirmed))]
    lines = [words(f"{sentence(why)[:-1]} ({', '.join(reasons[why])}).", FINE) for why in once]
    if unconfirmed:
        lead = words("Not confirmed by anything printed: ", FINE, bold=True)
        lines.append(row(lead, words(" ".join(unconfirmed), FINE)))
    return stack(heading("How sure this is"), bullets(lines)) if lines else NOTHING


def _of_scale(says: str) -> bool:
    """Whether a line tells how sure the loss to scale is."""
    return says.lower().startswith("scale") and "an estimate" in says


def cautions_parts(copy: Copy) -> tuple[Part, ...]:
    """The cautions for whoever makes it; then those for whoever uses it, with notes and finish beside them."""
    work, use = _of_cautions(copy)
    heads, english = ("Cautions for this work", "Cautions for its use"), copy.shop.english
    if not work or not use:
        return (_cautions(heads[0], work, english), _cautions(heads[1], use, english))
    for_users = (_cautions(heads[1], use, english, 1), notes_part(copy), finish_part(copy))
    there = [one for one in for_users if one is not NOTHING]
    return (_cautions(heads[0], work, english), beside(there, ["1fr"] * len(there)))


def _of_cautions(copy: Copy) -> tuple[list[Caution], list[Caution]]:
    """Those for whoever makes it, and those for whoever uses it."""
    return [one for one in copy.cautions if not for_use(one)], [one for one in copy.cautions if for_use(one)]


def for_use(caution: Caution) -> bool:
    """Whether a caution concerns the finished piece, and not the work."""
    return bool(caution.uses) or caution.key in ("load", "chain-load")


def _cautions(title: str, cautions: Sequence[Caution], english: str, columns: int = 3) -> Part:
    lines = [words(in_english(one.says, english), FINE) for one in cautions]
    return stack(heading(title), bullets(lines, columns, Sign.DASH)) if lines else NOTHING


def faults_part(copy: Copy) -> Part:
    """The usual faults of these operations and their cures, but for those that stand at a step of the plan."""
    english = copy.shop.english
    already = faults_told(copy, copy.plan) if copy.plan is not None else frozenset()
    keys = of_job(copy.pieces, copy.joints, "", copy.shop)
    told = [(in_english(f.shows, english), in_english(f.cure, english)) for f in faults_of(keys) if f not in already]
    lines = [row(words(f"{sentence(shows)[:-1]}: ", FINE, bold=True), words(cure, FINE)) for shows, cure in told]
    return stack(heading("Faults and cures", "common practice"), bullets(lines, 3)) if lines else NOTHING


def notes_part(copy: Copy) -> Part:
    """The smith's own notes, as written."""
    lines = [words(says, BODY) for says in copy.job.notes]
    return stack(heading("Notes"), bullets(lines, sign=Sign.DASH)) if lines else NOTHING


def finish_part(copy: Copy) -> Part:
    """The finish, as asked."""
    return stack(heading("Finish"), words(copy.job.finish, BODY)) if copy.job.finish else NOTHING


def notes_and_finish(copy: Copy) -> Part:
    """Notes and finish side by side, where there are both; nothing where they stand beside the cautions."""
    if all(_of_cautions(copy)):
        return NOTHING
    there = [part for part in (notes_part(copy), finish_part(copy)) if part is not NOTHING]
    return beside(there, ["2fr", "1fr"]) if len(there) == 2 else stack(*there)


def happened() -> Part:
    """Lines to write on what really happened, for the next one."""
    names = ["Stock used", "Finished length", "Heats", "Minutes", "Date", "Change next time"]
    return keep(stack(heading("What really happened"), lines_to_fill(names, 3), gap=0))


def sign_off() -> Part:
    """A box for a class: who made it, who saw it, when."""
    box = boxed(lines_to_fill(["Student", "Signed off by instructor", "Date"], 3))
    return keep(stack(words("", 4), box, gap=0))
