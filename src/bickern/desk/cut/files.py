"""The cut plan as files and as JSON."""

from typing import Any

from bickern.desk.cut.cut import CutPlan
from bickern.measure.finding import Finding, note
from bickern.paper.pens.page import PAPERS


def files_of(plan: CutPlan, paper: str) -> dict[str, bytes]:
    """File name -> content of all that is printed of a plan; nothing where there is none."""
    from bickern.paper.cut_packet import cut_packet

    return cut_packet(plan.copy, PAPERS[paper]) if plan.copy is not None else {}


def not_at_full_size(plan: CutPlan, paper: str) -> tuple[Finding, ...]:
    """A note for each sheet that would take more pages at full size than a person will tape together."""
    from bickern.paper.cut_packet import MOST_PAGES, pages_by_area, printed_nests

    every = () if plan.copy is None else printed_nests(plan.copy)
    counts = [(name, pages_by_area(picture, PAPERS[paper])) for name, picture in every]
    many = [(name, n) for name, n in counts if n > MOST_PAGES]
    way = (
        "draw it on the sheet from its DXF or SVG, or take larger paper; each pattern alone comes with `bickern sheets`"
    )
    says = "{} at full size would take about {} pages of {}: they are left out"
    return tuple(note("nest-pages-left-out", says.format(name, n, paper), way) for name, n in many)


def as_json(plan: CutPlan, taken: tuple[str, ...] | Finding | None = None) -> str:
    """The plan as JSON (where there is none, its findings alone), and the ids of the drops where it was `taken`."""
    from bickern.paper.cut_packet import SCHEMA, VERSION, findings_told, plan_told
    from bickern.paper.export import as_json as as_text

    told: dict[str, Any] = {"schema": SCHEMA, "schema_version": VERSION, "findings": findings_told(plan.findings)}
    if plan.copy is not None:
        told = plan_told(plan.copy)
    if isinstance(taken, Finding):
        told["findings"] = [*told["findings"], *findings_told((taken,))]
    elif taken is not None:
        drops = [(use.id, name) for use in plan.taking.uses for name in use.left]
        told["taken"] = [{"id": name, "of": of} for (of, _), name in zip(drops, taken, strict=True)]
    return as_text(told)
