"""The named rule choices of a shop, each with its source."""

from pathlib import Path

from bickern.desk.asker import shop_at
from bickern.making.shop import Shop
from bickern.measure.finding import Finding
from bickern.measure.source import Rule
from bickern.parts.bar.rules import BEND_RULES, CORNER_RULES, OTHER_RULES, SLIT_RULES
from bickern.parts.joint.rules import COLLAR_RULES, RIVET_RULES, TENON_RULES
from bickern.parts.ring.rules import RING_RULES
from bickern.parts.sheet.rules import EDGE_RULES, FOLD_RULES, SEAM_RULES, SIZE_RULES
from bickern.parts.weld import WELD_RULES

RuleRow = tuple[str, str, str]


def all_rules() -> tuple[Rule, ...]:
    """Every published rule that bickern knows."""
    bar = (*WELD_RULES, *BEND_RULES, *CORNER_RULES, *SLIT_RULES, *OTHER_RULES)
    return (
        *bar,
        *RING_RULES,
        *FOLD_RULES,
        *SEAM_RULES,
        *EDGE_RULES,
        *SIZE_RULES,
        *COLLAR_RULES,
        *RIVET_RULES,
        *TENON_RULES,
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


def _row(rule: Rule, chosen: frozenset[str]) -> RuleRow:
    return "*" if rule.name in chosen else "", rule.name, f"{rule.formula}. {rule.source}"


def _chosen(shop: Shop) -> frozenset[str]:
    names = (
        shop.bar.weld,
        shop.ring.weld,
        shop.bar.bend,
        shop.bar.slit,
        shop.joint.rivet,
        shop.joint.collar,
        shop.joint.tenon,
    )
    return frozenset(str(n) for n in names)
