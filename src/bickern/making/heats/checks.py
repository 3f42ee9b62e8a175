"""What this fire and these hands cannot do as it is asked: findings, in words."""

from collections.abc import Iterator
from math import cos, pi, sin

from bickern.making.heats.lies import Lying, thickness
from bickern.making.heats.near import placed
from bickern.making.heats.pack import Bench, zone_of
from bickern.making.heats.result import Spell
from bickern.making.shop import Shop
from bickern.measure.finding import Finding, note, warn
from bickern.measure.units.say import say_both
from bickern.parts.set.pieces import PieceResult

MORE = 1.05
"""How much more than its length a fire heats when it is blown up a little (our estimate)."""


def spell_findings(piece: PieceResult, bench: Bench, shop: Shop) -> Iterator[Finding]:
    """What is wrong with the heats of one piece, each at the piece's own line."""
    for spell in bench.unheld:
        yield _unheld(spell).at(piece.spec.where)
    for spell in bench.spells:
        if spell.hot:
            found = (_too_long(spell, shop), _hurried(spell), _kept_out(spell, bench, shop))
            yield from (f.at(piece.spec.where) for f in found if f is not None)


def _unheld(spell: Spell) -> Finding:
    says = f"{_doing(spell)}: no cold bar is left to hold it by"
    tries = "leave it on a longer bar (`grip:`) and cut it off last, or make a clamp for it"
    return warn("nothing-to-hold", says, tries)


def _too_long(spell: Spell, shop: Shop) -> Finding | None:
    """Work that wants one even heat over more bar than the fire heats at once."""
    whole = [w.zone for w in spell.works if w.whole and placed(w)]
    long = max((end - start for start, end in whole), default=0.0)
    if long <= MORE * zone_of(shop):
        return None
    fire = ("" if shop.fire.longest else "about ") + say_both(zone_of(shop), shop.style)
    doing = next(f"{spell.piece}: {w.does} {w.name}".rstrip() for w in spell.works if w.whole)
    says = f"{doing} wants {say_both(long, shop.style)} hot at once; the fire heats {fire}"
    return warn("zone-longer-than-fire", says, "draw the fire out longer with a wall of brick, or do it in two heats")


def _hurried(spell: Spell) -> Finding | None:
    """Work that must be ended in the heat it was begun in, and wants longer than a heat lasts.

    Of a weld only the first light blows must fall at the welding heat: the rest is done as it cools.
    """
    whole = any(w.whole and w.does != "weld" for w in spell.works)
    if not whole or spell.wants.value <= spell.gives.value:
        return None
    says = f"{_doing(spell)} takes about {spell.wants.value:.0f} s, and a heat gives about {spell.gives.value:.0f} s"
    tries = "lay everything ready, begin at the full heat, have help; else take a second heat"
    return note("one-heat-is-short", says, tries)


def _kept_out(spell: Spell, bench: Bench, shop: Shop) -> Finding | None:
    """A heat between two bends that are made already, both too large to go into the fire."""
    lying = bench.lying.get(spell.works[0].child)
    done = set(spell.done_before)
    if lying is None or not shop.fire.opening or not done:
        return None
    made = {i for s in bench.spells for w in s.works if w.key in done for i in w.bends}
    sides = (_blocks(lying, made, spell.zone, before=True), _blocks(lying, made, spell.zone, before=False))
    if min(sides) <= shop.fire.opening:
        return None
    wide = say_both(shop.fire.opening, shop.style)
    says = f"{_doing(spell)} lies between bends that do not go into the fire, which is {wide} wide"
    return warn("will-not-enter-fire", says, "bend one of them after it, or heat that place with a torch")


def _blocks(lying: Lying, made: set[int], zone: tuple[float, float], *, before: bool) -> float:
    """How far [m] the bar stands out of its line on one side of a zone, by the bends made there."""
    length, reach = lying.result.length, [0.0]
    for i in made:
        if i >= len(lying.result.bends):
            continue
        bend = lying.result.bends[i]
        if (bend.end <= zone[0]) if before else (bend.start >= zone[1]):
            long = bend.start if before else length - bend.end
            middle = bend.inside_radius + thickness(lying.result.stock_section) / 2
            turned = min(pi, (bend.end - bend.start) / middle)
            reach.append(long * sin(turned) + middle * (1 - cos(turned)))
    return max(reach)


def _doing(spell: Spell) -> str:
    return f"{spell.piece}: {spell.works[-1].does} {spell.works[-1].name}".rstrip()


def on_a_longer_bar(piece: PieceResult, stock: float, shop: Shop) -> Finding:
    """That a short piece is made on the end of a longer bar. `stock` [m] of it."""
    says = f"{piece.spec.name} is {say_both(stock, shop.style)} of bar: too little of it stays cold to hold it by"
    tries = "forge it on the end of a longer bar; the order of work says when to cut it off"
    return note("short-piece", says, tries).at(piece.spec.where)
