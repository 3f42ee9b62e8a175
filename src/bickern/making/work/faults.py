"""The usual faults of each operation, and what puts them right: what a smith would tell you across the anvil."""

from dataclasses import dataclass

from bickern.measure.source import COMMON_PRACTICE, Source


@dataclass(frozen=True, slots=True)
class Fault:
    """A fault that one operation is known for, how it shows, and its cure."""

    operation: str
    shows: str
    cure: str
    source: Source = COMMON_PRACTICE


FAULTS: tuple[Fault, ...] = (
    Fault("taper", "point off the middle, or leaning", "turn the bar each blow or two; hit the full side"),
    Fault("taper", "fish mouth at the tip", "start the point short and steep, then lengthen it; nip off a split end"),
    Fault("taper", "section goes diamond", "hit the high corners on the flat of the anvil, straight from the fire"),
    Fault(
        "draw", "a step folds over (cold shut)", "do not work the step sharper than the hammer's edge; file it out now"
    ),
    Fault("upset", "bar bends instead of swelling", "shorter heat, straighten at once, square the end first"),
    Fault("spread", "edges crack", "too cold or too thin too soon: back into the fire, work from the middle"),
    Fault("punch", "hole is off the middle", "mark both faces, look after two light blows, turn and look again"),
    Fault(
        "slit", "slit is not parallel, or runs off", "line it out with a light cold cut first; it cannot be moved later"
    ),
    Fault("drift", "wall thinner on one side", "heat the thick side only, drift from both faces"),
    Fault("bend", "bend falls past the mark", "heat short, cool both sides of the mark, bend the middle first"),
    Fault("bend", "flats in the curve", "smaller steps, over the edge of the horn, not on it"),
    Fault("scroll", "flat or kink in the scroll", "follow the full-size outline; open it and come again from the tip"),
    Fault("twist", "twist tight in one place", "heat was uneven: cool the tight part with a little water, go on"),
    Fault("twist", "bar bowed after twisting", "wooden mallet on a wood block at a dull heat, never the hammer"),
    Fault("split", "one leg thinner than the other", "slit from both faces to a line; draw the thick leg last"),
    Fault("cut off", "end comes ragged or bent", "nick it all round, not from one side; dress it at once"),
    Fault("weld", "lap does not take", "clean fire, both scarfs at the same heat, light quick blows first"),
    Fault("close ring", "ends pass or gap", "close it past, then spring it back; check on the mandrel"),
    Fault("rivet", "shank buckles", "shank too long or hole too slack: shorten by a little, support close"),
    Fault(
        "collar",
        "collar is loose",
        "cut it shorter by half a thickness and try again; close it hot, it pulls as it cools",
    ),
    Fault("roll sheet", "seam edges stay flat", "bend both edges first over a bar, before rolling the rest"),
    Fault("roll sheet", "mouth goes oval", "round it over a stake from the small end after riveting the middle"),
    Fault("fold", "fold wanders off its line", "clamp on the line, dress along the whole length, never from one end"),
    Fault("dish", "rim puckers", "smaller blows nearer the rim, turn steadily, flatten puckers before they fold"),
    Fault(
        "shoulder",
        "shoulder creeps along the bar",
        "keep the mark on the edge; turn it after each blow, not after three",
    ),
    Fault("curl", "eye comes egg-shaped", "it is hit on the horn: hit past it; true it on a round bar of its size"),
    Fault(
        "curl", "eye sits beside the bar's line", "bend it back at the neck, over the anvil's edge, before it is closed"
    ),
    Fault("hoop", "hoop will not lie flat", "lay it on the face, tap down what stands up; look again across it"),
    Fault(
        "scarf",
        "thin edge burns before the heat comes",
        "leave the lip thicker; pull the scarf back from the hot heart",
    ),
    Fault("straighten", "hammer marks, and still bent", "mallet on wood; strike the high side only, lightly"),
    Fault("file", "face comes out rounded", "lower the vise, long strokes, look under a straight edge in the light"),
    Fault("brush", "scale smears and stays", "too cold: warm it again, brush at once and hard"),
    Fault("wind", "turns gape, rings come unlike", "hold the pull even; wind tight against the last turn"),
    Fault("groove", "seam slips open", "hooks too narrow or too tight: open them by a thickness; set both ends first"),
    Fault(
        "rivet hot", "rivet loose when cold", "head it at a good heat and at once; hold the parts tight together first"
    ),
    Fault("hem", "hem cracks or opens", "bend with the grain across the fold; close it in two passes"),
)
"""One or two faults for an operation, the commonest first; all are common practice."""


def faults_of(operations: frozenset[str]) -> tuple[Fault, ...]:
    """The faults of these operations, in the order of the table."""
    return tuple(fault for fault in FAULTS if fault.operation in operations)
