"""Kinds of fire by how much air is left in them: how fast iron scales in them."""

from enum import StrEnum


class Flame(StrEnum):
    """What the fire does to the skin of the iron."""

    OXIDISING = "oxidising"  # air to spare, as in a thin coal fire blown hard
    LEAN = "lean"  # a little oxygen left: most gas forges
    NEUTRAL = "near neutral"  # a deep coal fire, or a gas forge with a soft flame
