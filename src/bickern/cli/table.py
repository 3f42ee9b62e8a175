"""A job reckoned, as a readable table."""

from bickern.cli.show import show_count, show_findings, show_rows
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
