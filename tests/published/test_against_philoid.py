"""Against Philoid (philoid.com), worked school questions 17039 and 16990.

Kind: question page. Read in the source. An open container, whose printed sheet does not go with the 624 pi beside it,
and a block cast into pipe; 3.14 and 22/7.
"""

from math import pi

from shelf import Printed, book, quick_answer


def of(ask: str, answer: str) -> float:
    """A figure of an answer, in SI."""
    figure = quick_answer(ask).figure(answer)
    assert figure is not None, (ask, answer)
    return figure.value


@book("philoid")
def test_figure(row: Printed) -> None:
    row.holds()


@book("philoid", by="sheet of the bucket of 16")
def test_bucket_of_16(row: Printed) -> None:
    row.holds(of("cone '40 cm' '16 cm' '16 cm'", "side") + pi * 0.16**2 / 4)
