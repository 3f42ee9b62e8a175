"""Against R. D. Sharma, Mathematics for class X, chapter 16, Surface Areas and Volumes.

Kind: school book. Quoted by secondary pages that work its questions: esaral.com, ask.truemaths.com, school.gradeup.co,
byjus.com and shaalaa.com. 22/7 or 3.14; places are cut off. One page writes a height as the root of 13, which is 4,
and goes on with 4.
"""

from math import pi

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("rd_sharma")
def test_figure(row: Printed) -> None:
    row.holds()


@book("rd_sharma", by="sheet of the bucket of 24")
def test_bucket_of_24(row: Printed) -> None:
    """Open at the top: its side and its bottom of 10 cm."""
    row.holds(of("cone '30 cm' '10 cm' '24 cm'", "side") + pi * 0.10**2 / 4)
