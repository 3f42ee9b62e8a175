"""Against a worked question on a frustum told by its edges, interviewsolution.com, no. 2520577.

Kind: question page. Read in the source. The height is reckoned from the told edges. Slants rounded to three figures; a
figure of the volume is lost there: 1216 over 3 times root 368 is 7775.64, with 19.18 for the root 7774.29, and it
prints 777.29.
"""

from shelf import Printed, book


@book("interview_solution")
def test_figure(row: Printed) -> None:
    row.holds()
