"""A job reckoned, as a readable table."""

from collections.abc import Sequence

from bickern.cli.show import heading, show_count, show_findings, show_rows
from bickern.desk.reckon import Reckoning
from bickern.desk.summary import summary


def show_reckoning(done: Reckoning, *, every_rule: bool = False) -> None:
    """What to cut first, then each piece in full, joints, and what was found."""
    told = summary(done, every_rule=every_rule)
    if told is not None:
        show_rows(told.title, told.cut_list, ("piece", "cut", "from", "each"))
        for title, rows in told.pieces:
            print()
            show_rows(title, rows)
        print()
        show_rows("Together", told.together)
        print("" if every_rule else "  (--all shows what each other published rule says)\n")
    show_findings(done.findings)
    show_count(done.findings)


def show_fit(done: Reckoning) -> None:
    """Whether it goes together, what is closed when, how far it swings, and what was found."""
    if done.copy is not None:
        print(heading(done.copy.job.title))
        fit_sections(done)
        print()
    show_findings(done.findings)
    show_count(done.findings)


def fit_sections(done: Reckoning) -> None:
    """Tables: does it go together, what is done before what, how far it swings, what no print confirms."""
    from bickern.desk.whole.assemble import FIT_UNPROVED
    from bickern.desk.whole.together import closing_rows, fit_rows, swing_rows, unproved_rows

    copy = done.copy
    if copy is None:
        return
    _section("Does it go together", fit_rows(copy), "no joint of it is checked for fit")
    _section("What is done before what", closing_rows(copy), "")
    _section("How far it swings", swing_rows(copy), "")
    _section("No print confirms", unproved_rows(copy, FIT_UNPROVED), "")


UNHELD = "the job does not say how it is held: `hang: {from: PIECE.PLACE, on: hook}`"
UNHUNG = "not told: mend what stops the job first"


def show_hang(done: Reckoning) -> None:
    """How it hangs, what a change would do, and what was found."""
    if done.copy is not None:
        print(heading(done.copy.job.title))
        hang_sections(done)
        print()
    show_findings(done.findings)
    show_count(done.findings)


def hang_sections(done: Reckoning) -> None:
    """Tables: at rest, made or held otherwise, taken for granted, what no print confirms."""
    from bickern.desk.whole.assemble import HANG_UNPROVED
    from bickern.desk.whole.together import hang_rows, unproved_rows

    copy = done.copy
    if copy is None:
        return
    for title, rows in hang_rows(copy) or (("How it hangs", ()),):
        _section(title, rows, UNHELD if copy.job.hang is None else UNHUNG)
    _section("No print confirms", unproved_rows(copy, HANG_UNPROVED), "")


def _section(title: str, rows: Sequence[Sequence[str]], without: str) -> None:
    """A table under its title; what stands there where it has no rows, or nothing at all."""
    if rows or without:
        print()
        show_rows(title, rows or ((without,),))
