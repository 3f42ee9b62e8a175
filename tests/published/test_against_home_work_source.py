"""Against a worked question on a cup of three frusta, homeworksource.com, no. 1093095.

Kind: question page. Read in the source.
"""

from shelf import Printed, book


@book("home_work_source")
def test_figure(row: Printed) -> None:
    row.holds()
