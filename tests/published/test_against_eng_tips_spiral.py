"""Against Eng-Tips forums, thread 207963, spiral formula.

Kind: question page. Read in the source: a helical cage 5 ft 3 in across and 55 ft high. One answer leaves the rise out;
another forgets pi, and is kept as a misprint.
"""

from shelf import Printed, book


@book("eng_tips_spiral")
def test_figure(row: Printed) -> None:
    row.holds()
