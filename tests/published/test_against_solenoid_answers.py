"""Against Home Work Source (homeworksource.com), question 986454: wire of a solenoid.

Kind: question page. Read in the source: circumference times turns, the pitch left out.
"""

from shelf import Printed, book


@book("solenoid_answers")
def test_figure(row: Printed) -> None:
    row.holds()
