"""Sets to hang: those of the example jobs, and jobs told as text."""

from pathlib import Path

from bickern.desk.reckon import Reckoning, reckon_text
from bickern.parts.set.assemble import assemble
from bickern.parts.set.result import SetResult

EXAMPLES = Path(__file__).parents[2] / "src" / "bickern" / "book" / "examples"


def of_job(text: str) -> SetResult:
    """The set of a job told as text."""
    return _together(reckon_text(text, "job.yaml"))


def of_example(name: str) -> SetResult:
    """The set of one of the examples."""
    return of_job((EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8"))


def _together(done: Reckoning) -> SetResult:
    assert done.copy is not None, done.findings
    held = done.copy.job.hang
    return assemble(
        {piece.spec.name: piece for piece in done.copy.pieces},
        [joint.spec for joint in done.copy.joints],
        done.copy.joints,
        hung_from=held.place if held else "",
        on=held.on if held else "",
    )
