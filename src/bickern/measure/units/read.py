"""Everything that reads shop notation, in one place to import from.

Nothing here raises for what a user wrote: a value that cannot be read is a `Read` without a value and with findings.
"""

from bickern.measure.units.amounts import (
    read_angle,
    read_count,
    read_mass,
    read_number,
    read_share,
    read_temperature,
    read_turns,
)
from bickern.measure.units.bars import read_section, read_thickness
from bickern.measure.units.lengths import read_length, read_sizes
from bickern.measure.units.measured import read_density, read_measured

__all__ = [
    "read_angle",
    "read_count",
    "read_density",
    "read_length",
    "read_mass",
    "read_measured",
    "read_number",
    "read_section",
    "read_share",
    "read_sizes",
    "read_temperature",
    "read_thickness",
    "read_turns",
]
