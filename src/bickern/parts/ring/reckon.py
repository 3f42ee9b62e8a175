"""The main question of this room: what does this ring, link, coil or chain take, and can it be made."""

from dataclasses import replace
from math import pi

from bickern.iron.section import area
from bickern.measure.finding import Finding, stopping
from bickern.measure.units.words import Read
from bickern.parts.ring.chain import Link, hang_chain
from bickern.parts.ring.checks import bending_findings, coil_findings, rule_findings, size_faults
from bickern.parts.ring.coil import wind
from bickern.parts.ring.lengths import Loop, loop_of, stock_of, up_to, weld_of
from bickern.parts.ring.rules import BY_MIDDLE, RING_RULES, WITHOUT_WELD, held_weld
from bickern.parts.ring.spec import ChainResult, Closing, RingResult, RingRules, RingSpec
from bickern.parts.ring.strain import opening_strain
from bickern.parts.weld import WELD_RULES, weld_allowance


def reckon_ring(spec: RingSpec, rules: RingRules, density: float) -> Read[RingResult]:
    """Bar, mass, strain, coil and chain of a ring; `density` [kg/m3].

    Length by the shop's rule, else by the middle of the metal; the finished ring holds that length of bar (Pappus), the
    weld's share is lost or upset into it. What is wound is made by its mandrel, so no rule for a cut length is asked.
    Faults that stop the reckoning leave no value.
    """
    loop = loop_of(spec)
    faults = size_faults(spec, loop)
    if faults or loop is None:
        return _nothing(spec, faults)
    if spec.wound:
        rules = replace(rules, length=BY_MIDDLE)
    ring = _one_ring(spec, rules, loop, density)
    chain = hang_chain(spec.chain, Link(loop, ring.stock.value, ring.mass)) if spec.chain else None
    if chain is not None and chain.value is None:
        return _nothing(spec, chain.findings)
    hung = chain.value if chain else None
    by_rule = rule_findings(replace(ring, chain=hung), loop)
    if stopping(by_rule):
        return _nothing(spec, by_rule)
    coil = wind(spec, rules, loop, ring.stock.value, _count(spec, hung)) if spec.wound else None
    said = (
        *by_rule,
        *(chain.findings if chain else ()),
        *bending_findings(spec, rules, loop, ring.opening_strain),
        *(coil_findings(spec, rules, loop, coil) if coil else ()),
    )
    findings = tuple(f.at(spec.where) for f in said)
    return Read(replace(ring, chain=hung, coil=coil, findings=findings), findings)


def _one_ring(spec: RingSpec, rules: RingRules, loop: Loop, density: float) -> RingResult:
    taken, weld = loop.by(rules.length), weld_of(spec.closing, rules, loop.thick)
    stock = stock_of(taken, weld, spec.closing, loop.thick)
    return RingResult(
        spec=spec,
        inside_across=loop.across,
        inside_long=loop.long,
        outside_across=loop.across + 2 * loop.thick,
        outside_long=loop.long + 2 * loop.thick,
        bare=loop.line,
        weld=weld,
        stock=stock,
        cut_this=up_to(stock.value, rules.tape),
        mass=area(spec.wire) * taken * density,
        strain=loop.strain,
        opening_strain=opening_strain(spec.wire, loop.line / (2 * pi)),
        taken=taken,
        rule=rules.length,
        also=other_rules(spec.closing, loop, rules),
    )


def _count(spec: RingSpec, chain: ChainResult | None) -> int:
    """Rings that one set takes off the coil."""
    return spec.make * (chain.links if chain else 1)


def other_rules(closing: Closing, loop: Loop, rules: RingRules) -> tuple[tuple[str, float, str], ...]:
    """What other published rules would cut, side by side: (rule, length [m], source); ovals go by weld rules alone.

    A welded ring: the rules that hold a weld, then the plain middle line with each weld; what says the same as the shop
    is left out.
    """
    welded = closing is Closing.WELDED
    found = (*(() if loop.long > loop.across else _by_ring(loop, welded)), *(_by_weld(loop, rules) if welded else ()))
    ours = loop.by(rules.length) + weld_of(closing, rules, loop.thick)
    return tuple(one for one in found if abs(one[1] - ours) > ALIKE)


ALIKE = 1e-9
"""Metres within which two rules cut the same."""


def _by_ring(loop: Loop, welded: bool) -> tuple[tuple[str, float, str], ...]:
    named = [r for r in RING_RULES if (r.name in WITHOUT_WELD) is not welded]
    return tuple((r.name, _whole(r.name, loop), str(r.source)) for r in named)


def _by_weld(loop: Loop, rules: RingRules) -> tuple[tuple[str, float, str], ...]:
    """The bare length with each weld: by the shop's rule where that has no weld in it, else by the middle line."""
    bare = loop.by(rules.length if rules.length in WITHOUT_WELD else BY_MIDDLE)
    return tuple((f"weld: {r.name}", bare + weld_allowance(r.name, loop.thick), str(r.source)) for r in WELD_RULES)


def by_every_rule(loop: Loop) -> tuple[tuple[str, float], ...]:
    """Bar [m] by each published rule: those for rings where it is round, then its middle line with each weld."""
    welds = tuple((f"weld: {r.name}", loop.line + weld_allowance(r.name, loop.thick)) for r in WELD_RULES)
    if loop.long > loop.across:
        return welds
    return (*((r.name, _whole(r.name, loop)) for r in RING_RULES), *welds)


def _whole(rule: str, loop: Loop) -> float:
    """Bar [m] for a round ring by a rule, with the weld that it holds."""
    return loop.by(rule) + (held_weld(rule, loop.thick) or 0.0)


def _nothing(spec: RingSpec, faults: tuple[Finding, ...]) -> Read[RingResult]:
    return Read(None, tuple(f.at(spec.where) for f in faults))
