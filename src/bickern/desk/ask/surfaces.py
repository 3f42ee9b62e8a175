"""Questions about skins of sheet: cones, pyramids, pipes and bowls, laid flat, with their areas and volumes."""

from dataclasses import replace
from typing import TYPE_CHECKING

from bickern.desk.answer import Answer, gathered, unread, with_findings
from bickern.desk.ask.question import Asked, Question, Word
from bickern.desk.ask.sheet import SHEET, SIZES, piece, reckoned, sheet_of
from bickern.measure.figure import Figure
from bickern.measure.finding import Finding, note, stop
from bickern.measure.units.read import read_count, read_length
from bickern.measure.units.words import Read

if TYPE_CHECKING:
    from bickern.parts.sheet.result import SheetResult
    from bickern.parts.sheet.spec import Pyramid

MOST_SIDES = 100
"""Sides above which a pyramid is a cone to every smith."""
SLANT = Word("slant", "the third size is the slant, not the height", flag=True)


def cone(asked: Asked) -> Answer:
    """Pattern of a cone or frustum; the larger of the two diameters is the base, whichever is said first."""
    from bickern.parts.sheet.spec import Cone

    read = gathered(asked.length("base"), asked.length("top"), asked.length("height"), sheet_of(asked))
    if not read.ok:
        return unread("Cone", read)
    top, base = sorted((read.number(0), read.number(1)))
    height = _height(asked, read.number(2), (base - top) / 2)
    if height.value is None:
        return unread("Cone", read, *height.findings)
    surface = Cone(base, top, height.value)
    spec = piece(asked, read.number(3), surface)
    return reckoned(asked, read, "Cone", spec, lambda done: (Figure("height", surface.height, "m"), *_solid(done)))


def pyramid(asked: Asked) -> Answer:
    """Pattern of a regular pyramid or frustum, or of one from rectangle to rectangle."""
    read = gathered(
        read_count(asked.text("sides"), least=3, most=MOST_SIDES),
        *(asked.length(name) for name in ("base", "top", "height")),
        sheet_of(asked),
    )
    if not read.ok:
        return unread("Pyramid", read)
    told = _pyramid(asked, int(read.number(0)), read.number(1), read.number(2))
    if told.value is None:
        return unread("Pyramid", read, *told.findings)
    height = _height(asked, read.number(3), (told.value.base - told.value.top) / 2)
    if height.value is None:
        return unread("Pyramid", read, *height.findings)
    surface = replace(told.value, height=height.value)
    spec = piece(asked, read.number(4), surface)
    answer = reckoned(asked, read, "Pyramid", spec, lambda done: (Figure("height", surface.height, "m"), *_solid(done)))
    return with_findings(answer, _odd(surface.sides, asked.text("of")))


def _odd(sides: int, of: str) -> tuple[Finding, ...]:
    """How an odd number of sides is told across, since no two of them stand opposite."""
    if sides % 2 == 0 or of == "sides":
        return ()
    to = "the middle of a side" if of == "flats" else "a corner"
    says = f"With {sides} sides none stands opposite another: across is twice the distance from the middle to {to}."
    return (note("odd-sides", says, "Say the length of a side instead, with `--of sides`."),)


def _pyramid(asked: Asked, sides: int, base: float, top: float) -> "Read[Pyramid]":
    """The pyramid across its flats, its large end down, without its height."""
    from bickern.parts.sheet.solid import Across, across_flats
    from bickern.parts.sheet.spec import Pyramid

    of = Across(asked.text("of"))
    base, top = (across_flats(sides, size, of) for size in (base, top))
    if not asked.said("long"):
        return Read(Pyramid(sides, max(base, top), min(base, top), 0.0))
    longs = gathered(*(Read(0.0) if t.strip() == "0" else read_length(t, asked.system) for t in asked.many("long")))
    if not longs.ok:
        return Read(None, longs.findings)
    if fault := _no_rectangle(sides, of, len(longs.values)):
        return Read(None, (fault,))
    low, high = longs.number(0), longs.number(1)
    if base < top:
        base, top, low, high = top, base, high, low
    return Read(Pyramid(sides, base, top, 0.0, low, high), longs.findings)


def _no_rectangle(sides: int, of: str, longs: int) -> Finding | None:
    if sides != 4 or of == "corners":
        return stop("no-rectangle", "only four sides, told across, have a length of their own", "leave out `long`")
    if longs != 2:
        return stop("no-rectangle", f"`long` takes the lengths of both ends and has {longs}", "say base, then top")
    return None


def pipe(asked: Asked) -> Answer:
    """Pattern of a round pipe, square at both ends or cut slanting at its upper one; its height is in the middle."""
    from bickern.parts.sheet.spec import Cylinder

    slanting = asked.angle("cut") if asked.text("cut").strip() not in {"", "0"} else Read(0.0)
    read = gathered(asked.length("across"), asked.length("height"), slanting, sheet_of(asked))
    if not read.ok:
        return unread("Pipe", read)
    surface = Cylinder(read.number(0), read.number(1), read.number(2))
    return reckoned(asked, read, "Pipe", piece(asked, read.number(3), surface), _solid)


def bowl(asked: Asked) -> Answer:
    """Disc of a bowl that is a cap of a ball: its rim and its depth."""
    from bickern.parts.sheet.neutral import ball_radius
    from bickern.parts.sheet.spec import Bowl

    read = gathered(asked.length("across"), asked.length("depth"), sheet_of(asked))
    if not read.ok:
        return unread("Bowl", read)
    surface = Bowl(read.number(0), read.number(1))
    spec = piece(asked, read.number(2), surface)
    return reckoned(
        asked, read, "Bowl", spec, lambda done: (Figure("radius of the ball", ball_radius(surface), "m"), *_solid(done))
    )


def _height(asked: Asked, third: float, run: float) -> Read[float]:
    """The height [m] from the third size told; `run`: how far a side moves inward."""
    from bickern.parts.sheet.solid import height_under

    if not asked.said("slant"):
        return Read(third)
    height = height_under(third, run)
    if height is not None:
        return Read(height)
    return Read(
        None, (stop("slant-too-short", "the slant does not reach from one end to the other", "make it longer"),)
    )


def _solid(done: "SheetResult") -> tuple[Figure, ...]:
    """Area of the surface by its own pattern, that with both ends, and the volume by the told sizes."""
    from bickern.parts.sheet.neutral import on_middle
    from bickern.parts.sheet.reckon import net_area
    from bickern.parts.sheet.solid import ends_area, volume
    from bickern.parts.sheet.spec import Bowl, Cone, Cylinder, Pyramid

    spec, side = done.spec, net_area(done)
    told, middle = spec.surface, on_middle(spec.surface, spec.thick, spec.sized)
    assert isinstance(told, Cone | Cylinder | Pyramid | Bowl)
    found = [Figure("side", side, "m2")]
    if isinstance(middle, Cone | Cylinder | Pyramid):
        found.append(Figure("whole surface", side + ends_area(middle), "m2"))
    return (*found, Figure("volume", volume(told), "m3"))


QUESTIONS = (
    Question(
        "cone",
        "The pattern of a cone or frustum.",
        (
            Word("base", "diameter of the base"),
            Word("top", "diameter of the top, 0 for a full cone"),
            Word("height", "height"),
            SHEET,
            SIZES,
            SLANT,
        ),
        cone,
        "8 '1 1/2' 4 --sheet '20 US ga'",
    ),
    Question(
        "pyramid",
        "The pattern of a pyramid or frustum with flat sides.",
        (
            Word("sides", "how many"),
            Word("base", "across the base"),
            Word("top", "across the top, 0 for a point"),
            Word("height", "height"),
            SHEET,
            SIZES,
            Word("of", "what base and top are told across", "flats", ("flats", "corners", "sides")),
            Word("long", "the other sizes of base and top, where they are rectangles: 18 9", "", many=True),
            SLANT,
        ),
        pyramid,
        "4 8 2 5 --sheet '20 US ga'",
    ),
    Question(
        "pipe",
        "The pattern of a round pipe, its end square or slanting.",
        (
            Word("across", "diameter"),
            Word("height", "height, in the middle where it is cut slanting"),
            Word("cut", "how far the upper end slants, in degrees", ""),
            SHEET,
            SIZES,
        ),
        pipe,
        "6 24 --cut 45",
    ),
    Question(
        "bowl",
        "The disc of a bowl that is part of a ball.",
        (Word("across", "diameter of the rim"), Word("depth", "depth in the middle"), SHEET, SIZES),
        bowl,
        "8 2",
    ),
)
