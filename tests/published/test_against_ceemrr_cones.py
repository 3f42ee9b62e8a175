"""Against Geometry 2, Nets of Cones, example 2, ceemrr.com.

Kind: lesson page. Read in the source: another page than The Net of a Frustum of the same site.
"""

from shelf import Printed, book


@book("ceemrr_cones")
def test_figure(row: Printed) -> None:
    row.holds()
