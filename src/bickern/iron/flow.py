"""How strongly iron resists when hot: flow stress of carbon steels by temperature, strain and rate of strain.

Shida's published formula, one for all carbon contents. Carbon is a share of the mass (0.0015: 0.15 %), temperatures
are in K, rates of strain in 1/s, stresses in Pa. Nothing here was measured under a hand hammer.
"""

import math

from bickern.measure.source import Kind, Source
from bickern.measure.spread import Spread, within
from bickern.measure.units.words import ZERO_C

KGF_PER_MM2 = 9.80665e6
"""Pa in a kilogram-force on a square millimetre (exact, by definition)."""
SHIDA_SOURCE = Source(
    "S. Shida", "Effect of carbon content, temperature and strain rate on compression flow-stress of carbon steel",
    1974, "as printed in public code, with the sign of the rate term and the cold branch mended: quoted", Kind.PAPER,
)  # fmt: skip
RATE_SOURCE = Source(
    "Y. Lee, B. M. Kim, K. J. Park, S. W. Seo, O. Min", "constitutive equation of carbon steel at high strain rates",
    2002, "exponents m/2.4 and m/15 as printed in public code: quoted", Kind.PAPER,
)  # fmt: skip
MOST_CARBON = 0.012
"""Share of carbon up to which Shida's formula was measured; beyond, it is that of this carbon."""
MOST_STRAIN = 0.7
"""Strain up to which it was measured; beyond, the stress stays what it is there."""
LEAST_RATE = 0.1
FAST, VERY_FAST = 100.0, 1000.0
"""Rates [1/s] above which the steel stiffens less with the rate."""


def flow_stress(carbon: float, temperature: float, strain: float, rate: float) -> float:
    """Resistance [Pa] of carbon steel (Shida; above 100/s by Lee's factors); 700 to 1200 C, strain to 0.7.

    `carbon` as a share of the mass, `temperature` [K], `strain` true, `rate` [1/s].
    """
    percent = _percent(carbon)
    return _strength(percent, temperature) * _hardened(percent, strain) * _hastened(percent, temperature, rate)


def mean_flow_stress(carbon: float, temperature: float, strain: float, rate: float) -> float:
    """The mean of `flow_stress` [Pa] from no strain up to `strain`: times strain and volume it is the ideal work."""
    percent = _percent(carbon)
    mean = _mean_hardened(percent, strain)
    return _strength(percent, temperature) * mean * _hastened(percent, temperature, rate)


def flow_doubt(temperature: float) -> float:
    """How far other published formulas lie from this one, as a share: 0.20 at 1000 C and over, 0.30 at 850 C.

    `temperature` in K. Hensel and Spittel lie within 0.15 and 0.20, Misaka lower by 0.05 to 0.27.
    """
    return 0.20 + 0.10 * max(0.0, (1000.0 + ZERO_C - temperature) / 150.0)


def flow_spread(carbon: float, temperature: float, strain: float, rate: float) -> Spread:
    """The mean flow stress [Pa] with its doubt."""
    doubt = flow_doubt(temperature)
    value = mean_flow_stress(carbon, temperature, strain, rate)
    return within(value, max(0.0, 1 - doubt), 1 + doubt, "published formulas of hot strength differ")


def _percent(carbon: float) -> float:
    return 100 * min(max(carbon, 0.0), MOST_CARBON)


def _strength(C: float, temperature: float) -> float:
    """Stress [Pa] at strain 0.2 and 10/s; below Td, where ferrite begins, by its own branch."""
    T, Td = temperature / 1000, _ferrite(C)
    if Td <= T:
        return KGF_PER_MM2 * 0.28 * math.exp(5 / T - 0.01 / (C + 0.05))
    g = 30 * (C + 0.9) * (T - 0.95 * (C + 0.49) / (C + 0.42)) ** 2 + (C + 0.06) / (C + 0.09)
    # 5/Td, not 5/T as public code has it: only so do the branches meet
    return KGF_PER_MM2 * 0.28 * g * math.exp(5 / Td - 0.01 / (C + 0.05))


def _ferrite(C: float) -> float:
    """Thousands of kelvin below which ferrite begins."""
    return 0.95 * (C + 0.41) / (C + 0.32)


def _hardening(C: float) -> float:
    return 0.41 - 0.07 * C


def _hardened(C: float, strain: float) -> float:
    """What strain makes of the stress at strain 0.2."""
    x = min(max(strain, 0.0), MOST_STRAIN) / 0.2
    return float(1.3 * x ** _hardening(C) - 0.3 * x)


def _mean_hardened(C: float, strain: float) -> float:
    """The mean of `_hardened` from 0 to the strain, in closed form."""
    if strain <= 0:
        return 0.0
    n, x = _hardening(C), min(strain, MOST_STRAIN) / 0.2
    within_formula = 0.2 * (1.3 * x ** (n + 1) / (n + 1) - 0.15 * x**2)
    beyond = max(0.0, strain - MOST_STRAIN) * _hardened(C, MOST_STRAIN)
    return float((within_formula + beyond) / strain)


def _rate_exponent(C: float, temperature: float) -> float:
    """Shida's m. Copies with -0.126 are misprints: iron would soften with the rate."""
    T = temperature / 1000
    if _ferrite(C) <= T:
        return (-0.019 * C + 0.126) * T + 0.075 * C - 0.05
    return (0.081 * C - 0.154) * T - 0.019 * C + 0.207 + 0.027 / (C + 0.32)


def _hastened(C: float, temperature: float, rate: float) -> float:
    """What the rate makes of the stress at 10/s. Lee's factors are taken above 100/s only, our own choice."""
    m, fast = _rate_exponent(C, temperature), max(rate, LEAST_RATE)
    factor = (fast / 10) ** m
    if fast > FAST:
        factor *= (fast / FAST) ** (m / 2.4)
    if fast > VERY_FAST:
        factor *= (fast / VERY_FAST) ** (m / 15)
    return float(factor)
