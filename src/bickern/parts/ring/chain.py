"""Chain of like links: how many for a length, how long it comes out, how the last link lies."""

from dataclasses import dataclass

from bickern.measure.finding import Finding, note, stop
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Read, Style
from bickern.parts.ring.lengths import Loop
from bickern.parts.ring.spec import ChainResult, ChainSpec

LEAST = 2
"""Fewer links than this are no chain."""


@dataclass(frozen=True, slots=True)
class Link:
    """One link reckoned: its loop, its bar [m] before rounding up, its mass [kg]."""

    loop: Loop
    bar: float
    mass: float


def nearest_links(length: float, pitch: float) -> int:
    """The number of links whose length (links x pitch) is nearest to the one asked; half-way takes one more."""
    return int(length / pitch + 0.5)


def last_lies(links: int) -> str:
    """How the last link lies to the first, links being a quarter turn from their neighbours."""
    if links % 2:
        return "in the same plane as the first (odd count)"
    return "a quarter turn from the first (even count)"


def hang_chain(spec: ChainSpec, link: Link) -> Read[ChainResult]:
    """The chain asked for, by count or by length; nothing is ever said of what it will carry."""
    pitch = link.loop.long
    faults = _faults(spec, pitch)
    if faults:
        return Read(None, faults)
    links = spec.links if spec.links is not None else nearest_links(spec.length or 0.0, pitch)
    length = links * pitch
    result = ChainResult(
        links, pitch, length, links * link.mass, links * link.bar, last_lies(links), length + 2 * link.loop.thick
    )
    return Read(result, _neighbours(spec, links, pitch))


def _faults(spec: ChainSpec, pitch: float) -> tuple[Finding, ...]:
    if (spec.links is None) == (spec.length is None):
        says = "A chain wants either its number of links or its length, and not both."
        return (stop("chain-size", says, "Write `links:` or `length:`.", spec.where),)
    if spec.links is not None and spec.links < LEAST:
        says = f"A chain of {spec.links} link{'' if spec.links == 1 else 's'} is no chain."
        return (stop("chain-too-short", says, "Ask for two links or more, or for a ring.", spec.where),)
    if spec.length is not None and spec.length < LEAST * pitch:
        says = f"{_both(spec.length)} is shorter than two links, which hang {_both(LEAST * pitch)} long."
        return (stop("chain-too-short", says, "Make the chain longer or the links shorter.", spec.where),)
    return ()


def _neighbours(spec: ChainSpec, links: int, pitch: float) -> tuple[Finding, ...]:
    """Where the length asked for falls between two counts: both are said, each with its length."""
    if spec.length is None or abs(links * pitch - spec.length) < 1e-6:
        return ()
    other = links + 1 if links * pitch < spec.length else links - 1
    says = (
        f"No whole number of links makes {_both(spec.length)}: {links} links come to {_both(links * pitch)}, "
        f"{other} to {_both(other * pitch)}. The nearer is taken."
    )
    tries = "An odd and an even count leave the end link turned otherwise: see which one suits."
    return (note("chain-length", says, tries, spec.where),)


def _both(length: float) -> str:
    return say_both(length, Style())
