"""Against Expert Civil, volume of hollow cylinder, expertcivil.com.

Kind: lesson page. Read in the source; takes 22/7; its inner 3 m is worked as a radius.
"""

from shelf import Printed, book


@book("expert_civil_hollow")
def test_figure(row: Printed) -> None:
    row.holds()
