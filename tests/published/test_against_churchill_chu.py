"""Against the convection of Churchill and Chu (1975) and McAdams (1954), as the library `ht` has them.

Kind: paper. Quoted by a secondary page: the formulas were set down from memory and are held against `ht` 1.2, a general
library of heat transfer that reckons them by itself. Air is from memory, held against Sutherland's laws (F. M. White,
Viscous Fluid Flow; from memory too). For thin bars the library's other two formulas for a cylinder give a fifth to a
quarter more heat to the air; that is 2 to 4 % in seconds.
"""

import math

import ht
import pytest

from bickern.iron.heat.air import (
    AIR,
    air_at,
    cylinder_in_air,
    nusselt_cylinder,
    nusselt_plate_on_edge,
    rayleigh,
    sheet_in_air,
)

RAYLEIGHS = [1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e8]
PRANDTLS = [0.68, 0.70, 0.73]
free = ht.conv_free_immersed


@pytest.mark.parametrize("Ra", RAYLEIGHS)
@pytest.mark.parametrize("Pr", PRANDTLS)
def test_a_bar_lying_level(Ra: float, Pr: float):
    assert nusselt_cylinder(Ra, Pr) == pytest.approx(free.Nu_horizontal_cylinder_Churchill_Chu(Pr, Ra / Pr), rel=1e-12)


@pytest.mark.parametrize("Ra", RAYLEIGHS)
@pytest.mark.parametrize("Pr", PRANDTLS)
def test_a_sheet_on_edge(Ra: float, Pr: float):
    assert nusselt_plate_on_edge(Ra, Pr) == pytest.approx(free.Nu_vertical_plate_Churchill(Pr, Ra / Pr), rel=1e-12)


def test_a_sheet_lying_level_gives_much_the_same():
    """McAdams has a level plate on its area over girth: the mean of both faces of a 100 mm square, at 1000 C."""
    skin, room, size = 1273.15, 293.15, 0.100 / 4
    film = air_at((skin + room) / 2)
    Gr = rayleigh(film, size, skin - room) / film.prandtl
    faces = [free.Nu_horizontal_plate_McAdams(film.prandtl, Gr, buoyancy=over) for over in (True, False)]
    level = sum(faces) / 2 * film.conductivity / size
    assert level == pytest.approx(sheet_in_air(skin, room), rel=0.15)


@pytest.mark.parametrize("row", AIR, ids=lambda row: f"{row.temperature} K")
def test_air_follows_the_laws_of_gases(row):
    """Viscosity and conductivity by Sutherland at one atmosphere: within 4 %."""
    t = row.temperature
    viscosity = 1.716e-5 * (t / 273.15) ** 1.5 * (273.15 + 110.4) / (t + 110.4) * 287.05 * t / 101325
    conductivity = 0.0241 * (t / 273.15) ** 1.5 * (273.15 + 194) / (t + 194)
    assert row.viscosity == pytest.approx(viscosity, rel=0.04)
    assert row.conductivity == pytest.approx(conductivity, rel=0.04)


@pytest.mark.parametrize(("millimetres", "share"), [(5, 0.30), (10, 0.30), (25, 0.15), (50, 0.15)])
def test_other_formulas_stand_as_far_off_as_is_said(millimetres: int, share: float):
    skin, room = 1273.15, 293.15
    film = air_at((skin + room) / 2)
    d = millimetres * 1e-3
    Gr = rayleigh(film, d, skin - room) / film.prandtl
    ours = cylinder_in_air(d, skin, room)
    for theirs in (free.Nu_horizontal_cylinder_Morgan, free.Nu_horizontal_cylinder_Kuehn_Goldstein):
        other = theirs(film.prandtl, Gr) * film.conductivity / d
        assert 0 < math.log(other / ours) < math.log(1 + share)
