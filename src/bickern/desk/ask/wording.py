"""Findings in the words of a question: what a job file would say is said as it is asked here."""

from dataclasses import replace

from bickern.measure.finding import Finding

CURES = {
    "negative-angle": "Write it without a minus.",
    "grip-not-known": "Say how thick the metal is that it holds together.",
    "no-inside-radius": "Say a radius above 0.",
    "fold-radius-taken": "Say it, as `--radius 1/16`.",
    "cone-upside-down": "A skin as wide above as below is a `pipe`.",
    "length-not-positive": "Say a length above 0.",
    "turn-not-told": "",
}
"""What to try, by the name of a finding, where its own words are those of a job file; "" where nothing is to do."""
PHRASES = (
    (" in a job that is in millimetres", " where bare numbers are millimetres"),
    (", or nothing for the job's own unit", ", or nothing for inches (millimetres with `--units mm`)"),
    ("Write `rings: {", "In the shop file, write `rings: {"),
    ("write `bars: {", "In the shop file, write `bars: {"),
    ("Write `units: in` or `units: mm` at the top of the job, or ", "Write "),
)
"""Words of a job file, and what a question says instead."""


def as_asked(finding: Finding) -> Finding:
    """The same finding for somebody who has no file."""
    cure = CURES.get(finding.name, finding.try_this)
    return replace(finding, says=_said(finding.says), try_this=_said(cure))


def _said(text: str) -> str:
    for theirs, ours in PHRASES:
        text = text.replace(theirs, ours)
    return text
