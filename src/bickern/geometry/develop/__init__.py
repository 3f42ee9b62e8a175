"""Surfaces laid flat on their neutral surface, and rolled up again from the flat pattern."""

from bickern.geometry.develop.cutting import generators, split
from bickern.geometry.develop.dished import CapSizes, bowl, cap_sizes
from bickern.geometry.develop.flat_sided import (
    SIDES,
    PanSizes,
    free_outline,
    pan,
    pan_sizes,
    pyramid,
    rectangular_frustum,
)
from bickern.geometry.develop.oblique import oblique_cone
from bickern.geometry.develop.pattern import (
    Bend,
    Development,
    Edge,
    Facing,
    Seam,
    moved,
    roll_up,
    seam_gap,
)
from bickern.geometry.develop.rims import Rim, oblong_rim, outline_rim, oval_rim, rectangle_rim, round_rim
from bickern.geometry.develop.transition import square_to_round, transition
from bickern.geometry.develop.turned import ConeSizes, cone, cone_sizes, cylinder

__all__ = [
    "SIDES",
    "Bend",
    "CapSizes",
    "ConeSizes",
    "Development",
    "Edge",
    "Facing",
    "PanSizes",
    "Rim",
    "Seam",
    "bowl",
    "cap_sizes",
    "cone",
    "cone_sizes",
    "cylinder",
    "free_outline",
    "generators",
    "moved",
    "oblique_cone",
    "oblong_rim",
    "outline_rim",
    "oval_rim",
    "pan",
    "pan_sizes",
    "pyramid",
    "rectangle_rim",
    "rectangular_frustum",
    "roll_up",
    "round_rim",
    "seam_gap",
    "split",
    "square_to_round",
    "transition",
]
