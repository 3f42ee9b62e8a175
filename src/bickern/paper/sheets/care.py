"""How to look after a finished piece, by the finish it was given and where it will be; words for whoever buys it."""

from bickern.measure.source import COMMON_PRACTICE

CARE_SOURCE = COMMON_PRACTICE
"""Where the lines below come from."""
BY_FINISH: tuple[tuple[tuple[str, ...], str], ...] = (
    (("wax", "beeswax"), "Wax wears off: wipe the piece clean and wax it again when it looks dry."),
    (("oil", "linseed"), "Oil wears off: wipe the piece clean and oil it thinly again when it looks dry."),
    (("paint", "primer", "lacquer", "varnish"), "Touch up a scratch in the paint before rust creeps under it."),
    (("stove black", "blacking", "graphite"), "Renew the blacking when the iron shows through; let it dry before use."),
    (
        ("galvanised", "galvanized", "zinc"),
        "The grey zinc is its cover: never heat it, wash it with water only.",
    ),
)
"""Words of a finish, and what the care of it is."""
BY_USE: dict[str, str] = {
    "outdoors": "Look it over each spring and autumn for rust, loose rivets and worn links.",
    "food": "Wash by hand, dry at once, rub in a little food oil; never in a dishwasher.",
    "flame": "It gets hot: let it cool before it is touched or moved.",
}
"""Uses as the job names them, and the care they ask for."""
ANY = "Rust is rubbed off with fine steel wool and oil; it does no harm if it is stopped early."


def care_lines(finish: str, uses: tuple[str, ...]) -> tuple[str, ...]:
    """The lines of care for this finish and these uses."""
    said = finish.lower()
    found = [says for names, says in BY_FINISH if any(name in said for name in names)]
    found += [says for use, says in BY_USE.items() if use in uses]
    return (*found, ANY)
