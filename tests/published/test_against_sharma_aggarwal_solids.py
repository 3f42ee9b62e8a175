"""Against R. D. Sharma and R. S. Aggarwal, Mathematics for classes IX and X, and the CBSE class X paper of 2015.

Kind: school book. Quoted by secondary pages that work their questions (esaral.com, shaalaa.com, byjus.com, zigya.com),
which do not always say of which book; so two books are heaped here. Metal drawn to wire, bar and pipe at constant
volume, mostly with 22/7.
"""

from shelf import Printed, book


@book("sharma_aggarwal_solids")
def test_figure(row: Printed) -> None:
    row.holds()
