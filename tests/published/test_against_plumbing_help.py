"""Against Plumbing Help (plumbinghelp.com), Plumbing math: decimals to inches.

Kind: lesson page. Read in the source: example, and practice questions with their answers, to the sixteenth.
"""

from shelf import Printed, book


@book("plumbing_help")
def test_figure(row: Printed) -> None:
    row.holds()
