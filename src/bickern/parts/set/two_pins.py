"""Two pins through the same two parts: on one line they are a hinge, side by side they hold both fast."""

from collections.abc import Sequence
from itertools import combinations

from bickern.geometry.space import cross, minus, norm
from bickern.measure.finding import Finding, note
from bickern.parts.set.stacks import Stack

NEAR = 0.5e-3
"""Metres that two pins may be off one line and still be a hinge (common practice: a hair of hand work)."""
SQUARE = 0.02
"""Radians that their ways may differ."""


def held_fast_by_two(turning: Sequence[Stack]) -> tuple[tuple[Stack, ...], tuple[Stack, ...], tuple[Finding, ...]]:
    """The pins that hold fast, those that let their parts turn, and a note for each pair that holds fast."""
    pairs = [(a, b) for a, b in combinations(turning, 2) if _same_two(a, b) and not _on_one_line(a, b)]
    fast = {id(stack) for pair in pairs for stack in pair}
    return (
        tuple(s for s in turning if id(s) in fast),
        tuple(s for s in turning if id(s) not in fast),
        tuple(_note(a, b) for a, b in pairs),
    )


def _same_two(one: Stack, other: Stack) -> bool:
    return len(one.parts) > 1 and set(one.parts) == set(other.parts)


def _on_one_line(one: Stack, other: Stack) -> bool:
    """Looked at in each part by itself, as each is made."""
    return all(_in_line(one, other, part) for part in one.parts)


def _in_line(one: Stack, other: Stack, part: int) -> bool:
    first, second = (next(at.spot.pose for at in s.ats if at.part == part) for s in (one, other))
    off = norm(cross(minus(second.origin, first.origin), first.z))
    return off <= NEAR and norm(cross(first.z, second.z)) <= SQUARE


def _note(one: Stack, other: Stack) -> Finding:
    places = " and ".join(dict.fromkeys((*one.joint.through, *other.joint.through)))
    says = f"the two {one.joint.kind}s through {places} stand side by side: they hold the parts fast, nothing turns"
    tries = "for a hinge put both on one line, or leave one out"
    return note("two-pins-hold-fast", says, tries, other.joint.where)
