"""Against Engineering Info Hub, cutting length of a spiral bar, engineeringinfohub.com.

Kind: lesson page. Read in the source: 5 ft across, pitch of 3 ft, 15 ft high; its circumference is cut off at 15.707.
"""

from shelf import Printed, book


@book("engineering_info_hub")
def test_figure(row: Printed) -> None:
    row.holds()
