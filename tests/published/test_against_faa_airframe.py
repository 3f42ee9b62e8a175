"""Against FAA, Aviation Maintenance Technician Handbook, Airframe vol. 1, FAA-H-8083-31, 2012.

Kind: handbook. Read in the source: chapter 4, page 230 of the copy.
"""

import pytest

from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.reckon import reckon_sheet
from bickern.parts.sheet.spec import Pan, SheetSpec, Sized


@pytest.mark.parametrize(("thicknesses", "told"), [(0.8, True), (0.99, True), (1.0, False), (1.2, False)])
def test_a_fold_tighter_than_the_faa_s_thickness_is_told(thicknesses: float, told: bool) -> None:
    """The book says about one thickness, and our default is one; transcribed.

    What "about" leaves open is not in print: 0.8 and 1.2 are sides that any reading of it would have, 0.99 and 1.0
    show only that the rule was copied as it stands.
    """
    thick = 0.0015
    pan = Pan(0.2, 0.1, 0.03, inside_radius=thicknesses * thick)
    found = reckon_sheet(SheetSpec("pan", thick, "S235JR", pan, Sized.OUTSIDE), SheetRules(), 7850.0).findings
    assert ("too-tight" in {f.name for f in found}) is told
