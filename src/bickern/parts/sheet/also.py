"""What other published rules would make of a piece of sheet, to print beside the shop's own: folds, wires, seams."""

from dataclasses import replace

from bickern.parts.sheet.allowances import FoldRule, GrooveRule, SheetRules
from bickern.parts.sheet.pan import flat_sizes, fold_of
from bickern.parts.sheet.rims import allowance
from bickern.parts.sheet.rules import FOLD_RULES, SEAM_RULES, WIRE_RULES, wire_allowance
from bickern.parts.sheet.spec import Edge, EdgeKind, Pan, Seam, SheetSpec, Surface
from bickern.parts.sheet.trim import shares

Also = tuple[tuple[str, float, str], ...]
_SOURCES = {rule.name: str(rule.source) for rule in (*FOLD_RULES, *SEAM_RULES)}
NEAR = 1e-9
"""Metres within which two rules say the same."""


def also_by_rule(spec: SheetSpec, middle: Surface, rules: SheetRules) -> Also:
    """(label, value [m], source) by every rule but the shop's own, for what of this piece goes by a rule.

    How a grooved seam is shared between its edges is left out: by every rule it takes the same in all.
    """
    pan = also_pan(middle, spec.thick, rules) if isinstance(middle, Pan) else ()
    wired = (also_wired(e, spec.thick, rules) for e in spec.edges if e.kind is EdgeKind.WIRED)
    return tuple(dict.fromkeys((*pan, *(row for rows in wired for row in rows))))


def also_pan(pan: Pan, thick: float, rules: SheetRules) -> Also:
    """The flat of a pan (outside sizes) with its folds by each other rule."""
    found = []
    for rule in FoldRule:
        if rule is not rules.fold:
            wide, long = flat_sizes(pan, fold_of(pan, thick, replace(rules, fold=rule)))
            found.append((f"left to right by {rule}", wide, _SOURCES[rule]))
            found.append((f"front to back by {rule}", long, _SOURCES[rule]))
    return tuple(found)


def also_wired(edge: Edge, thick: float, rules: SheetRules) -> Also:
    """What a wired edge takes by each other rule."""
    ours, found = allowance(edge, rules, thick), []
    for rule in WIRE_RULES:
        wires, sheets = wire_allowance(rule.name)
        other = allowance(edge, replace(rules, wire=wires, wire_sheets=sheets), thick)
        if abs(other - ours) > NEAR:
            found.append((f"wired {edge.on} edge by {rule.name}", other, str(rule.source)))
    return tuple(found)


def also_shared(seam: Seam, thick: float, rules: SheetRules) -> Also:
    """What a grooved seam takes on either edge by each other rule."""
    found = []
    for rule in GrooveRule:
        if rule is not rules.groove:
            both = shares(seam, thick, replace(rules, groove=rule))
            for edge, value in (("one", both.start), ("other", both.end)):
                found.append((f"on the {edge} edge by {rule}", value, _SOURCES[rule]))
    return tuple(found)
