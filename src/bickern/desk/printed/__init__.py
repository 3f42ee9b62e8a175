"""Figures that somebody printed, held against what is reckoned here."""

from bickern.desk.printed.against import digits, held, hold, told
from bickern.desk.printed.cells import kinds
from bickern.desk.printed.read import read_book, read_printed
from bickern.desk.printed.rows import NEEDED, OTHERS, Held, Printed

__all__ = [
    "NEEDED",
    "OTHERS",
    "Held",
    "Printed",
    "digits",
    "held",
    "hold",
    "kinds",
    "read_book",
    "read_printed",
    "told",
]
