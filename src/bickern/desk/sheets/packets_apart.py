"""Packets set in a process of their own: setting takes some hundred megabytes, which go with that process when it ends.

Whoever types meanwhile is not held up, and what goes wrong in a library ends there.
"""

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from bickern.desk.reckon import Reckoning
from bickern.desk.sheets.preview import Document, Preview, Report, large_pictures, mark_of, preview
from bickern.geometry.pack.child import Lost, elsewhere
from bickern.measure.finding import Finding, stop

SECONDS = 300.0
"""Longest time that a packet is waited for [s]."""
MEMORY = 16 * 2**30
"""Bytes of address space: much of it is only set aside, more so with many processors."""


def set_apart(reckoning: Reckoning, paper: str, audience: str, report: Report = lambda _: None) -> Preview | Finding:
    """As `preview`; a process that is lost is a finding."""
    made = elsewhere(f"{__name__}:_set", (reckoning, paper, audience), SECONDS, report=report, memory=MEMORY)
    if isinstance(made, Preview):
        return replace(made, id=mark_of(reckoning))  # a copy of a reckoning has a mark of its own
    if isinstance(made, Finding):
        return made
    why = made.why if isinstance(made, Lost) else "it gave no packet"
    return stop("packet-lost", f"The sheets were not made: {why}.", "The job is as it was: try again.")


def pictures_apart(document: Document) -> tuple[bytes, ...]:
    """As `large_pictures`; none where the process is lost."""
    made = elsewhere(f"{__name__}:_pictures", document, SECONDS, memory=MEMORY)
    return made if isinstance(made, tuple) else ()


def _set(asked: tuple[Reckoning, str, str], report: Callable[[Any], None]) -> Preview | Finding:
    return preview(*asked, report)


def _pictures(document: Document, report: Callable[[Any], None]) -> tuple[bytes, ...]:
    return large_pictures(document)
