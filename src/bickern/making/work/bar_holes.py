"""The holes of one bar as works: punched, slit and drifted, or drilled once it is cold."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby, pairwise
from math import pi

from bickern.making.work.anvil import Anvil, cold_work, hot_work
from bickern.making.work.effort import drifting_work, punching_work, slitting_work
from bickern.making.work.result import Work
from bickern.parts.bar.hole import across_and_through, opening_area
from bickern.parts.bar.result import HoleCheck
from bickern.parts.bar.tracks import Hole, HoleBy

APART = 0.1
"""Holes of one row farther apart than this [m] are made in heats of their own (common practice)."""


def hole_works(anvil: Anvil) -> Iterator[Work]:
    """Every row of holes that lie in one heat's reach as one work; a slit hole as a slit and a drift."""
    for name, numbers in _rows(anvil):
        checks = [anvil.result.holes[i] for i in numbers]
        make = {HoleBy.DRILL: _drilled, HoleBy.PUNCH: _punched, HoleBy.SLIT: _slit}[checks[0].hole.by]
        for work in make(anvil, name, checks):
            many = f"{len(checks)} of them" if len(checks) > 1 else ""
            yield replace(work, holes=numbers, says=many)


def _rows(anvil: Anvil) -> Iterator[tuple[str, tuple[int, ...]]]:
    """Holes asked for together and near each other, by number, with what they are called."""
    checks = anvil.result.holes
    asked: list[Hole] = list(dict.fromkeys(c.hole for c in checks))
    for hole in asked:
        name = hole.name or ("hole" if len(asked) == 1 else f"hole {asked.index(hole) + 1}")
        near = _near([i for i, c in enumerate(checks) if c.hole == hole], checks)
        for which, row in enumerate(near, 1):
            yield (name if len(near) == 1 else f"{name} {which}"), row


def _near(numbers: list[int], checks: tuple[HoleCheck, ...]) -> list[tuple[int, ...]]:
    breaks = [0]
    for one, two in pairwise(numbers):
        breaks.append(breaks[-1] + (checks[two].at - checks[one].at > APART))
    paired = groupby(zip(breaks, numbers, strict=True), key=lambda pair: pair[0])
    return [tuple(number for _, number in row) for _, row in paired]


def _zone(anvil: Anvil, checks: list[HoleCheck]) -> tuple[float, float]:
    half = max(c.hole.long or c.slit or c.hole.size for c in checks) / 2
    return anvil.within(checks[0].at - half, checks[-1].at + half)


def _through(anvil: Anvil, check: HoleCheck) -> float:
    return across_and_through(check.hole, check.at, anvil.result.runs)[1]


def _rim(hole: Hole) -> float:
    return pi * hole.size if hole.long is None else 2 * (hole.long + hole.size)


def _punched(anvil: Anvil, name: str, checks: list[HoleCheck]) -> Iterator[Work]:
    zone = _zone(anvil, checks)
    stress = anvil.stress("punch", zone)
    energy = sum(punching_work(opening_area(c.hole), _rim(c.hole), _through(anvil, c), stress) for c in checks)
    work = hot_work(anvil, "punch", name, zone, energy, len(checks))
    yield replace(work, amount=checks[0].hole.size, metal=sum(c.slug for c in checks))


def _slit(anvil: Anvil, name: str, checks: list[HoleCheck]) -> Iterator[Work]:
    zone, many = _zone(anvil, checks), len(checks)
    slit = sum(slitting_work(c.slit or c.hole.size, _through(anvil, c), anvil.stress("slit", zone)) for c in checks)
    yield replace(hot_work(anvil, "slit", name, zone, slit, many), amount=checks[0].slit or checks[0].hole.size)
    drift = sum(drifting_work(opening_area(c.hole), _through(anvil, c), anvil.stress("drift", zone)) for c in checks)
    moved = sum(opening_area(c.hole) * _through(anvil, c) for c in checks)
    yield replace(hot_work(anvil, "drift", name, zone, drift, many), amount=checks[0].hole.size, metal=moved)


def _drilled(anvil: Anvil, name: str, checks: list[HoleCheck]) -> Iterator[Work]:
    """Drilled cold, never in the heat."""
    metal = sum(opening_area(c.hole) * _through(anvil, c) for c in checks)
    work = cold_work(anvil, "drill", name, _zone(anvil, checks), "drill", metal)
    yield replace(work, amount=checks[0].hole.size, metal=metal)
