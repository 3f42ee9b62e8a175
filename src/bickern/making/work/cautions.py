"""The rows of cautions, and which of them apply. Local codes and licensed practice come before anything said here."""

from bickern.making.work.caution import Caution
from bickern.measure.source import COMMON_PRACTICE, Kind, Source

AWS_ZINC = Source(
    "American Welding Society", "Safety and Health Fact Sheet 25, Metal Fume Fever", 2002, "January 2002", Kind.PAPER
)
"""Read in the source: fever hours after breathing fume of heated zinc coatings."""


def _row(
    key: str, says: str, *operations: str, metals: str = "", uses: str = "", source: Source = COMMON_PRACTICE
) -> Caution:
    return Caution(key, says, source, operations, tuple(metals.split()), tuple(u for u in uses.split(", ") if u))


CAUTIONS: tuple[Caution, ...] = (
    _row("hot", "Everything is hot until proved cold. Black iron burns.", "heat"),
    _row(
        "eyes",
        "Eye protection always; ears for hammering and grinding.",
        "heat",
        "cut bar",
        "cut sheet",
        "rivet",
        "drill",
        "file",
        "brush",
        "scrub",
    ),
    _row("clothes", "Natural fibre clothes, closed leather boots, no loose sleeves.", "heat"),
    _row("hammer", "No loose hammer heads, no mushroomed tools.", "heat", "rivet"),
    _row("gas", "Fire and forge give carbon monoxide: good draught, and an alarm indoors.", "heat", "braze"),
    _row("fire", "Bucket and extinguisher at hand; look round again an hour after the last heat.", "heat", "braze"),
    _row("fibre", "Ceramic-fibre lining sheds dust that harms lungs: coat it, do not disturb it dry.", "heat"),
    _row("grip", "Tongs must hold the piece before it is heated; a piece not gripped flies.", "heat"),
    _row("cracks", "Look for cracks before heating: cracked stock is scrap.", "heat"),
    _row(
        "zinc",
        "Never heat galvanised, zinc-plated, cadmium-plated or chromed metal: the fume makes ill, cadmium kills. "
        "Buy bare stock. Plated bolts, rivets and chain count.",
        "heat",
        "rivet",
        "braze",
        "stands in heat",
        source=AWS_ZINC,
    ),
    _row(
        "sealed", "Never heat a sealed tube, shock absorber or closed hollow: it bursts. Vent it or leave it.", "heat"
    ),
    _row(
        "scrap",
        "Unknown scrap is a guess: no lead paint, no leaded free-cutting steel, no unknown coating in the fire.",
        "heat",
    ),
    _row("hollow", "A hollow that closes while you forge or weld must be able to breathe.", "shut hollow", "braze"),
    _row(
        "cut-off",
        "Cutting off: last blow light, or twist it off; the end flies. Nobody stands in line.",
        "cut bar",
        "cut off",
    ),
    _row(
        "thin",
        "Thin ends burn or melt in seconds: heat the thick part first, no hotter than the heat told.",
        "taper",
        "spread",
    ),
    _row("upset", "Upsetting: heavy blows on a hot end that springs back; keep it straight, face clear.", "upset"),
    _row(
        "punch",
        "Punch and slit: cool the tool every few blows, clear the hole, never drive a tool flush under a hard hammer.",
        "punch",
        "slit",
    ),
    _row(
        "drift",
        "Drift: grease it, drive it through, never stand over it; a stuck drift is not hit harder cold.",
        "drift",
    ),
    _row("drill", "No gloves at drill, grinder or belt; clamp the work.", "drill", "file", "screw"),
    _row(
        "bend",
        "Face out of line of a bend; never bend at black heat, cold-rolled and spring steel snap.",
        "bend",
        "scroll",
        "curl",
        "hoop",
        "wind",
    ),
    _row(
        "twist",
        "Twist at an even heat; the wrench slips when the bar is thin; cheap mild steel tears along the corners.",
        "twist",
    ),
    _row("split", "Splitting: cut on the soft plate, not into the hardened face; watch the chisel's edge.", "split"),
    _row("weld", "Forge welding spits flux: long sleeves, face clear, warn everybody near.", "weld"),
    _row("rivet", "Rivet with the work held; a hot rivet rolls and falls into boots.", "rivet", "rivet hot"),
    _row("collar", "A collar is hot all over: tongs that fit, no fingers.", "collar"),
    _row(
        "sheet",
        "Sheet edges cut: deburr at once, gloves for carrying, hem what will be handled.",
        "cut sheet",
        "roll sheet",
        "fold",
    ),
    _row("snap", "Sheet can snap over like an oil can: keep fingers from the fold.", "fold", "roll sheet"),
    _row("dish", "Dishing: ears, and hold the blank with tongs, never by a raw edge.", "dish"),
    _row("braze", "Brazing: cadmium-free filler only; flux fume needs draught.", "braze"),
    _row("springs", "A ring under tension springs open: pliers on both sides, face clear.", "close ring"),
    _row(
        "stainless", "Stainless fume at heat and when ground harms lungs: draught and mask.", "heat", metals="stainless"
    ),
    _row("brass", "Brass gives off zinc when overheated: draught, never white hot.", "heat", metals="brass"),
    _row(
        "tool-steel",
        "Tool or spring steel: do not quench unknown steel beside your face; it may shatter.",
        "heat",
        metals="tool spring",
    ),
    _row("leaded", "Free-cutting steel holds lead or sulphur: not for the fire.", "heat", metals="leaded"),
    _row("brush", "A wire brush throws hot scale: glasses on, sleeves down, brush away from you.", "brush"),
    _row(
        "finish",
        "Wax or oil at black heat, not red; oily rags heat themselves: lay them out flat outside.",
        "wax or oil",
    ),
    _row(
        "zinc-bath",
        "Galvanised after forging: zinc fills holes and thickens pins, so leave the fits loose; a closed hollow bursts "
        "in the bath: vent it.",
        "galvanise after",
    ),
    _row(
        "load",
        "No load rating. Not for lifting, climbing, swings or vehicles; the fixing is usually weaker than the iron.",
        uses="load, overhead load",
    ),
    _row("chain-load", "A hand-made chain has no rating, however well it is welded.", "chain"),
    _row("wet", "A hanging basket full of rain weighs far more than a dry one.", uses="overhead load"),
    _row("food", "For food: no lead, no zinc, no driers, no unknown plating; raw oil or beeswax only.", uses="food"),
    _row(
        "flame",
        "Flame near it: keep clear of wood and cloth, let the heat out above, never leave it burning alone.",
        uses="flame",
    ),
    _row("wiring", "Mains wiring in or on it is licensed work: local codes decide.", uses="lamp, electric"),
    _row(
        "stove",
        "Hoods, flues and hearths come under local codes; have the draught and the distance to timber checked.",
        uses="hearth, flue",
    ),
    _row("child", "A child will touch it: no points, no pinching gaps, no lead, nothing to swallow.", uses="child"),
    _row(
        "outdoors",
        "Outdoors: leave no place where water stands. Galvanising after forging is fine, before forging never.",
        uses="outdoors",
    ),
    _row("struck", "Struck tools from cracked or unknown stock can burst: dress every edge.", uses="struck tool"),
    _row(
        "class",
        "Class: one hot bar a station, tongs checked before heating, a line that watchers stay behind.",
        uses="class",
    ),
)
"""Every caution that can be printed."""
USES: tuple[str, ...] = tuple(dict.fromkeys(use for caution in CAUTIONS for use in caution.uses))
"""Uses that a job can name and that bring a caution with them."""


def that_apply(operations: frozenset[str], metals: frozenset[str], uses: frozenset[str]) -> tuple[Caution, ...]:
    """The cautions for these very operations, metals and uses, in the order of the table."""
    return tuple(c for c in CAUTIONS if _applies(c, operations, metals, uses))


def _applies(caution: Caution, operations: frozenset[str], metals: frozenset[str], uses: frozenset[str]) -> bool:
    asked = ((caution.operations, operations), (caution.metals, metals), (caution.uses, uses))
    return all(not wanted or set(wanted) & there for wanted, there in asked)
