"""Against Inox CN Group, Theoretical weight of steel, inoxcngroup.com.

Kind: maker's page. Read in the source: rules for stainless bar and tube. 7.93 for 304 and its kin, 7.75 for 410 and
420; factors of three figures, cut off or rounded: they and the examples by them are held to one unit of the factor.
"""

from shelf import Printed, book


@book("inox_rules")
def test_figure(row: Printed) -> None:
    row.holds()
