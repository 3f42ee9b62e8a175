"""Against a worked question on a sector bent to a cone, assignmentexpert.com, no. 112089.

Kind: question page. Read in the source.
"""

from shelf import Printed, book


@book("assignment_expert")
def test_figure(row: Printed) -> None:
    row.holds()
