"""Against Gradeup School (school.gradeup.co), exercise 19C, question 5: sheet of an open container.

Kind: question page. Read in the source. 3.14; what stands before it is rounded to three places.
"""

from math import pi

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("school_gradeup_container")
def test_figure(row: Printed) -> None:
    row.holds()


@book("school_gradeup_container", by="sheet of the container of 16")
def test_container_of_16(row: Printed) -> None:
    row.holds(of("cone '16 cm' '14 cm' '16 cm'", "side") + pi * 0.16**2 / 4)
