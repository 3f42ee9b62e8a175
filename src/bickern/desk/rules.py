"""The named rule choices of a shop, each with its source; where there is no choice, why."""

from math import isclose
from pathlib import Path

from bickern.desk.asker import shop_at
from bickern.making.shop import Shop
from bickern.measure.finding import Finding
from bickern.measure.source import Rule
from bickern.parts.bar.rules import (
    BEND_RULES,
    CORNER_RULES,
    FULLNESS_RULES,
    OTHER_RULES,
    SLIT_RULES,
    corner_fullness,
)
from bickern.parts.eye import EYE_RULES
from bickern.parts.joint.rules import COLLAR_RULES, PIN_RULE, RIVET_RULES, TENON_RULES
from bickern.parts.ring.rules import RING_RULES, SPRING_RULE
from bickern.parts.sheet.rules import EDGE_RULES, FOLD_RULES, SEAM_RULES, SIZE_RULES, WIRE_RULES, wire_allowance
from bickern.parts.weld import WELD_RULES

RuleRow = tuple[str, str, str]

CHOSEN: dict[str, tuple[tuple[str, str], ...]] = {
    "weld allowance": (("bars", "weld"), ("rings", "weld"), ("joints", "weld")),
    "bend": (("bars", "bend"),),
    "slit": (("bars", "slit"),),
    "length of an eye": (("bars", "eye"),),
    "corners full": (("bars", "corners full"),),
    "length of a ring": (("rings", "length"),),
    "fold": (("sheet", "fold"),),
    "grooved seam": (("sheet", "groove"),),
    "wired edge": (("sheet", "wire"),),
    "collar": (("joints", "collar"),),
    "rivet": (("joints", "rivet"),),
    "tenon": (("joints", "tenon"),),
}
"""Where a shop file names its rule for each use: the group and the word."""

_EXACT, _WARNS = "exact mathematics alone", "it warns and reckons nothing"
NO_CHOICE: dict[str, str] = {
    "corner": "told in the job, bend by bend; the extra of an upset one is `bars: {upset corner: ...}`",
    "twist shortening": "no other was found in print; a share of the shop's own is `bars: {twist shortening: ...}`",
    "twist strain": _EXACT,
    "twist limits": _WARNS,
    "scale": "print has ranges and no other rule; the shop's own are `bars: {scale worked: ..., scale kept: ...}`",
    "slug": "no other was found in print",
    "upset at once": _WARNS,
    "spread without an upset": _WARNS,
    "wall beside a hole": _WARNS,
    "spring back": "the wire's section decides; its own figures are `rings: {cold yield in MPa: ...}`",
    "smallest inside radius": "the shop's own is `sheet: {smallest radius: ...}`",
    "rivet edge": "the shop's own is `sheet: {rivet edge: ...}`",
    "rivet pitch": "the shop's own is `sheet: {rivet pitch: ...}`",
    "rivet hole": "the shop's own is `sheet: {rivet clearance: ...}`",
    "hem": "told in the job, single or double; the shop's own widths are `sheet: {hem: ..., double hem: ...}`",
    "rolled eye": _EXACT,
    "sizes": _EXACT,
    "bowl": _EXACT,
    "far apex": "it says how a cone is laid out, and not how large it is",
    "pin": "no other was found in print",
}
"""Why no rule is named for a use, and what a shop tells instead."""


def all_rules() -> tuple[Rule, ...]:
    """Every published rule that bickern knows."""
    bar = (*WELD_RULES, *BEND_RULES, *EYE_RULES, *CORNER_RULES, *FULLNESS_RULES, *SLIT_RULES, *OTHER_RULES)
    return (
        *bar,
        *RING_RULES,
        SPRING_RULE,
        *FOLD_RULES,
        *SEAM_RULES,
        *EDGE_RULES,
        *SIZE_RULES,
        *COLLAR_RULES,
        *RIVET_RULES,
        *TENON_RULES,
        PIN_RULE,
    )


def rules_by_use(
    shop_path: Path | None = None,
) -> tuple[tuple[tuple[str, tuple[RuleRow, ...]], ...], tuple[Finding, ...]]:
    """For each use its rows (star where chosen, name, formula and source), and what was found in the shop file."""
    shop, findings = shop_at(shop_path)
    chosen = _chosen(shop)
    uses = dict.fromkeys(r.about for r in all_rules())
    groups = {use: tuple(_row(r, chosen) for r in all_rules() if r.about == use) for use in uses}
    return tuple(groups.items()), findings


def _row(rule: Rule, chosen: frozenset[tuple[str, str]]) -> RuleRow:
    why = f" No choice: {NO_CHOICE[rule.about]}." if rule.about in NO_CHOICE else ""
    return "*" if (rule.about, rule.name) in chosen else "", rule.name, f"{rule.formula}. {rule.source}.{why}"


def _chosen(shop: Shop) -> frozenset[tuple[str, str]]:
    """The use and the name of every rule that the shop follows; none where it has a figure of its own."""
    named = {
        ("weld allowance", shop.bar.weld),
        ("weld allowance", shop.ring.weld),
        ("weld allowance", shop.joint.weld),
        ("bend", str(shop.bar.bend)),
        ("slit", shop.bar.slit),
        ("length of an eye", shop.bar.eye),
        ("length of a ring", shop.ring.length),
        ("fold", str(shop.sheet.fold)),
        ("grooved seam", str(shop.sheet.groove)),
        ("rivet", shop.joint.rivet),
        ("collar", shop.joint.collar),
        ("tenon", shop.joint.tenon),
    }
    wires = (shop.sheet.wire, shop.sheet.wire_sheets)
    named |= {(r.about, r.name) for r in WIRE_RULES if wire_allowance(r.name) == wires}
    full = shop.bar.corner_fullness
    named |= {(r.about, r.name) for r in FULLNESS_RULES if isclose(corner_fullness(r.name), full)}
    return frozenset(named)
