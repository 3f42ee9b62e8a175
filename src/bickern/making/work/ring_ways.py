"""Rows of ways: rings, links, welds and joints. Narrow rows stand before wide ones."""

from bickern.making.work.way import Way
from bickern.measure.source import Kind, Source

_HAND_FORGING = "Hand-Forging and Wrought-Iron Ornamental Work"

ILGEN_CHAIN = Source("W. L. Ilgen", "Forge Work", 1912, "s. 80 fig. 60, read in it", Kind.HANDBOOK)
"""A link: bent to a U, scarfed on both ends at 45 degrees, the finished link put in, closed, welded."""
GOOGERTY_LINKS = Source("T. F. Googerty", _HAND_FORGING, 1911, "p. 74, read in it", Kind.HANDBOOK)
"""Light links are not scarfed: their ends are lapped cold over the horn and welded."""
DREW_RING = Source("J. M. Drew", "Farm Blacksmithing", 1918, "making a ring, fig. 9, read in it", Kind.HANDBOOK)
"""Both ends upset and scarfed, from opposite sides, then bent and welded; others turn the ring first."""
DREW = Source("J. M. Drew", "Farm Blacksmithing", 1918, "making a chain, fig. 8, read in it", Kind.HANDBOOK)
"""Turn it in the fire; quick blows on both sides; none once it is below a welding heat; finish over the horn."""

_HAMMER = "hand hammer"

RING_WAYS: tuple[Way, ...] = (
    Way(
        "wind", "Wind {name} hot on a mandrel", "mandrel, vise, tongs", "vise",
        "Clamp the end with the mandrel, heat the next length, wind turn against turn, one more than the rings wanted.",
        "Cut one ring and close it: {inside} across inside; hot it hardly springs back.", "hot",
    ),
    Way(
        "wind", "Wind {name} on a mandrel", "mandrel, vise", "vise",
        "Clamp the end with the mandrel, wind turn against turn at an even pull, one turn more than the rings wanted.",
        "Cut one ring and close it: {inside} across inside.",
    ),
    Way(
        "wind", "Wind {name} on a mandrel", "mandrel, vise", "vise",
        "Clamp the end with the mandrel, wind turn against turn at an even pull, one turn more than the rings wanted.",
        "Cut one ring, close it, and measure it inside.",
    ),
    Way(
        "scarf", "Scarf both ends of the link and close it", "hand hammer, link tongs", "step of the anvil, then horn",
        "Each end at 45 degrees on the edge, half-faced blows. Hang in what belongs there; bend the scarfs together.",
        "Scarfs lap without a gap; link even on both sides.", "link", ILGEN_CHAIN,
    ),
    Way(
        "scarf", "Lap the ends of the link", "hand hammer, link tongs", "anvil horn",
        "Light stock is not scarfed: hang in what belongs there, then hammer the ends over the horn until they lap.",
        "Ends lap by their own thickness, pointed rather than round.", "light link", GOOGERTY_LINKS,
    ),
    Way(
        "scarf", "Scarf both ends of {name}", _HAMMER, "anvil edge",
        "Upset the ends a little; thin them to a short, crowned wedge, one from above, one from below.",
        "Scarf one and a half thicknesses long; lay end on end: they meet in the middle first.", "ring", DREW_RING,
    ),
    Way(
        "scarf", "Scarf {name}", _HAMMER, "anvil edge",
        "Upset the end a little; thin it to a short wedge with a crowned face, so that flux is driven out.",
        "Scarf one and a half thicknesses long, crowned, no hollow.",
    ),
    Way(
        "weld", "Weld the link", "hand hammer, link tongs", "anvil face, then horn",
        "Flux, turned often in a clean fire. Light quick blows from both sides, then round the lap up over the horn.",
        "No dark line at the lap; {inside} across inside; links on both sides hang free.", "link", DREW,
    ),
    Way(
        "weld", "Weld {name}", _HAMMER, "anvil face, then horn",
        "Scarfs closed to a lap, flux, turned often in a clean fire. Light quick blows from both sides, then the horn.",
        "No dark line at the lap; {inside} across inside; hang it and strike it: it rings.", "ring", DREW,
    ),
    Way(
        "weld", "Weld {name} to {other}", _HAMMER, "anvil face",
        "Flux both, bring both to the heat together, place them, light quick blows from the middle out.",
        "No dark line at the lap; size of the bar by calipers.",
    ),
    Way(
        "weld", "Weld {name}", _HAMMER, "anvil face",
        "Flux, clean fire, turn it often; light quick blows from the middle of the lap out, then dress to size.",
        "No dark line at the lap; size of the bar by calipers.", "", DREW,
    ),
    Way(
        "close ring", "Close {name} hot", "two tongs", "anvil face",
        "Bring the ends together sideways, a little past, then tap them flat and true.",
        "Ends meet without a step; {inside} across inside.", "hot",
    ),
    Way(
        "close ring", "Close {name}", "two pliers", "vise or bench",
        "Twist the ends sideways past each other, then back till they meet under spring; never pull them apart.",
        "Ends meet without a step or light between; {inside} across inside.",
    ),
    Way(
        "close ring", "Close {name}", "two pliers", "vise or bench",
        "Twist the ends sideways past each other, then back till they meet under spring; never pull them apart.",
        "Ends meet without a step or light between.",
    ),
    Way(
        "thread", "Hang {name} in {other}", "tongs or pliers", "bench",
        "Put it through all that it holds while it is open, the right way round, before it is closed.",
        "Count what hangs in it against the drawing; all of it turns freely.",
    ),
    Way(
        "thread", "Hang {name} in its place", "tongs or pliers", "bench",
        "Put it through all that it holds while it is open, the right way round, before it is closed.",
        "Count what hangs in it against the drawing; all of it turns freely.",
    ),
    Way(
        "rivet", "Rivet {name} to {other} to turn, {size}", "ball peen", "solid anvil or bolster under the made head",
        "A strip of card between the parts. Head it lightly, try it after every few blows; pull the card, oil it.",
        "It turns by hand with a little drag; no rocking.", "pivot",
    ),
    Way(
        "rivet hot", "Rivet {name} to {other} to turn, hot, {size}", "hand hammer, rivet set",
        "solid anvil or bolster under the made head",
        "Hot from end to end, in at once, head it; then work the parts to and fro while it cools, and oil it.",
        "It turns by hand with a little drag when cold; no rocking.", "pivot",
    ),
    Way(
        "pin", "Hang {name} on its pin with {other}, {size}", "grease", "where it hangs",
        "Slip it on. The pin is drawn on the bar and is not headed: what hangs on it is to lift off.",
        "It turns by its own weight, with play all round; it lifts off.", "drawn",
    ),
    Way(
        "rivet", "Rivet the tenon of {name} over", "ball peen", "vise or anvil, shoulder hard down",
        "Shoulder tight first. Spread the end from the middle with light blows, then round its rim over.",
        "No light under the shoulder; it cannot be turned by hand.", "tenon",
    ),
    Way(
        "rivet", "Rivet {name} to {other}, {size}", "ball peen, rivet set",
        "solid anvil or bolster under the made head",
        "Draw the parts together, upset the middle of the shank straight down first, then round the rim over.",
        "No light between the parts; head full and round; does what moves still move?",
    ),
    Way(
        "rivet", "Rivet {name}, {size}", "ball peen, rivet set", "solid anvil or bolster under the made head",
        "Draw the parts together, upset the middle of the shank straight down first, then round the rim over.",
        "No light between the parts; head full and round; does what moves still move?",
    ),
    Way(
        "rivet", "Rivet {name}", "ball peen, rivet set", "solid anvil or bolster under the made head",
        "Draw the parts together, upset the middle of the shank straight down first, then round the rim over.",
        "No light between the parts; head full and round; does what moves still move?",
    ),
    Way(
        "rivet hot", "Rivet the tenon of {name} over, hot", "ball peen", "vise or anvil, shoulder hard down",
        "Only the tenon's end hot, the rest cooled. Shoulder tight, heavy blows from the middle, then round its rim.",
        "No light under the shoulder; no rattle when cold.", "tenon",
    ),
    Way(
        "rivet hot", "Rivet {name} to {other} hot, {size}", "hand hammer, rivet set",
        "solid anvil or bolster under the made head",
        "Parts ready and held first. Hot from end to end, in at once, heavy blows straight down, then the set.",
        "Head full and tight all round; tap it: no rattle when cold.",
    ),
    Way(
        "rivet hot", "Rivet {name} hot, {size}", "hand hammer, rivet set", "solid anvil or bolster under the made head",
        "Parts ready and held first. Hot from end to end, in at once, heavy blows straight down, then the set.",
        "Head full and tight all round; tap it: no rattle when cold.",
    ),
    Way(
        "rivet hot", "Rivet {name} hot", "hand hammer, rivet set", "solid anvil or bolster under the made head",
        "Parts ready and held first. Hot from end to end, in at once, heavy blows straight down, then the set.",
        "Head full and tight all round; tap it: no rattle when cold.",
    ),
    Way(
        "collar", "Close the collar round {name} and {other}", "collar tongs, hand hammer",
        "vise or anvil, bundle clamped cold",
        "Bundle clamped cold, collar hot all over: slip it on, fold one leg, then the other, tap every side.",
        "It grips as it cools: no turning by hand; joint at the back.",
    ),
    Way(
        "collar", "Close the collar round {name}", "collar tongs, hand hammer", "vise or anvil, bundle clamped cold",
        "Bundle clamped cold, collar hot all over: slip it on, fold one leg, then the other, tap every side.",
        "It grips as it cools: no turning by hand; joint at the back.",
    ),
    Way(
        "pin", "Pin {name}, {size}", "hammer, file", "bench",
        "Round the pin's end, drive it through, peen over what stands out.",
        "It cannot be pulled by hand; what should turn turns.",
    ),
    Way(
        "pin", "Pin {name}", "hammer, file", "bench",
        "Round the pin's end, drive it through, peen over what stands out.",
        "It cannot be pulled by hand; what should turn turns.",
    ),
    Way(
        "screw", "Screw {name}", "drill, driver", "where it is fixed",
        "Hold it in place, mark through the holes, drill, screw it home by hand.",
        "No rocking; the head sits flat.",
    ),
    Way(
        "braze", "Braze {name}", "torch, filler, flux", "fire bricks",
        "Clean to bright metal, flux, heat the thick side, let the joint melt the filler, not the flame.",
        "Filler shows along the whole joint on both sides.",
    ),
)  # fmt: skip
"""One or more rows for an operation on rings, and for each way of joining."""
