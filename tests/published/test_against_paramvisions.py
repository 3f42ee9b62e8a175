"""Against Param Visions (paramvisions.com), lessons on bar, tube, sheet and stirrups, 2020 and 2021.

Kind: lesson page. Read in the source. 7850 kg a cubic metre; square tube with square corners. Stirrups are a helix on
the bar's middle line with 3.142, rounded at every step; hooks and laps are left out here.
"""

from shelf import Printed, book


@book("paramvisions")
def test_figure(row: Printed) -> None:
    row.holds()
