"""What goes round a bundle of bars: collars and wraps, made to the girth."""

from bickern.measure.units.say import say_both
from bickern.parts.fit.checked import Bench, Checked
from bickern.parts.fit.order import listed
from bickern.parts.fit.result import FitRow, FitWord
from bickern.parts.joint.spec import JointKind, JointResult

ROUND = (JointKind.COLLAR, JointKind.WRAP)


def round_bundle(made: JointResult, bench: Bench) -> Checked:
    """A collar or a wrap is closed on its bars: it takes their girth (the joint's `grip` [m]), with nothing over."""
    joint = made.spec
    if joint.kind not in ROUND or made.grip <= 0:
        return Checked()
    says = f"closed hot on the bars, {say_both(made.grip, bench.style)} round them"
    what = f"{joint.kind} round {listed(joint.through)}"
    return Checked((FitRow(joint, what, "closes on", FitWord.SNUG, made.grip, made.grip, 0.0, says),))
