"""Against Brainly (brainly.in), question 270831: weight of an iron pipe.

Kind: question page. Read in the source: a wrong answer, the diameter taken for a radius. 22/7.
"""

from shelf import Printed, book


@book("wrong_pipe_answers")
def test_figure(row: Printed) -> None:
    row.holds()
