"""Questions about stock as such: what a bar or a sheet weighs."""

from bickern.desk.answer import Answer, Inputs, gathered, unread
from bickern.desk.ask.answered import answered
from bickern.desk.ask.question import Asked, Question, Word, section_at
from bickern.desk.thickness import said_section, said_thickness
from bickern.iron.gauge import standard_weight
from bickern.iron.section import area, perimeter
from bickern.iron.steel import find_steel
from bickern.measure.figure import Figure
from bickern.measure.finding import Finding, stop
from bickern.measure.units.read import read_thickness
from bickern.measure.units.say import say_both, say_decimal, say_mass_both
from bickern.measure.units.words import FOOT, GaugeWords, Read

BAR = Word("bar", "such as '3/16 rd', '1/2 sq', '1 x 1/4', '8 mm rd'")
STEEL = Word("steel", "steel or other metal", "mild")
DENSITY = Word("density", "as a book has it: '489.6 lb/ft3'", "")


def weight(asked: Asked) -> Answer:
    """What a bar weighs, its section and its girth."""
    metal = read_metal(asked)
    read = gathered(asked.section("bar"), asked.length("length"), metal)
    if not read.ok:
        return unread("Weight", read)
    if read.number(1) <= 0.0:
        return unread("Weight", read, stop("no-length", "a bar of no length weighs nothing", "say its length"))
    section, long, density = section_at(read, 0), read.number(1), read.number(2)
    one = area(section) * density
    figures = (
        Figure("weighs", one * long, "kg"),
        Figure("section", area(section), "m2"),
        Figure("girth", perimeter(section), "m"),
    )
    words = (
        ("a foot", say_mass_both(one * FOOT, asked.shop.style)),
        ("a metre", say_mass_both(one, asked.shop.style)),
        ("reckoned with", said_metal(asked, density)),
    )
    hidden = (Figure("weight a length", one, "kg/m"), Figure("volume", area(section) * long, "m3"))
    title = f"{said_section(section, asked.shop.style)}, {say_both(long, asked.shop.style)} long"
    return answered(title, read, figures, asked.shop.style, words, hidden=hidden)


def plate(asked: Asked) -> Answer:
    """What a rectangle of sheet weighs, or a disc with or without a round hole in its middle."""
    metal = read_metal(asked)
    read = gathered(asked.sheet("sheet", bent=False), asked.length("wide"), asked.length("long"), metal)
    fault = _no_plate(read, asked.said("disc")) if read.ok else None
    if fault or not read.ok:
        return unread("Plate", read, *((fault,) if fault else ()))
    return _plate(asked, read)


def _no_plate(read: Inputs, disc: bool) -> Finding | None:
    wide, long = read.number(1), read.number(2)
    if wide <= 0.0 or (long <= 0.0 and not disc):
        return stop("size-not-positive", "a plate has two sizes above 0", "a disc: its diameter, its hole, and `disc`")
    if disc and long >= wide:
        return stop("hole-off-plate", "the hole is as large as the disc", "say the disc's diameter, then the hole's")
    return None


def _plate(asked: Asked, read: Inputs) -> Answer:
    from bickern.geometry.polygon import disc, rectangle
    from bickern.parts.sheet.reckon import reckon_sheet
    from bickern.parts.sheet.spec import FlatOutline, SheetSpec

    thick, wide, long, density = (read.number(i) for i in range(4))
    holes = (disc(long / 2),) if long > 0.0 else ()
    flat = FlatOutline(disc(wide / 2), holes) if asked.said("disc") else FlatOutline(rectangle(wide, long))
    done = reckon_sheet(SheetSpec("plate", thick, asked.text("steel"), flat), asked.shop.sheet, density)
    if done.value is None:
        return unread("Plate", read, *done.findings)
    figures = (
        Figure("area", done.value.area, "m2"),
        Figure("weight an area", thick * density, "kg/m2"),
        *_by_standard(asked),
        Figure("weighs", done.value.mass, "kg"),
    )
    words = (("thickness", said_thickness(thick, asked.shop.style)), ("reckoned with", said_metal(asked, density)))
    first, second = (say_both(size, asked.shop.style) for size in (wide, long))
    sheet = asked.text("sheet")
    size = f"disc of {first}, its hole {second}" if asked.said("disc") else f"{first} x {second}"
    title = f"{sheet if any(c.isalpha() for c in sheet) else 'Plate'}, {size}"
    return answered(title, read, figures, asked.shop.style, words, hidden=(Figure("thickness", thick, "m"),))


def _by_standard(asked: Asked) -> tuple[Figure, ...]:
    """What the standard of a gauge says that steel of it weighs, where it tells that and not a thickness."""
    told = read_thickness(asked.text("sheet"), asked.system).value
    if not isinstance(told, GaugeWords) or asked.text("density") or asked.text("steel") != STEEL.usual:
        return ()
    weight = standard_weight(told.number, told.system or asked.shop.gauge)
    return () if weight is None else (Figure("weight by its standard", weight, "kg/m2"),)


def read_metal(asked: Asked) -> Read[float]:
    """Density [kg/m3]: the one told, or that of the steel told."""
    if asked.text("density"):
        return asked.density("density")
    steel = find_steel(asked.text("steel"))
    if steel.value is None:
        return Read(None, steel.findings)
    # what cannot be forged can be weighed
    return Read(steel.value.density.value, tuple(f for f in steel.findings if not f.stops))


def said_metal(asked: Asked, density: float) -> str:
    """What the weight was reckoned with, in words."""
    if asked.text("density"):
        return f"{say_decimal(density, 0)} kg/m3, as asked"
    metal = find_steel(asked.text("steel")).value
    assert metal is not None
    return f"{metal.name}, {metal.density}"


QUESTIONS = (
    Question(
        "weight", "What a bar weighs.", (BAR, Word("length", "its length"), STEEL, DENSITY), weight, "'1 x 1/4' '20 ft'"
    ),
    Question(
        "plate",
        "What a sheet or a disc weighs.",
        (
            Word("sheet", "thickness or gauge: 1/4, '16 ga', '16 SWG'"),
            Word("wide", "width; diameter of a disc"),
            Word("long", "length; diameter of the round hole in a disc, 0 for none"),
            STEEL,
            DENSITY,
            Word("disc", "a disc, not a rectangle", flag=True),
        ),
        plate,
        "'16 US ga' 12 24",
    ),
)
