"""Every question that can be asked without a file."""

from bickern.desk.ask import amounts, bars, bends, conversion, eyes, folds, gauges, holes, joints, rings, surfaces
from bickern.desk.ask.question import Question

QUESTIONS: tuple[Question, ...] = (
    *rings.QUESTIONS,
    *eyes.QUESTIONS,
    *bars.QUESTIONS,
    *bends.QUESTIONS,
    *holes.QUESTIONS,
    *joints.QUESTIONS,
    *surfaces.QUESTIONS,
    *folds.QUESTIONS,
    *amounts.QUESTIONS,
    *gauges.QUESTIONS,
    *conversion.QUESTIONS,
)
"""In the order in which they are shown."""
