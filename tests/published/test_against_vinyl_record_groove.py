"""Against Mathematics Stack Exchange, question 4204114: length of the groove of a record.

Kind: question page. Read in the source, in a copy (math.techqa.club). The integral of an even spiral, in centimetres.
"""

from shelf import Printed, book


@book("vinyl_record_groove")
def test_figure(row: Printed) -> None:
    row.holds()
