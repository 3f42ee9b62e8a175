"""Against Wikibooks, Drafting: conversion table of English linear measurements into metric, table I.

Kind: lesson page. Read in the source: inches in metres, four places, some cut off and not rounded. 13 in and 13/16 in
are misprinted there.
"""

from shelf import Printed, book


@book("wikibooks_drafting_table")
def test_cell_of_a_table(row: Printed) -> None:
    row.holds()
