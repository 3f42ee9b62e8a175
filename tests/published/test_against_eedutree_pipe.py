"""Against eEduTree, lesson notes 2, chapter 13, example 8, eedutree.com.

Kind: lesson page. Read in the source; takes 22/7.
"""

from shelf import Printed, book


@book("eedutree_pipe")
def test_figure(row: Printed) -> None:
    row.holds()
