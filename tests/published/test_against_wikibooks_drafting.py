"""Against Wikibooks, Drafting: conversion table of English linear measurements into metric, table I.

Kind: lesson page. Read in the source: inches in metres, four places, cut off or rounded: held to one unit, 7 of 43 lie
outside half a unit, two of them outside a whole one (13/16 and 15/16). 13 in is misprinted there.
"""

from shelf import Printed, book


@book("wikibooks_drafting_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
