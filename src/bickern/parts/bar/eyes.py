"""A bar that is nothing but a shank and an eye: how far the eye reaches past its mark, and what it wants for a weld."""

from dataclasses import dataclass

from bickern.iron.section import Section
from bickern.measure.units.words import Read
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.reckon import reckon_bar
from bickern.parts.bar.tracks import BarSpec, Blank, EyeLeg, Metal, StraightLeg
from bickern.parts.bar.turns import DOWN

_SHANK = 20
"""Thicknesses of straight bar before the eye, so that the eye alone is the widest part (any number does)."""


@dataclass(frozen=True, slots=True)
class Eye:
    """An eye reckoned [m]: its middle line across, the weld, the reach past its mark; stretch of its skin [-]."""

    mean_across: float
    weld: float
    past: float
    strain: float


def reckon_eye(
    section: Section, inside: float, rules: BarRules, density: float, *, centred: bool = True, welded: bool = False
) -> Read[Eye]:
    """An eye `inside` [m] across in the end of a bar, its hole on the bar's line (`centred`) or beside it."""
    shank = _SHANK * section.thick
    path = (StraightLeg(shank), EyeLeg(inside, turn=DOWN, centred=centred, welded=welded))
    done = reckon_bar(BarSpec("eye", section, "", (Metal(Blank.REST),), path), rules, density)
    if done.value is None:
        return Read(None, done.findings)
    bar = done.value
    eye = Eye(inside + section.thick, bar.weld, bar.sizes.reach - shank, bar.bends[0].strain)
    return Read(eye, done.findings)
