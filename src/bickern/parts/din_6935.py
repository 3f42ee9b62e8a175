"""DIN 6935: where a bend keeps its length. Used by bars and sheet alike."""

from math import log10

from bickern.measure.source import Kind, Source

DIN_6935 = Source("DIN", "DIN 6935 Kaltbiegen von Flacherzeugnissen aus Stahl", 2011, "factor k", Kind.STANDARD)
"""The formula was read on a secondary page; the standard's own table is from memory."""


def din_k(inside_radius: float, thick: float) -> float:
    """Factor k of DIN 6935 for inside radius and thickness [m]: share of half the thickness (0..1)."""
    if inside_radius <= 0.0:
        return 0.0
    return min(1.0, max(0.0, 0.65 + 0.5 * log10(inside_radius / thick)))
