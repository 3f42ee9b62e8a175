"""What must be done before what, as rows: the rules of the trade, each with its reason and where it is known from.

The rows stand in their order of strength: where two of them would pull the same works both ways, the upper one holds.
"""

from dataclasses import dataclass
from enum import StrEnum

from bickern.measure.source import COMMON_PRACTICE, Kind, Source


class Near(StrEnum):
    """How two works must lie to one another before a rule speaks of them. Places are on one bar or limb."""

    PIECE = "on the same piece"
    STRETCH = "on the same stretch"  # one or both for the whole piece, or stretches that overlap
    OWN = "on what has the same name"
    BESIDE = "on the same or the next stretch"  # overlapping or touching
    AROUND = "on the stretch that the second lies in the middle of, called otherwise"
    APART = "on stretches that do not overlap"
    SAME_END_THINNER = "toward the same end, the second leaving metal less than 0.7 as thick (area over girth)"
    OUTLINE = "beside an end that is spread to an outline"
    TRUED = "on the same piece, the first of them the hot truing of a twist"
    BUT_TRUED = "on the same stretch, save the hot truing of a twist"
    BEFORE_CUT = "on the same piece, where the cut waits for it"
    AFTER_CUT = "on the same piece, where the cut is told to come before it"
    SAME_END_OUTWARD = "toward the same end, the first nearer to it"
    LIMB = "on a limb that grows from it"
    OF_LIMB = "where that limb is joined"
    LINK = "on a link, which is bent to a U"
    JOINED = "on pieces that are joined"
    MIDDLE = "the first a long stretch in the middle, the second at an end, spread, split, or clearly thinner"


@dataclass(frozen=True, slots=True)
class Precedence:
    """One rule: works that do any of `first` come before works that do any of `then` where they lie as `where` says.

    `then` EVERYTHING means any work that is not among `first`.
    """

    key: str
    first: tuple[str, ...]
    then: tuple[str, ...]
    where: Near
    because: str
    source: Source = COMMON_PRACTICE


EVERYTHING = ("*",)
SHAPING = ("draw", "taper", "spread")
FORGING = ("upset", "shoulder", *SHAPING)
HOLES = ("punch", "slit", "drift")
BENDS = ("bend", "scroll", "hoop")
FIRE_WORK = ("split", *FORGING, *HOLES, "curl", *BENDS, "twist", "scarf", "weld", "dish", "rivet hot", "collar")
"""Everything that is done hot to give a piece its form; straightening and brushing come after it."""

ILGEN_CHAIN = Source(
    "W. L. Ilgen", "Forge Work", 1912,
    "s. 80, chain making: bend, scarf one end and the other, close, weld; the next link is hung in after its scarfs",
    Kind.HANDBOOK,
)  # fmt: skip
FAO_LINK = Source(
    "J. B. Stokes", "Intermediate Blacksmithing, FAO Agricultural Services Bulletin 88/2", 1992,
    "job 7, a welded chain link: the second link is slipped on when the scarfs are formed, before they are closed",
    Kind.HANDBOOK,
)  # fmt: skip
GOOGERTY_BENDS = Source(
    "T. F. Googerty", "Practical Forging and Art Smithing", 1915,
    "the drawer pull with a lug: bending starts at the end and works toward the middle", Kind.HANDBOOK,
)  # fmt: skip
GOOGERTY_HAMMOCK = Source(
    "T. F. Googerty", "Practical Forging and Art Smithing", 1915,
    "the hammock hook: its eye first, then the taper of the other end, then the hook", Kind.HANDBOOK,
)  # fmt: skip
SHOP_PRACTICE_GATE = Source(
    "American School of Correspondence", "Cyclopedia of Modern Shop Practice", 1906,
    "vol. 2, forging shoulders, the gate hook: both ends are drawn out, after that eye and hook are bent up",
    Kind.HANDBOOK,
)  # fmt: skip

DREW_RING = Source(
    "J. M. Drew", "Farm Blacksmithing", 1918,
    "making a ring, fig. 9, read in it: both ends upset and scarfed, then bent and welded", Kind.HANDBOOK,
)  # fmt: skip
ILGEN_PIPE_HOOK = Source(
    "W. L. Ilgen", "Forge Work", 1912,
    "the pipe hook: upset while the bar is straight, shouldered and drawn, cut off, then the point drawn, then bent",
    Kind.HANDBOOK,
)  # fmt: skip

PRECEDENCE: tuple[Precedence, ...] = (
    Precedence(
        "sheet-marked", ("mark",), ("cut sheet",), Near.PIECE, "the pattern is laid on the whole sheet"
    ),
    Precedence(
        "cut-before-marks", ("cut bar",), ("mark",), Near.PIECE, "every mark is measured from the end that was cut"
    ),
    Precedence(
        "cut-first", ("cut bar",), (*FIRE_WORK, "straighten"), Near.PIECE,
        "its length is measured while it is straight and cold",
    ),
    Precedence(
        "mark-first", ("mark",), (*FIRE_WORK, "straighten", "drill"), Near.PIECE,
        "marks are made on straight, cold bar; punch marks are found again by feel",
    ),
    Precedence(
        "cut-before-forming", ("cut sheet", "deburr"),
        ("fold", "roll sheet", "dish", "hem", "groove", "curl", "rivet", "braze"), Near.PIECE,
        "a flat blank is cut and its edges made safe before it is formed",
    ),
    Precedence(
        "oil-last", EVERYTHING, ("wax or oil", "galvanise after"), Near.PIECE,
        "any later heat burns it off, any later file goes through it",
    ),
    Precedence(
        "drift-after-slit", ("slit",), ("drift",), Near.STRETCH, "the slit is what the drift opens"
    ),
    Precedence(
        "forged-before-split", FORGING, ("split",), Near.BESIDE, "limbs cannot be forged together once they are parted"
    ),
    Precedence(
        "split-first", ("split",), (*FORGING, *HOLES, *BENDS, "curl", "twist"), Near.LIMB,
        "a limb is there only when the bar is split",
    ),
    Precedence(
        "limb-before-its-weld", (*FORGING, "scarf", "cut off", "straighten"), ("weld",), Near.OF_LIMB,
        "a limb is made, and its scarf, while it is loose in the hand",
    ),
    Precedence(
        "forged-before-scarf", FORGING, ("scarf",), Near.BESIDE, "a scarf is thin: work beside it hammers it away"
    ),
    Precedence(
        "scarf-before-weld", ("scarf",), ("weld",), Near.PIECE, "square ends leave a notch in the weld", FAO_LINK
    ),
    Precedence(
        "link-bent-then-scarfed", ("bend",), ("scarf",), Near.LINK,
        "the U holds both ends side by side for the same scarf", ILGEN_CHAIN,
    ),
    Precedence(
        "scarf-before-bending", ("scarf",), ("bend", "hoop", "curl"), Near.PIECE,
        "a scarf is made on the anvil's edge, where a closed ring does not go. Books differ: W. L. Ilgen, Forge Work, "
        "1912, s. 81, and J. B. Stokes, FAO 88/2, 1992, job 15, begin to bend the ring first and scarf it before it is "
        "closed; T. F. Googerty, Hand-Forging, 1911, p. 70, calls scarfing first seldom needed", DREW_RING,
    ),
    Precedence(
        "cut-off-before-its-end", ("cut off",), EVERYTHING, Near.AFTER_CUT,
        "an end is not made where the longer bar goes on: it is cut off as soon as the piece can be held without it",
        ILGEN_PIPE_HOOK,
    ),
    Precedence(
        "cut-off-after", FIRE_WORK, ("cut off",), Near.BEFORE_CUT, "the longer bar is the best handle"
    ),
    Precedence(
        "bent-before-weld", ("bend", "hoop", "curl"), ("weld",), Near.STRETCH,
        "the ends that are welded meet only when it is bent",
    ),
    Precedence(
        "threaded-before-closed", ("thread",), ("close ring", "weld"), Near.STRETCH,
        "a closed ring goes through nothing", FAO_LINK,
    ),
    Precedence(
        "scarfed-before-threaded", ("scarf",), ("thread",), Near.STRETCH,
        "what hangs in it is in the way of the scarf", FAO_LINK,
    ),
    Precedence(
        "hole-before-ring", (*HOLES, "drill"), ("thread", "close ring"), Near.JOINED,
        "the ring is threaded through the hole before it is closed",
    ),
    Precedence(
        "drill-before-rivet", ("drill", *HOLES), ("rivet", "rivet hot", "screw", "pin"), Near.JOINED,
        "the fastening goes through the hole",
    ),
    Precedence(
        "drawn-before-its-corner", SHAPING, ("upset",), Near.AROUND,
        "what is upset for a corner would be hammered down again",
    ),
    Precedence(
        "upset-first", ("upset",), ("shoulder", *SHAPING), Near.BESIDE,
        "the bar must be full and straight to swell: thinned beside it, it bends there", ILGEN_PIPE_HOOK,
    ),
    Precedence(
        "upset-before-bend", ("upset",), ("bend",), Near.STRETCH, "the corner is made of the metal that was upset"
    ),
    Precedence(
        "shoulder-first", ("shoulder",), SHAPING, Near.OWN,
        "its edge is set down while there is full metal on both sides of it",
    ),
    Precedence(
        "set-down-before-drawing", ("shoulder",), ("draw", "taper"), Near.BESIDE,
        "what is set down keeps its metal when the stretch beside it is drawn",
    ),
    Precedence(
        "forged-before-hole", ("upset", *SHAPING), HOLES, Near.STRETCH,
        "hammering closes a hole and pulls it off its place",
    ),
    Precedence(
        "forged-before-eye", FORGING, ("curl",), Near.STRETCH, "an eye cannot be forged to size once it is turned"
    ),
    Precedence(
        "middle-before-ends", ("draw", "taper"), (*SHAPING, "split", "curl"), Near.MIDDLE,
        "it takes many heats: both ends are still full bar to hold it by, and nothing thin lies by the fire",
    ),
    Precedence(
        "eye-before-shaft", ("curl",), SHAPING, Near.APART,
        "an eye gone wrong is cut off and begun again while there is bar enough", GOOGERTY_HAMMOCK,
    ),
    Precedence(
        "forged-before-twist", FORGING, ("twist",), Near.BESIDE,
        "a twist cannot be drawn, and a shape beside it gives the twist its end",
    ),
    Precedence(
        "forged-before-bends", FORGING, BENDS, Near.PIECE, "a bent bar does not lie on the anvil", SHOP_PRACTICE_GATE
    ),
    Precedence(
        "hole-before-bend", HOLES, (*BENDS, "curl"), Near.BESIDE,
        "a hole is made while the bar lies flat, and a bend beside it goes round it",
    ),
    Precedence(
        "twist-before-bends", ("twist",), BENDS, Near.PIECE,
        "wrench and vise want a straight bar (Ilgen 1912, s. 72, and the Cyclopedia of Modern Shop Practice twist a "
        "gate hook last, after its eye and hook)",
    ),
    Precedence(
        "ends-bent-first", ("curl", *BENDS), BENDS, Near.SAME_END_OUTWARD,
        "what is bent at the middle first, no longer lets the end be reached", GOOGERTY_BENDS,
    ),
    Precedence(
        "weld-before-other-bends", ("weld",), BENDS, Near.APART,
        "a weld is struck flat on the anvil, where a bent bar does not lie",
    ),
    Precedence(
        "trued-before-bends", ("straighten",), BENDS, Near.TRUED,
        "a twist is trued on the wood block while its bar is straight"
    ),
    Precedence(
        "thick-before-thin", SHAPING, SHAPING, Near.SAME_END_THINNER,
        "the thin burns while the thick beside it is heated: the thinnest is made last",
    ),
    Precedence(
        "stem-before-its-leaf", ("draw", "taper"), ("spread",), Near.OUTLINE,
        "a leaf's thin edge burns while what it grows from is heated",
    ),
    Precedence(
        "straightened-after", FIRE_WORK, ("straighten",), Near.BUT_TRUED, "every one of them leaves it a little bent"
    ),
    Precedence(
        "twist-trued-after", ("twist",), ("straighten",), Near.STRETCH, "twisting is what bends it"
    ),
    Precedence(
        "cold-after-hot", (*FIRE_WORK, "straighten", "cut off"), ("drill", "file"), Near.PIECE,
        "hot work bends a drilled hole and scales filed metal",
    ),
    Precedence(
        "brush-in-the-last-heat", (*FIRE_WORK, "straighten", "cut off"), ("brush",), Near.PIECE,
        "every heat after it scales the skin again",
    ),
)  # fmt: skip
"""All rules, the strongest first."""
