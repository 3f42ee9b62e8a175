"""Against TAFE NSW, metal fabrication toolbox 905, What is meant by mean diameter.

Kind: course. Read in the source (sielearning.tafensw.edu.au). Plate rolled to a cylinder, by the mean diameter; it
says 3.142 and reckons with 3.1416.
"""

from shelf import Printed, book


@book("tafe_mean_diameter")
def test_figure(row: Printed) -> None:
    row.holds()
