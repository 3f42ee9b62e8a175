"""The order of work on a terminal."""

from bickern.cli.show import show_count, show_findings, show_rows
from bickern.desk.reckon import Reckoning

NO_ORDER = "No order of work: mend what stops the job first."


def show_heats(done: Reckoning) -> None:
    """Each piece heat by heat, joining and finish, what no print confirms, and what was found."""
    copy = done.copy
    if copy is None or copy.plan is None:
        print(NO_ORDER)
    else:
        from bickern.desk.work.rows import heats_told

        for title, rows in heats_told(copy):
            show_rows(title, rows)
            print()
    show_findings(done.findings)
    show_count(done.findings)
