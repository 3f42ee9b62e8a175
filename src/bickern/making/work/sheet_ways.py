"""Rows of ways: sheet work and the cold finish. Narrow rows stand before wide ones."""

from bickern.making.work.way import Way
from bickern.measure.source import Kind, Source

STEELWORKER = Source(
    "US Navy", "Steelworker, NAVEDTRA 14251", 1996, "forming tools by hand, quoted by a secondary page", Kind.HANDBOOK
)
"""Stakes, setting hammer, mallet and hand seamer, and what each is for; year from memory."""

_EDGES = "mallet, setting hammer"

SHEET_WAYS: tuple[Way, ...] = (
    Way(
        "cut sheet", "Cut out {name}", "snips or shear", "bench",
        "Stay on the waste side, never close the snips to their points; notches and corners last.",
        "Lay the pattern on it: line on line; both halves alike where there are two.",
    ),
    Way(
        "deburr", "Take the edge off {name}", "file", "vise, between soft jaws",
        "File along the edge on both faces at once after cutting, corners too.",
        "A rag drawn along the edge does not catch.",
    ),
    Way(
        "hem", "Fold {name} to hooks", "hand seamer, mallet", "bench edge or folding bar",
        "One edge up, the other down, folded to a hook; leave room for the other edge to slip in.",
        "Hook the edges together: they slip in for their whole length.", "seam", STEELWORKER,
    ),
    Way(
        "hem", "Wire the edge, {name}", "mallet, setting hammer, pliers", "stake or bench edge",
        "Turn it up square along the line, lay the wire in, close the edge over it, tuck it in all along.",
        "The wire does not turn; no gap under the edge by fingernail.", "wired", STEELWORKER,
    ),
    Way(
        "hem", "Turn the edge over twice, {name}", "hand seamer, mallet", "bench edge or folding bar",
        "Outer fold first, closed flat, then the second over it; close it over a strip of the same sheet.",
        "Width alike all along by rule; no crack on the outside.", "double hem", STEELWORKER,
    ),
    Way(
        "hem", "Turn the edge over, {name}", "hand seamer, mallet", "bench edge or folding bar",
        "Fold it up along the line in two passes, then close it over a strip of the same sheet.",
        "Width alike all along by rule; no crack on the outside.", "", STEELWORKER,
    ),
    Way(
        "fold", "Bend {name} to the curve first", "mallet", "over a bar in the vise",
        "Bend a strip at each seam edge to the curve before rolling: rolling never reaches it.",
        "Try the edge on the full-size circle.", "edges",
    ),
    Way(
        "fold", "Fold {name} to {angle}", _EDGES, "between two bars in the vise",
        "Clamp on the line, push the whole wall over by hand, then dress along its length, never from one end.",
        "Bevel or square set to {angle}; the next line still free of the bars.", "", STEELWORKER,
    ),
    Way(
        "fold", "Fold {name}", _EDGES, "between two bars in the vise",
        "Clamp on the line, push the wall over by hand, then dress along its length, never from one end.",
        "Bevel or square; the next line still free of the bars.", "", STEELWORKER,
    ),
    Way(
        "roll sheet", "Roll {name}", "mallet, hands", "horn stake, or pipe in the vise",
        "Press it round by hand, always along the ruled lines, a little at a time from both sides.",
        "Seam edges meet without force; lay the rims on their full-size circles.", "", STEELWORKER,
    ),
    Way(
        "dish", "Dish {name} hot", "ball hammer, tongs", "dishing block or swage block",
        "Hot, in rings from the rim toward the middle, turning steadily; flatten puckers before they fold.",
        "Depth with rule and straight edge; rim on its full-size circle.", "hot",
    ),
    Way(
        "dish", "Dish {name} cold", "mallet", "dishing block",
        "In rings from the rim toward the middle, turning steadily; stop when it rings hard: it must not be annealed.",
        "Depth with rule and straight edge; rim on its full-size circle; the coat nowhere cracked.", "coated",
    ),
    Way(
        "dish", "Dish {name} cold", "ball hammer or mallet", "dishing block",
        "In rings from the rim toward the middle, turning steadily; if it rings hard and springs, anneal it.",
        "Depth with rule and straight edge; rim on its full-size circle.",
    ),
    Way(
        "groove", "Close the grooved {name}", "mallet, grooving tool", "horn stake, or pipe in the vise",
        "Hook the edges, mallet the seam flat, then set it with the grooving tool: both ends first, then along.",
        "Seam flat and tight; it does not slip when pulled sideways.", "", STEELWORKER,
    ),
    Way(
        "file", "File {name} level", "file, chalk", "vise, between soft jaws",
        "Rub it on the chalked anvil face, file where the chalk shows, then round both edges.",
        "It stands on the anvil face without rocking; a rag does not catch.", "rim",
    ),
    Way(
        "file", "File {name} to size", "file", "vise",
        "Rough file across, then along; keep off the finished faces.",
        "Calipers or the gauge card.",
    ),
    Way(
        "brush", "Brush {name} at red", "wire brush", "anvil",
        "In the last heat, hard and quick, away from you, till the scale stops lifting.",
        "Grey and even, no loose scale under the fingernail when cold.", "hot",
    ),
    Way(
        "brush", "Brush {name}", "wire brush", "vise or bench",
        "Along the piece and into the corners, till no loose scale comes off.",
        "Grey and even; no loose scale under the fingernail.",
    ),
    Way(
        "wax or oil", "Wax or oil {name} cold", "cloth, wax or oil", "bench, no fire near",
        "Clean and cold: what is on it must not be warmed. Rub it on thin, wipe off what stands, let it dry.",
        "Not sticky; a drop of water stands on it.", "coated",
    ),
    Way(
        "wax or oil", "Oil {name} and bake it on", "clean cloth, raw linseed oil", "bench, then oven or fire",
        "Thin coat of raw oil, no driers; warm it till it stops smoking; wipe; two or three coats.",
        "Dry and brown to black, not sticky; no smell of oil.", "food",
    ),
    Way(
        "wax or oil", "Wax or oil {name}", "cloth, wax or oil", "bench, no fire near",
        "Warm it evenly, rub it on thin, let it run into every corner, wipe off what stands.",
        "Not sticky when cold; a drop of water stands on it.",
    ),
    Way(
        "black", "Black {name}", "brush, stove black", "bench",
        "Clean and cold. Thin coat, let it dry, brush it till it shines.",
        "No bare edge; a dry rag stays clean.",
    ),
    Way(
        "paint", "Paint {name}", "brush, paint", "bench",
        "Clean, cold and free of wax. Thin coats, each dry before the next; corners and undersides first.",
        "No bare edge anywhere, looked at from below too.",
    ),
    Way(
        "scrub", "Scrub {name} bright", "steel wool, grit and water", "bench",
        "Scale off in all corners, with the length of the piece, then dry it at once.",
        "Bright in the corners too; wiped with white cloth it leaves nothing.",
    ),
    Way(
        "galvanise after", "Send {name} to be galvanised", "", "galvaniser",
        "Holes to vent every hollow, loose fits, no paint or wax on it.",
        "Look into every hollow: zinc must run in and out.",
    ),
)  # fmt: skip
"""One or more rows for an operation on sheet, and for the finish."""
