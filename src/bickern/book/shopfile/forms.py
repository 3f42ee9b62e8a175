"""The words of a shop file, in one table."""

from bickern.book.forms import GAUGES, Form, Key, Takes
from bickern.iron.colour import TABLES
from bickern.iron.flame import Flame
from bickern.measure.source import Rule
from bickern.parts.bar.rules import BEND_RULES, FULLNESS_RULES, SLIT_RULES
from bickern.parts.eye import EYE_RULES
from bickern.parts.joint.rules import COLLAR_RULES, RIVET_RULES, TENON_RULES
from bickern.parts.ring.rules import RING_RULES
from bickern.parts.sheet.rules import FOLD_RULES, SEAM_RULES, WIRE_RULES
from bickern.parts.weld import WELD_RULES

T = Takes


def _names(rules: tuple[Rule, ...], about: str = "") -> tuple[str, ...]:
    return tuple(str(r.name) for r in rules if about in ("", r.about))


_WELD = Key("weld", T.CHOICE, "allowance of a forge weld", _names(WELD_RULES))
_TAPE = Key("tape", T.LENGTH, "step to which `cut this` is rounded up")
_KERF = Key("kerf", T.ANY_LENGTH, "metal lost to one cut")
PRINT = Form("print", "How sizes are printed.", (
    Key("fractions", T.CHOICE, "the finest part of an inch", ("8", "16", "32", "64")),
    Key("fit fractions", T.CHOICE, "the same, where parts must fit", ("16", "32", "64", "128")),
    Key("millimetres", T.LENGTH, "the finest step in millimetres"),
    Key("fit millimetres", T.LENGTH, "the same, where parts must fit"),
    Key("decimal comma", T.YES, "millimetres with a comma"),
))  # fmt: skip
FIRE = Form("fire", "The fire.", (
    Key("name", T.TEXT, "what it is"),
    Key("longest heat", T.LENGTH, "the longest hot zone it gives"),
    Key("opening", T.LENGTH, "the widest piece that enters"),
    Key("temperature", T.HEAT, "how hot its heart is"),
    Key("flame", T.CHOICE, "how much air it leaves, so how fast iron scales in it", tuple(Flame)),
    Key("irons", T.COUNT, "how many irons lie in it at once"),
))  # fmt: skip
HAND = Form("hand", "How this smith strikes.", (
    Key("hammer", T.MASS, "weight of the hammer used most"),
    Key("speed in m/s", T.NUMBER, "how fast it meets the iron"),
    Key("useful blow in J", T.NUMBER, "of one blow, what is left as work in the iron"),
    Key("blows a second", T.NUMBER, "while the iron is struck"),
    Key("contact in W/m2K", T.NUMBER, "heat to the anvil while hammering: how well, over the whole skin"),
    Key("carry in seconds", T.NUMBER, "from the fire to the first blow"),
    Key("colours", T.CHOICE, "whose words for heat colours are printed", tuple(TABLES)),
))  # fmt: skip
BARS = Form("bars", "Rules and figures for bars.", (
    Key("bend", T.CHOICE, "where the length of a bend is taken", _names(BEND_RULES)),
    _WELD,
    Key("slit", T.CHOICE, "length of a slit", _names(SLIT_RULES)),
    Key("eye", T.CHOICE, "length of an eye or a hoop", _names(EYE_RULES)),
    Key(
        "corners full",
        T.SHARE_OR_RULE,
        "share of a sharp-cornered forged section that is really there",
        _names(FULLNESS_RULES),
    ),
    Key("twist shortening", T.SHARE, "share of the twisted length lost"),
    Key("scale worked", T.SHARES_OF_THREE, "lost to the fire where 3/8 sq is forged: low, likely, high"),
    Key("scale kept", T.SHARES_OF_THREE, "lost to the fire where it is only heated"),
    Key("upset corner", T.NUMBER, "extra length of an upset corner, in thicknesses"),
    _TAPE, _KERF,
))  # fmt: skip
RINGS = Form("rings", "Rules and figures for rings.", (
    Key("length", T.CHOICE, "length of a ring or a link", _names(RING_RULES)),
    _WELD, _KERF, Key("cold limit", T.SHARE, "strain up to which rings are bent and closed cold"), _TAPE,
    Key("cold yield in MPa", T.NUMBER, "yield of the wire, for the spring of a coil"),
    Key("stiffness in GPa", T.NUMBER, "its modulus of elasticity"),
))  # fmt: skip
SHEET = Form("sheet", "Rules and figures for sheet.", (
    Key("fold", T.CHOICE, "where the length of a fold is taken", _names(FOLD_RULES, "fold")),
    Key("groove", T.CHOICE, "how a grooved seam is shared", _names(SEAM_RULES, "grooved seam")),
    Key("smallest radius", T.NUMBER, "inside radius of a fold, in thicknesses"),
    Key("groove widths", T.NUMBER, "widths of a grooved seam in all"),
    Key("groove extra", T.NUMBER, "more for its bends, in thicknesses"),
    Key("hem", T.NUMBER, "widths added for a hem"),
    Key("double hem", T.NUMBER, "widths added for a double hem"),
    Key("wire", T.NUMBER_OR_RULE, "wire diameters added for a wired edge", _names(WIRE_RULES)),
    Key("rivet edge", T.NUMBER, "least distance from the edge, in rivet diameters"),
    Key("rivet pitch", T.NUMBER, "least distance from rivet to rivet, in rivet diameters"),
    Key("rivet clearance", T.ANY_LENGTH, "hole larger than the rivet"),
    Key("eye straight", T.ANY_LENGTH, "flat between a rolled eye and the edge"),
    _KERF,
))  # fmt: skip
JOINTS = Form("joints", "Rules and figures for joints.", (
    Key("rivet", T.CHOICE, "length of a rivet", _names(RIVET_RULES)),
    Key("rivet head", T.NUMBER, "the shop's own figure, in diameters past the grip"),
    Key("collar", T.CHOICE, "length of a collar", _names(COLLAR_RULES)),
    Key("tenon", T.CHOICE, "length of a tenon", _names(TENON_RULES)),
    _WELD,
))  # fmt: skip
CUTTING = Form("cutting", "How stock is cut.", (
    _KERF,
    Key("hot cut", T.YES, "bars are cut hot: no kerf, but each end is dressed"),
    Key("dress", T.ANY_LENGTH, "lost where a hot-cut end is dressed"),
    Key("grip", T.ANY_LENGTH, "what the saw's vise must hold of a bar's last end"),
    Key("shortest drop", T.ANY_LENGTH, "shortest end of a bar that goes back to the rack"),
    Key("narrowest drop", T.ANY_LENGTH, "the same of a sheet: its least width"),
    Key("gap", T.ANY_LENGTH, "between two patterns on a sheet"),
    Key("margin", T.ANY_LENGTH, "from a pattern to the edge of its sheet"),
    Key("weld short ones", T.YES, "two short bars may be welded into one"),
    Key("unknown steel", T.YES, "steel that nobody can name may be used"),
    Key("sold in", T.LENGTHS, "lengths of bar that the dealer sells"),
))  # fmt: skip
PRICES = Form("prices", "What this shop pays and asks.", (
    Key("fuel", T.MONEY, "an hour of fire"),
    Key("metal", T.PRICE, "plain bar and sheet, by weight"),
    Key("bars", T.PRICED, "sections that have a price of their own, by length or weight"),
    Key("metals", T.PRICED, "metals that are not sold as plain bar, by weight"),
    Key("fixed", T.MONEY, "once for a job: drawing, talking, fetching"),
    Key("each", T.MONEY, "on every set: screws, a box"),
    Key("waste", T.SHARE, "bar lost on the way, as a share of what is cut"),
    Key("failed", T.SHARE, "share of the work that is made again"),
    Key("finishing in minutes", T.NUMBER, "on every set, beside what the order of work counts"),
    Key("margin", T.SHARE, "share of all that it costs, put on top of that"),
    Key("learning", T.SHARE, "what is left of the hand's time when the count doubles"),
    Key("lighting in minutes", T.NUMBER, "to light the fire and let it come up"),
    Key("round to", T.MONEY, "step that a price is rounded up to"),
    Key("counts", T.COUNTS, "how many sets are priced"),
))  # fmt: skip
SHOP = Form("shop", "This forge.", (
    Key("shop", T.TEXT, "its name", needed=True),
    Key("units", T.CHOICE, "what a bare number means here, and which system is printed first", ("in", "mm")),
    Key("english", T.CHOICE, "which shop words are printed", ("US", "UK")),
    Key("gauge", T.CHOICE, "which numbers a bare gauge means", GAUGES),
    Key("print", T.GROUP, "how sizes are printed"),
    Key("fire", T.GROUP, "the fire"),
    Key("hand", T.GROUP, "how this smith strikes"),
    Key("tools", T.TEXTS, "other tools there are, in words"),
    Key("drifts", T.LENGTHS, "drifts there are"),
    Key("tongs", T.LENGTHS, "sizes that the tongs hold"),
    Key("currency", T.TEXT, "the money, as GBP or USD"),
    Key("rate", T.MONEY, "price of an hour"),
    Key("bars", T.GROUP, "rules for bars"),
    Key("rings", T.GROUP, "rules for rings"),
    Key("sheet", T.GROUP, "rules for sheet"),
    Key("joints", T.GROUP, "rules for joints"),
    Key("cutting", T.GROUP, "how stock is cut"),
    Key("prices", T.GROUP, "what this shop pays and asks"),
))  # fmt: skip
FORMS = (SHOP, PRINT, FIRE, HAND, BARS, RINGS, SHEET, JOINTS, CUTTING, PRICES)
"""Every group of a shop file."""
