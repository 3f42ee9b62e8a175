"""Hensel and Spittel's formula of hot strength, one row for each steel: what ours, which is Shida's, is held against.

Rows as public code (plug-ins of TU Freiberg for rolling) has them from M. Spittel and T. Spittel, Metal forming data of
ferrous alloys, Landolt-Boernstein VIII/2C1, 2009 (quoted); C15 from the data of M. Weiner et al., Rolling process
variation estimation using a Monte Carlo method, 2024, after the same.
"""

import math
from dataclasses import dataclass

ZERO_C = 273.15


@dataclass(frozen=True, slots=True)
class Spittel:
    """One row: A [MPa] and the exponents m1 m2 m4 m5 m7 m8 (temperature in C)."""

    A: float
    m1: float
    m2: float
    m4: float
    m5: float
    m7: float
    m8: float


SPITTEL: dict[str, Spittel] = {
    "C15": Spittel(2098.29, -0.00272, 0.22312, -0.00003, 0.00028, -0.58508, 0.000137),
    "C20": Spittel(3304.39, -0.00281, 0.34766, 0.00002, -0.00130, 0.07632, 0.000148),
    "C45": Spittel(3268.49, -0.00267855, 0.34446, 0.000551814, -0.00132042, 0.0166334, 0.000149907),
    "S355J2": Spittel(2852.66, -0.00244, 0.41934, 0.00088, -0.00149, 0.12169, 0.000127),
}
"""Rows by steel; about 800 to 1200 C and strain 0.04 to 1.5; up to which rate was not seen."""


def spittel_stress(row: Spittel, temperature: float, strain: float, rate: float) -> float:
    """Flow stress [Pa]: A e^(m1 t) e^m2 exp(m4/e) (1+e)^(m5 t) exp(m7 e) r^(m8 t), t in C."""
    t = temperature - ZERO_C
    bent = strain**row.m2 * math.exp(row.m4 / strain) * (1 + strain) ** (row.m5 * t) * math.exp(row.m7 * strain)
    return float(1e6 * row.A * math.exp(row.m1 * t) * bent * rate ** (row.m8 * t))
