"""The cut plan as files and as JSON."""

import json

from bickern.desk.cut import CutPlan
from bickern.paper.pens.page import PAPERS


def files_of(plan: CutPlan, paper: str) -> dict[str, bytes]:
    """File name -> content of all that is printed of a plan; nothing where there is none."""
    from bickern.paper.cut_packet import cut_packet

    return cut_packet(plan.copy, PAPERS[paper]) if plan.copy is not None else {}


def as_json(plan: CutPlan) -> str:
    """The plan as JSON; where there is none, its findings alone."""
    from bickern.paper.cut_packet import SCHEMA, VERSION, findings_told, plan_json

    if plan.copy is not None:
        return plan_json(plan.copy)
    told = {"schema": SCHEMA, "schema_version": VERSION, "findings": findings_told(plan.findings)}
    return json.dumps(told, ensure_ascii=False, indent=1, sort_keys=True) + "\n"
