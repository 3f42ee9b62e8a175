"""Rows of ways: what is done to bar. Narrow rows stand before wide ones; the last of each operation fits any work."""

from bickern.making.work.way import Way
from bickern.measure.source import Kind, Source

_HAND_FORGING = "Hand-Forging and Wrought-Iron Ornamental Work"

CLOSE = Source(
    "J. Close", "Controlled Hand Forging, lesson 3: drawing out a round taper", None,
    "its title read, the rest from memory", Kind.MEMORY,
)  # fmt: skip
"""Square first, then eight sides, then round."""
GOOGERTY_PUNCH = Source("T. F. Googerty", _HAND_FORGING, 1911, "p. 44 figs. 16-17, read in it", Kind.HANDBOOK)
"""Punch from one face, turn over, drive back on the dark spot, then the burr out over the hole in the anvil."""
GOOGERTY_EYE = Source("T. F. Googerty", _HAND_FORGING, 1911, "pp. 70-71 fig. 40, read in it", Kind.HANDBOOK)
"""An eye: bent at an angle over the anvil's edge first, then formed round."""
GOOGERTY_TWIST = Source("T. F. Googerty", _HAND_FORGING, 1911, "p. 96, read in it", Kind.HANDBOOK)
"""Twisting: heated evenly to yellow, one end in the vise, a wrench on the other."""
GOOGERTY_SCROLL = Source("T. F. Googerty", _HAND_FORGING, 1911, "pp. 111 and 124, read in it", Kind.HANDBOOK)
"""A scroll: over the far edge first, tapped back; what is formed is kept cool; tried on the drawing each time."""
MANLY_FORGE = Source(
    "H. P. Manly", "Oxy-Acetylene Welding and Cutting", 1916, "forge chapter, read in it", Kind.HANDBOOK
)
"""Drawing across the horn lengthens and does not widen; a shoulder is set at the anvil's edge."""

_HAMMER = "hand hammer"
_CUT_NOW = "Now, not last: the rest is held by what is made. Nick it all round at the mark, light last blow, twist off."

BAR_WAYS: tuple[Way, ...] = (
    Way(
        "mark", "Mark the sheet from its pattern", "printed pattern, scriber, prick punch", "bench",
        "Stick the pattern down, prick each corner, hole and fold line through it, then scribe from prick to prick.",
        "Lay a rule along the check ruler on the pattern; measure both diagonals.", "sheet",
    ),
    Way(
        "mark", "Mark again: {name}", "rule, prick punch, chalk", "bench",
        "Cold and straight; every mark from the flag.",
        "Measure each again from the datum end.", "again",
    ),
    Way(
        "mark", "Mark out {name}", "rule, prick punch, light hammer", "bench",
        "Measure every mark from the datum end and prick it lightly: pricks last in the fire and are found by feel.",
        "Measure each again from the datum end, never from the mark before.",
    ),
    Way(
        "cut bar", "Cut {name} off the coil", "fine saw; cutting pliers for wire", "vise, coil on the mandrel",
        "All turns along one line down the coil, of ovals down the middle of a side; each ring falls off as it is cut.",
        "Every ring springs open alike; ends square, burr off.", "coil",
    ),
    Way(
        "cut bar", "Cut the stock", "saw, or hot cut on the hardy", "vise, or hardy",
        "Cut square, on the waste side of the mark.",
        "Rule against the cut length; file off the burr.",
    ),
    Way(
        "cut off", "Cut {name} off the longer bar", "hot cut on the hardy", "hardy",
        _CUT_NOW,
        "Rule from the free end to the cut; leave the cut end as it is: it is still to be forged.", "end",
    ),
    Way(
        "cut off", "Cut {name} off the longer bar", "hot cut on the hardy", "hardy",
        _CUT_NOW,
        "Rule from the free end to the cut; dress the end now, while it is straight.", "bends",
    ),
    Way(
        "cut off", "Cut {name} off the longer bar", "hot cut on the hardy", "hardy",
        "Nick it all round at the mark, light last blow, twist it off over the anvil's far side.",
        "Rule from the free end to the cut; dress the end.",
    ),
    Way(
        "upset", "Upset {name} to {after}", _HAMMER, "bar upright on the anvil face, or across it in the hand",
        "Short heat, cool what must not swell. Heavy blows on the end; straighten at once when it leans.",
        "Calipers set to {after}.",
    ),
    Way(
        "upset", "Upset {name}", _HAMMER, "bar upright on the anvil face, or across it in the hand",
        "Short heat, cool what must not swell. Heavy blows on the end; straighten at once when it leans.",
        "Calipers, against the size on the drawing.",
    ),
    Way(
        "draw", "Draw out {name} to {after}", _HAMMER, "near edge or horn to lengthen, face to true it",
        "Draw it square first, then knock the corners to eight sides, then roll it round under light blows.",
        "Calipers set to {after}, turned all round; length {length}.", "round", CLOSE,
    ),
    Way(
        "draw", "Draw out {name} to {after}", _HAMMER, "near edge or horn to lengthen, face to true it",
        "Draw it square, a quarter turn each blow or two, then knock all four corners down alike to eight sides.",
        "Calipers across each pair of flats: {after}; length {length}.", "octagon",
    ),
    Way(
        "draw", "Draw out {name} to {after}", _HAMMER, "horn or near edge to lengthen, face to flatten",
        "Lengthen it across the horn, then flatten on the face; dress the edges after every few blows.",
        "Calipers, both ways: {after}; length {length}; no hollow under a straight edge.", "flat", MANLY_FORGE,
    ),
    Way(
        "draw", "Draw out {name} to {after}", _HAMMER, "near edge or horn to lengthen, face to true it",
        "A quarter turn each blow or two; work from the shoulder to the end, overlapping blows, then true it.",
        "Calipers set to {after}, both ways; length {length}.", "square", MANLY_FORGE,
    ),
    Way(
        "draw", "Draw out {name} to {after}", _HAMMER, "near edge or horn to lengthen, face to true it",
        "Lengthen it across the horn or the edge, a quarter turn each blow or two, then bring it to shape.",
        "Calipers set to {after}; length {length}.", "", MANLY_FORGE,
    ),
    Way(
        "draw", "Draw out {name}", _HAMMER, "near edge or horn to lengthen, face to true it",
        "Lengthen it across the horn or the edge, a quarter turn each blow or two, then bring it to shape.",
        "Calipers and rule, against the drawing.", "", MANLY_FORGE,
    ),
    Way(
        "taper", "Taper {name} to {after}", _HAMMER, "far edge of the anvil, handle low",
        "Square first, from the end back up the bar; then eight sides, then round with light blows.",
        "Calipers at the tip, {after}; length {length} against the rule; roll it on the face.", "round", CLOSE,
    ),
    Way(
        "taper", "Taper {name}", _HAMMER, "far edge of the anvil, handle low",
        "Short steep square point first, then lengthen it back up the bar; to finish, turn it to the shape wanted.",
        "Length {length} against the rule; sight along it from both sides.", "point",
    ),
    Way(
        "taper", "Taper {name} to {after}", _HAMMER, "near edge to thin it, face to flatten",
        "Thin it from the end back up; dress the edges every few blows so that it widens only as far as wanted.",
        "Calipers at the thin end, {after}; length {length}.", "flat",
    ),
    Way(
        "taper", "Taper {name} to {after}", _HAMMER, "far edge of the anvil, handle low",
        "Short and steep at the end first, then lengthen it back up the bar, a quarter turn each blow or two.",
        "Calipers at the thin end, {after}; length {length}; sight along it from both sides.",
    ),
    Way(
        "taper", "Taper {name}", _HAMMER, "far edge of the anvil, handle low",
        "Short and steep at the end first, then lengthen it back up the bar, a quarter turn each blow or two.",
        "Rule and calipers, against the drawing; sight along it from both sides.",
    ),
    Way(
        "shoulder", "True the shoulder of {name}", "monkey tool, or file", "pritchel hole, or vise",
        "Drop the tenon into the monkey tool and drive the shoulder down on it until it sits all round.",
        "Try the tenon in its own hole: the shoulder closes all round with no light under it.", "tenon",
    ),
    Way(
        "shoulder", "Set down {name} at the mark, thickness only", "hand hammer, set hammer", "anvil edge",
        "At the mark only: mark on the edge, half-faced blows on the flat. Leave the width: it is spread next.",
        "Calipers at the mark, {after}: still as wide as the bar; square across it.", "thick", MANLY_FORGE,
    ),
    Way(
        "shoulder", "Set down {name} to {after}", "hand hammer, set hammer", "anvil edge",
        "Mark on the edge, half-faced blows, turning it as it sinks; keep the corner a little round.",
        "Calipers set to {after} below the shoulder; square across it.", "", MANLY_FORGE,
    ),
    Way(
        "shoulder", "Set down {name}", "hand hammer, set hammer", "anvil edge",
        "Mark on the edge, half-faced blows, turning it as it sinks; keep the corner a little round.",
        "Calipers below the shoulder; square across it.", "", MANLY_FORGE,
    ),
    Way(
        "spread", "Spread {name} to {after}", "hand hammer, cross peen", "anvil face",
        "Peen along the bar to widen it, from the middle out; flatten with the face while it is bright.",
        "Calipers for the thickness, rule or the full-size outline for the width: {after}.",
    ),
    Way(
        "spread", "Spread {name}", "hand hammer, cross peen", "anvil face",
        "Peen from the middle out toward both edges, thick end first; flatten with the face while it is bright.",
        "Lay it on the full-size outline; calipers for the thickness.",
    ),
    Way(
        "split", "Split {name}", "hot chisel", "cutting plate on the anvil",
        "Cut down from one face nearly through, turn it over, finish from the other to the same line.",
        "Both legs alike by calipers; round the end of the cut so that it does not run on.",
    ),
    Way(
        "punch", "Punch {name}, {size}", "punch of the hole's size", "anvil face, then pritchel hole",
        "Deep from the first face, turn it over, set the punch on the dark spot, drive the slug out over the hole.",
        "Try a bar or drill shank of {size}; calipers for the walls on both sides.", "", GOOGERTY_PUNCH,
    ),
    Way(
        "punch", "Punch {name}", "punch of the hole's size", "anvil face, then pritchel hole",
        "Deep from the first face, turn it over, set the punch on the dark spot, drive the slug out over the hole.",
        "Try what is to go through it; calipers for the walls on both sides.", "", GOOGERTY_PUNCH,
    ),
    Way(
        "slit", "Slit for {name}", "slit chisel", "cutting plate on the anvil",
        "Line the slit lightly, look, then cut halfway; turn over and meet it from the other face.",
        "Rule: the slit is in the middle and runs with the bar.",
    ),
    Way(
        "drift", "Drift {name} to {size}", "drift, hand hammer", "hole of the anvil, or bolster",
        "Greased drift from both faces; forge the walls with the drift in, then drive it through.",
        "Try the drift from the other face: it drops through; size {size}; walls alike by calipers.",
    ),
    Way(
        "drift", "Drift {name}", "drift, hand hammer", "hole of the anvil, or bolster",
        "Greased drift from both faces; forge the walls with the drift in, then drive it through.",
        "Try what is to go through it; walls alike by calipers.",
    ),
    Way(
        "drill", "Drill {name}, {size}", "drill", "drill press, or vise, on a block of wood",
        "Prick it, clamp sheet and wood together so that it cannot spin, drill, take the burr off both sides.",
        "Try the rivet, screw or bar of {size} that goes there.", "sheet",
    ),
    Way(
        "drill", "Drill {name}, {size}", "drill", "drill press or vise",
        "Prick deep at the mark, clamp it, drill, take the burr off both sides.",
        "Try a bar of {size}, or the rivet or screw that goes there.",
    ),
    Way(
        "drill", "Drill {name}", "drill", "drill press or vise",
        "Prick deep at the mark, clamp it, drill, take the burr off both sides.",
        "Try the rivet or screw that goes there.",
    ),
    Way(
        "bend", "Lay the wrap round {name} and {other}", "tongs, scrolling tongs", "vise",
        "Whole length hot, start in the middle, lay turn beside turn without a stop; no second heat over other work.",
        "It sits tight and does not turn when cold.", "wrap",
    ),
    Way(
        "bend", "Lay the wrap round {name}", "tongs, scrolling tongs", "vise",
        "Whole length hot, start in the middle, lay turn beside turn without a stop; no second heat over other work.",
        "It sits tight and does not turn when cold.", "wrap",
    ),
    Way(
        "bend", "Bend the collar to a U", _HAMMER, "vise, over a block as thick as the bundle",
        "Bend both legs down over the block so that they stand square and alike.",
        "Slip the block in: it fits without shaking; legs alike by rule.", "collar",
    ),
    Way(
        "bend", "Bend the link to a U", _HAMMER, "anvil horn",
        "Heat the middle, bend it over the horn till the legs are parallel and as long as each other.",
        "Legs alike by rule; {inside} between them.", "link",
    ),
    Way(
        "bend", "Bend {name} round, {inside} inside", _HAMMER, "anvil horn",
        "Ends first, then feed it over the horn and strike past the place where it touches, not on it.",
        "Lay it on the full-size circle, {inside} across inside; flat on the anvil face.", "ring",
    ),
    Way(
        "bend", "Bend {name} to an oval, {inside} inside", _HAMMER, "anvil horn",
        "Bend one end over the horn to a U, then the other toward it; sides straight and alike.",
        "Lay it on its full-size outline; {inside} between the sides; flat on the anvil face.", "oval",
    ),
    Way(
        "bend", "Bend {name} cold, an oval, {inside} inside", "hand hammer, or bending fork",
        "vise, over a round bar",
        "One end round the bar first, then the other toward it, a little past: it springs back; sides straight.",
        "Lay it on its full-size outline; {inside} between the sides.", "cold oval",
    ),
    Way(
        "bend", "Bend {name} cold, {inside} inside", "hand hammer, or bending fork", "vise, over a round bar",
        "Cold, in small steps from the ends toward the middle, a little past the size: it springs back.",
        "Lay it on the full-size circle, {inside} across inside.", "cold ring",
    ),
    Way(
        "bend", "Bend {name} sharp to {angle}", _HAMMER, "anvil edge, mark on the edge",
        "Short heat, cool both sides of the mark. Bend over the edge, then true the corner from both legs.",
        "Bevel or square set to {angle}; legs by rule from the mark.", "sharp",
    ),
    Way(
        "bend", "Curl {name} to {angle}", _HAMMER, "far edge of the anvil, then horn",
        "Tip over the far edge first, tap it back, then feed it on over the horn; strike past where it touches.",
        "Lay it on the full-size outline; {inside} inside radius by a round bar.", "curl",
    ),
    Way(
        "bend", "Bend {name} round to {angle}", _HAMMER, "anvil horn",
        "Both ends of the bend first, then feed it over the horn toward the middle; keep it flat on the face.",
        "Lay it on the full-size outline; inside radius {inside}, {angle}.", "bow",
    ),
    Way(
        "bend", "Curl {name} to {angle}, cold", "hammer, bending fork", "vise, over a round bar",
        "Tip first, or both ends of the bend, then on in small steps, a little past the size: it springs back.",
        "Lay it on the full-size outline; {inside} inside radius by a round bar.", "cold curl",
    ),
    Way(
        "bend", "Bend {name} to {angle}, cold", "hand hammer, mallet", "vise, over a round bar",
        "Clamp beside the mark, push the leg over by hand, dress it close, a little past: it springs back.",
        "Bevel set to {angle}, or the full-size outline.", "cold",
    ),
    Way(
        "bend", "Bend {name} to {angle}", _HAMMER, "anvil horn",
        "Heat only the bend. Lay the mark over the horn, strike past the place where it touches, feed it on.",
        "Lay it on the full-size outline; inside radius {inside}, {angle}.", "wide",
    ),
    Way(
        "bend", "Bend {name} to {angle}, {inside} inside radius", _HAMMER, "anvil edge rounded to the radius, or a bar",
        "Short heat, cool both sides of the mark. Bend over the rounded edge, or round a bar in the vise.",
        "Bevel set to {angle}; inside radius {inside} by a round bar laid in.", "close",
    ),
    Way(
        "bend", "Bend {name}", _HAMMER, "anvil horn or edge",
        "Heat only the bend; over the edge for a sharp one, over the horn for a wide one.",
        "Lay it on the full-size outline.",
    ),
    Way(
        "curl", "Roll {name} to an eye, {inside} inside", "round pliers, light hammer", "round bar of the eye's size",
        "Start the very edge over the bar, then roll it up to the sheet; close it by tapping from behind.",
        "Try a bar of {inside}; the eye stands square to the edge.", "sheet",
    ),
    Way(
        "curl", "Turn {name}, {inside} inside, to one side", _HAMMER, "far edge of the anvil, then horn",
        "No bend at the mark: start the very tip over the far edge, then roll it on over the horn, back to the bar.",
        "Try the pin, or a bar of {inside}; one face of the bar runs on straight into the eye.", "beside",
    ),
    Way(
        "curl", "Turn {name}, {inside} inside", _HAMMER, "anvil edge, then horn",
        "Bend it square at the mark, then curl the tip back over the horn toward the shank, a bit at a time.",
        "Try a bar or mandrel of {inside}; the eye's middle in line with the shank.", "", GOOGERTY_EYE,
    ),
    Way(
        "curl", "Turn {name}", _HAMMER, "anvil edge, then horn",
        "Bend it square at the mark, then curl the tip back over the horn toward the shank, a bit at a time.",
        "Lay it on the full-size outline; the eye's middle in line with the shank.", "", GOOGERTY_EYE,
    ),
    Way(
        "hoop", "Bend {name} round cold, {inside} inside", "hammer, bending fork", "vise, or a form",
        "Ends first, then small steps from both sides toward the middle, a little past: it springs back.",
        "Lay it on the full-size circle, {inside} across inside; rock it on the anvil face.", "cold",
    ),
    Way(
        "hoop", "Bend {name} round, {inside} inside", _HAMMER, "anvil horn or mandrel",
        "Ends first, then a little at a time from both sides toward the middle; keep it flat on the face.",
        "Lay it on the full-size circle, {inside} across inside; rock it on the anvil face.",
    ),
    Way(
        "hoop", "Bend {name} round", _HAMMER, "anvil horn or mandrel",
        "Ends first, then a little at a time from both sides toward the middle; keep it flat on the face.",
        "Lay it on the full-size circle; rock it on the anvil face.",
    ),
    Way(
        "scroll", "Scroll {name}", "hand hammer, bending fork", "far edge of the anvil, then fork or form",
        "Tip over the far edge, tap it back to start, then feed on; keep what is formed cool.",
        "Try it on the full-size outline after each heat; flat on the anvil face.", "", GOOGERTY_SCROLL,
    ),
    Way(
        "twist", "Twist {name}, {turns}", "vise, twisting wrench", "vise",
        "Even heat over the whole stretch, lower mark at the jaws; walk the wrench round without a stop, one heat.",
        "Count the turns by the wrench: {turns}; straighten on wood with a mallet.", "", GOOGERTY_TWIST,
    ),
    Way(
        "twist", "Twist {name}", "vise, twisting wrench", "vise",
        "Even heat over the whole stretch, lower mark at the jaws; walk the wrench round without a stop, one heat.",
        "Count the turns by the wrench; straighten on wood with a mallet.", "", GOOGERTY_TWIST,
    ),
    Way(
        "straighten", "True {name} at a red", "wooden mallet", "wood block",
        "As it cools, high side up, light blows; turn it a quarter and look again. Leave off when the red goes.",
        "Sight from both ends; a straight edge along each side.", "hot",
    ),
    Way(
        "straighten", "True {name}, now that it is closed", "mallet, or hand hammer", "anvil face",
        "Lay it flat on the face, tap down what stands up, turn it over; then set in or out what is off its outline.",
        "It lies on the face without rocking, no light under it; lay it on the full-size outline.", "closed",
    ),
    Way(
        "straighten", "Straighten {name}", "mallet, or hand hammer", "anvil face",
        "Sight along it, high side up, light blows; turn it a quarter and look again.",
        "Sight from both ends; lay it on the anvil face: no light under it.",
    ),
)  # fmt: skip
"""One or more rows for an operation on bar."""
