"""Every word of a job file: what it takes and what it means. The reader and the JSON Schema use this one table."""

from bickern.book.forms import GAUGES, Form, Key, Takes

T = Takes
FACES = ("front", "back", "left", "right")

_NAME = Key("name", T.TEXT, "a name, so that places and joins can speak of it")
_TRACK = (
    _NAME,
    Key("group", T.TEXT, "a name that several entries share, for `like`"),
    Key("like", T.TEXT, "the entries of that name on another piece, as `poker.handle`"),
)
_TURN = Key("turn", T.TURN, "which way, seen along the bar from the datum end with the reference face up")
_WAY = Key("way", T.CHOICE, "flats: over the thin way, or on edge", ("easy", "hard"))
_STEEL = Key("steel", T.TEXT, "the metal; mild steel when not told")
_COATING = Key("coating", T.TEXT, "what is on the metal: none, or galvanised, painted and the like")
_MAKE = Key("make", T.COUNT, "how many in one set")
_CLOSED = ("welded", "butted")

JOB = Form("job", "A job: what is to be made.", (
    Key("job", T.TEXT, "the title", needed=True),
    Key("units", T.CHOICE, "what a bare number means", ("in", "mm")),
    Key("gauge", T.CHOICE, "which numbers a bare gauge means in this job", GAUGES),
    Key("make", T.COUNT, "how many sets"),
    Key("use", T.TEXTS, "food, flame, outdoors, overhead load, child and the like: decides the cautions"),
    Key("finish", T.TEXT, "the finish, printed on the sheet"),
    Key("what for", T.TEXT, "what it is for, printed under the title"),
    Key("skill", T.TEXT, "what making it teaches"),
    Key("author", T.TEXT, "whose plan it is"),
    Key("date", T.TEXT, "the day of the plan, printed as written"),
    Key("notes", T.TEXTS, "lines printed on the sheet as written"),
    Key("shop", T.TEXT, "the file with this forge's own figures"),
    Key("pieces", T.NAMED, "the pieces, each under its name", form="piece", needed=True),
    Key("joins", T.LIST, "how the pieces are joined", form="join"),
    Key("hang", T.GROUP, "how the set is held", form="hang"),
))  # fmt: skip

HANG = Form("hang", "How the set is held.", (
    Key("from", T.TEXT, "the named place it hangs from", needed=True),
    Key("on", T.TEXT, "what it hangs on"),
))  # fmt: skip

_TRACKS = (
    Key("metal", T.LIST, "sections along the finished bar, from the datum end", form="metal"),
    Key("path", T.LIST, "straights and bends along the finished bar, from the datum end", form="path"),
    Key("twist", T.LIST, "twists", form="twist"),
    Key("holes", T.LIST, "holes", form="hole"),
    Key("split", T.NAMED, "the bar goes on as two to four bars", form="limb"),
    Key("weld on", T.NAMED, "bars welded on at a place", form="branch"),
    Key("hand", T.CHOICE, "`left` mirrors every turn", ("right", "left")),
)
_LYING = Key("lying", T.CHOICE, "flats: wide face up (flat) or on edge", ("flat", "on edge"))
_REPEATS = (
    Key("like", T.TEXT, "all of another piece, with what is written here put in its place"),
    Key("mirror", T.YES, "the other hand"),
    _MAKE,
)

BAR = Form("bar", "A piece made from bar.", (
    Key("bar", T.SECTION, "the stock to start from; `any` lets the rack decide", needed=True),
    _STEEL, _COATING, *_REPEATS,
    Key("stock length", T.AMOUNT, "the length there is; `?` is the usual question"),
    _LYING,
    Key("grip", T.LENGTH, "extra held in tongs or vise and cut off afterwards"),
    *_TRACKS,
    Key("closed", T.CHOICE, "the ends meet", _CLOSED),
    Key("overall", T.LIST, "overall sizes after bending that are to be reached", form="overall"),
))  # fmt: skip
_BROTHER = (
    Key("like", T.TEXT, "all of another one beside it, with what is written here put in its place"),
    Key("mirror", T.YES, "the other hand"),
)
LIMB = Form("limb", "A bar that goes on where another is split.", (*_BROTHER, _LYING, *_TRACKS))
BRANCH = Form("branch", "A bar welded on.", (
    Key("at", T.PLACE, "where on the bar it is welded", needed=True),
    Key("bar", T.SECTION, "the stock to start from", needed=True),
    _STEEL, _COATING, *_BROTHER, _LYING, *_TRACKS,
))  # fmt: skip
OVERALL = Form("overall", "An overall size after bending.", (
    Key("reach", T.LENGTH, "along the longest straight"),
    Key("across", T.LENGTH, "at right angles to it, in the plane of the first bend"),
    Key("rise", T.LENGTH, "out of that plane"),
    Key("end to end", T.LENGTH, "straight from end to end"),
    Key("by", T.TEXT, "the entry whose length is changed to reach it", needed=True),
), ("reach", "across", "rise", "end to end"))  # fmt: skip

_END_SIZES = (
    Key("width", T.LENGTH, "width at the widest"),
    Key("thick", T.LENGTH, "thickness"),
    Key("widths", T.SHARES, "share of the length and width there, as [[0, 0], [1/2, 1], [1, 1/4]]"),
)
METAL = Form("metal", "One stretch of the finished bar.", (
    Key("over", T.AMOUNT, "its length"),
    Key("keep", T.AMOUNT, "its length, the section left as it is"),
    Key("from", T.GOAL, "the section it begins with"),
    Key("to", T.GOAL, "the section it ends with: a straight-sided blend"),
    Key("as", T.GOAL, "one section all along"),
    Key("shoulder", T.LENGTH, "a ramp at its beginning, inside its length"),
    Key("flush", T.CHOICE, "the face kept in line with the stretch before", FACES),
    Key("offset", T.PAIR, "how far off the line: [left, up]"),
    Key("roll", T.ANGLE, "turned about the line"),
    Key("leaf", T.AMOUNT, "a leaf of that length"),
    Key("spade", T.AMOUNT, "a spade end of that length"),
    Key("spoon", T.AMOUNT, "a spoon end of that length"),
    Key("free", T.AMOUNT, "an end of that length with `widths`"),
    *_END_SIZES, *_TRACK,
), ("over", "keep", "leaf", "spade", "spoon", "free", "like"))  # fmt: skip
PATH = Form("path", "One straight or bend of the bar.", (
    Key("straight", T.AMOUNT, "a straight of that length"),
    Key("to corners", T.CHOICE, "straights: told to the sharp corners on that line of the bar, not between the bends",
        ("centre", "inside", "outside")),
    Key("bend", T.ANGLE, "a bend of that angle"),
    Key("curl", T.ANGLE, "a bend past a half turn"),
    Key("eye", T.LENGTH, "a full ring at an end, inside across"),
    Key("corner", T.ANGLE, "a sharp corner of that angle"),
    Key("scroll", T.GROUP, "a scroll: three of turns, inside radius, outside radius, length", form="scroll"),
    Key("hoop", T.GROUP, "the whole bar as one round hoop", form="hoop"),
    Key("inside radius", T.LENGTH, "radius to the inside face"),
    Key("inside across", T.LENGTH, "twice the inside radius"),
    Key("forged", T.CHOICE, "corners: forged up sharp, or upset first", ("square", "upset")),
    Key("centred", T.YES, "eyes: on the bar's line (as usual) or to one side"),
    Key("welded", T.YES, "eyes: the end is welded to the bar, which wants the shop's allowance more"),
    _TURN, _WAY, *_TRACK,
), ("straight", "bend", "curl", "eye", "corner", "scroll", "hoop", "like"))  # fmt: skip
SCROLL = Form("scroll", "A scroll.", (
    Key("turns", T.TURNS, "how many turns"),
    Key("inside radius", T.LENGTH, "the smallest radius, to the inside face"),
    Key("outside radius", T.LENGTH, "the largest radius, to the inside face"),
    Key("length", T.AMOUNT, "length of bar in it"),
    Key("kind", T.CHOICE, "how it opens", ("even", "equiangular")),
    Key("starts", T.CHOICE, "which end comes first along the bar", ("centre", "outside")),
))  # fmt: skip
HOOP = Form("hoop", "A round hoop.", (
    Key("inside across", T.LENGTH, "inside diameter"),
    Key("inside radius", T.LENGTH, "half of it"),
    Key("mean across", T.LENGTH, "diameter of the bar's middle line"),
    Key("outside across", T.LENGTH, "outside diameter"),
), ("inside across", "inside radius", "mean across", "outside across"))  # fmt: skip
TWIST = Form("twist", "A twist.", (
    Key("turns", T.TURNS, "how many turns", needed=True),
    Key("over", T.LENGTH, "length of bar twisted"),
    Key("at", T.PLACE, "the place it begins at, is centred on (middle of ...) or ends at (end of ...)"),
    Key("from", T.LENGTH, "where it begins, from the datum end"),
    Key("start of", T.TEXT, "it begins where that entry does"),
    Key("middle of", T.TEXT, "it is centred on that entry"),
    Key("end of", T.TEXT, "it ends where that entry does"),
    Key("all of", T.TEXT, "the whole of that entry"),
    Key("hand", T.CHOICE, "which way it winds", ("right", "left")),
    *_TRACK,
), ("at", "from", "start of", "middle of", "end of", "all of", "like"))  # fmt: skip
HOLE = Form("hole", "A hole, or several of a kind.", (
    Key("size", T.LENGTH, "its diameter, or its width if it is long"),
    Key("by", T.CHOICE, "how it is made", ("drill", "punch", "slit and drift")),
    Key("at", T.PLACE, "where its middle is"),
    Key("face", T.CHOICE, "through which face", FACES),
    Key("long", T.LENGTH, "length of a slot"),
    Key("divide", T.COUNT, "how many, spaced evenly over the named entry or round the hoop"),
    Key("number", T.COUNT, "how many, at `spacing`"),
    Key("spacing", T.LENGTH, "from middle to middle"),
    Key("first", T.FIRST, "how far the first is from the joint or the start"),
    *_TRACK,
), ("size", "like"))  # fmt: skip

RING = Form("ring", "Rings, links or chain.", (
    Key("ring", T.SECTION, "the wire or bar it is made from", needed=True),
    _STEEL, _COATING, *_REPEATS,
    Key("inside across", T.LENGTH, "inside diameter"),
    Key("inside radius", T.LENGTH, "half of it"),
    Key("mean across", T.LENGTH, "diameter of the wire's middle line"),
    Key("outside across", T.LENGTH, "outside diameter"),
    Key("inside long", T.LENGTH, "an oval link: its length inside"),
    Key("closed", T.CHOICE, "how the ends meet", (*_CLOSED, "open")),
    Key("chain", T.GROUP, "a chain of these", form="chain"),
    Key("wound", T.TEXT, "wound as a coil: `yes`, or `on` a mandrel of that size"),
))  # fmt: skip
CHAIN = Form("chain", "A chain.", (
    Key("length", T.LENGTH, "length over all, inside of the end links"),
    Key("links", T.COUNT, "how many links"),
), ("length", "links"))  # fmt: skip

SHEET = Form("sheet", "A piece made from sheet.", (
    Key("sheet", T.THICKNESS, "thickness or gauge", needed=True),
    _STEEL, _COATING, *_REPEATS,
    Key("surface", T.GROUP, "its shape", form="surface", needed=True),
    Key("seam", T.GROUP, "how the edges are joined", form="seam"),
    Key("edges", T.LIST, "free edges made safe", form="edge"),
    Key("lugs", T.LIST, "tabs left on an edge", form="lug"),
    Key("holes", T.LIST, "holes", form="sheet hole"),
    Key("parts", T.COUNT, "how many patterns it is split into"),
    Key("cut from", T.OFFERED, "sheets there are", form="offered"),
    Key("hot", T.YES, "it will see fire"),
))  # fmt: skip
OFFERED = Form("offered", "A sheet to cut from.", (
    Key("size", T.SIZES, "wide x high", needed=True),
    _COATING,
))  # fmt: skip
SURFACE = Form("surface", "The shape of a sheet piece.", (
    Key("cone", T.GROUP, "a cone or frustum", form="cone"),
    Key("cylinder", T.GROUP, "a round tube", form="cylinder"),
    Key("pyramid", T.GROUP, "a pyramid or its frustum", form="pyramid"),
    Key("transition", T.GROUP, "from one opening to another", form="transition"),
    Key("pan", T.GROUP, "a folded pan", form="pan"),
    Key("bowl", T.GROUP, "a dished bowl", form="bowl"),
    Key("outline", T.GROUP, "a flat outline", form="outline"),
), ("cone", "cylinder", "pyramid", "transition", "pan", "bowl", "outline"))  # fmt: skip
_SIZES = Key("sizes", T.CHOICE, "of which surface the sizes are told", ("inside", "outside", "mean"))
_HEIGHT = Key("height", T.LENGTH, "height", needed=True)
_OFFSET = Key("offset", T.SHIFT, "the top's middle off the base's middle")
CONE = Form("cone", "A cone or frustum.", (
    Key("base", T.LENGTH, "diameter of the base", needed=True),
    Key("top", T.ANY_LENGTH, "diameter of the top; 0 or left out: a point"),
    _HEIGHT, _OFFSET, _SIZES,
))  # fmt: skip
CYLINDER = Form("cylinder", "A round tube.", (
    Key("across", T.LENGTH, "diameter", needed=True), _HEIGHT,
    Key("cut", T.ANGLE, "its upper end is tilted by that"), _SIZES,
))  # fmt: skip
PYRAMID = Form("pyramid", "A pyramid or its frustum.", (
    Key("sides", T.COUNT, "how many sides; 4 when not told"),
    Key("base", T.SIZES, "across flats, or long x wide", needed=True),
    Key("top", T.SIZES, "across flats, or long x wide; left out: a point"),
    _HEIGHT, _OFFSET, _SIZES,
))  # fmt: skip
TRANSITION = Form("transition", "A skin from one opening to another.", (
    Key("from", T.GROUP, "the lower opening", form="rim", needed=True),
    Key("to", T.GROUP, "the upper opening", form="rim", needed=True),
    _HEIGHT, _OFFSET, _SIZES,
))  # fmt: skip
RIM = Form("rim", "An opening.", (
    Key("round", T.LENGTH, "diameter"),
    Key("square", T.LENGTH, "side"),
    Key("rectangle", T.SIZES, "across x long"),
    Key("oval", T.SIZES, "across x long"),
    Key("tilt", T.ANGLE, "leaning by that"),
), ("round", "square", "rectangle", "oval"))  # fmt: skip
PAN = Form("pan", "A folded pan.", (
    Key("long", T.LENGTH, "length of the bottom", needed=True),
    Key("wide", T.LENGTH, "width of the bottom", needed=True),
    Key("high", T.LENGTH, "height of the walls", needed=True),
    Key("walls", T.TEXTS, "which walls: front, back, left, right; all when not told"),
    Key("inside radius", T.ANY_LENGTH, "of the folds"),
    Key("corner tabs", T.ANY_LENGTH, "tabs left at the corners"),
    _SIZES,
))  # fmt: skip
BOWL = Form("bowl", "A dished bowl.", (
    Key("rim", T.LENGTH, "diameter at the rim", needed=True),
    Key("depth", T.LENGTH, "depth", needed=True),
    Key("thinning", T.TEXT, "how the metal moves"),
    _SIZES,
))  # fmt: skip
OUTLINE = Form("outline", "A flat outline.", (
    Key("file", T.TEXT, "a DXF or SVG file beside the job file"),
    Key("units", T.CHOICE, "what a number in that file means, where it does not say", ("in", "mm")),
    Key("points", T.PAIRS, "the corners in order, as [[0, 0], [4, 0], [2, 3]]"),
    Key("cut out", T.LIST, "holes in it", form="cut out"),
), ("file", "points"))  # fmt: skip
CUT_OUT = Form("cut out", "A hole in an outline.", (
    Key("points", T.PAIRS, "its corners in order"),
    Key("round", T.LENGTH, "a round hole of that diameter"),
    Key("at", T.PAIR, "the middle of a round hole"),
), ("points", "round"))  # fmt: skip
SEAM = Form("seam", "How the edges of a pattern are joined.", (
    Key("butt", T.YES, "edge to edge"),
    Key("none", T.YES, "left open"),
    Key("lap", T.LENGTH, "one over the other by that"),
    Key("riveted lap", T.LENGTH, "one over the other by that, riveted"),
    Key("brazed lap", T.LENGTH, "one over the other by that, brazed"),
    Key("grooved", T.LENGTH, "hooked and grooved, that wide when finished"),
    Key("rivets", T.LENGTH, "diameter of the rivets"),
    Key("pitch", T.LENGTH, "from rivet to rivet"),
), ("butt", "none", "lap", "riveted lap", "brazed lap", "grooved"))  # fmt: skip
EDGE = Form("edge", "A free edge made safe.", (
    Key("on", T.TEXT, "top, bottom, or a wall of a pan", needed=True),
    Key("raw", T.YES, "left as cut"),
    Key("hem", T.LENGTH, "folded back once by that"),
    Key("double hem", T.LENGTH, "folded back twice by that"),
    Key("wired", T.LENGTH, "rolled round a wire of that diameter"),
), ("raw", "hem", "double hem", "wired"))  # fmt: skip
_DIVIDED = (
    Key("divide", T.COUNT, "how many, spaced evenly round"),
    Key("first", T.FIRST, "how far the first is from the seam"),
    _NAME,
)
LUG = Form("lug", "Tabs left on an edge.", (
    Key("eye", T.LENGTH, "rolled into an eye of that inside diameter"),
    Key("flat", T.LENGTH, "left flat, of that length"),
    Key("width", T.LENGTH, "width of the tab; as wide as its eye when not told"),
    Key("on", T.TEXT, "which edge", needed=True),
    *_DIVIDED,
), ("eye", "flat"))  # fmt: skip
SHEET_HOLE = Form("sheet hole", "Round holes in sheet.", (
    Key("size", T.LENGTH, "diameter", needed=True),
    Key("up", T.LENGTH, "from the bottom edge, along the surface", needed=True),
    *_DIVIDED,
))  # fmt: skip

_THROUGH = Key("through", T.LINKS, "the places it goes through")
_ROUND = Key("round", T.LINKS, "the places it goes round")
_ON = Key("on", T.LINKS, "what a hook hangs on: rings, hoops, eyes, holes, bars")
JOIN = Form("join", "One joint.", (
    Key("ring", T.TEXT, "the ring that joins, as `links 1`"),
    Key("hook", T.TEXT, "the open bend of a bar that hooks on, as `hook 1.rail bend`"),
    Key("rivet", T.LENGTH, "diameter of the rivet"),
    Key("collar", T.SECTION, "the collar's section"),
    Key("tenon", T.LENGTH, "diameter of the tenon"),
    Key("wrap", T.SECTION, "the wire wrapped"),
    Key("weld", T.LINKS, "the two ends welded"),
    Key("pin", T.LENGTH, "diameter of the pin"),
    Key("screw", T.TEXT, "the screw's number or size"),
    _THROUGH, _ROUND, _ON,
    Key("turns", T.COUNT, "how many turns of a wrap"),
    Key("number", T.COUNT, "how many of them"),
    Key("grip", T.LENGTH, "the thickness gripped, where it is told"),
), ("ring", "hook", "rivet", "collar", "tenon", "wrap", "weld", "pin", "screw"))  # fmt: skip

FORMS = {f.name: f for f in (
    JOB, HANG, BAR, LIMB, BRANCH, OVERALL, METAL, PATH, SCROLL, HOOP, TWIST, HOLE, RING, CHAIN, SHEET, OFFERED,
    SURFACE, CONE, CYLINDER, PYRAMID, TRANSITION, RIM, PAN, BOWL, OUTLINE, CUT_OUT, SEAM, EDGE, LUG, SHEET_HOLE, JOIN,
)}  # fmt: skip
"""Every form by its name."""
PIECES = (BAR, RING, SHEET)
"""The three kinds of piece; the first word of each says which it is."""
