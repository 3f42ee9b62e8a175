"""Against NJATC, Conduit Fabrication, level II, lesson 4, example for questions 34 to 43.

Kind: course. Read in the source, a copy of the lesson (studylib.net 27409365). Radius to the middle of the conduit,
factor 1.57 for a quarter; the conduit's size is ours.
"""

from shelf import Printed, book


@book("njatc_conduit")
def test_figure(row: Printed) -> None:
    row.holds()
