"""Questions about bars: drawn, upset, tapered, and how much bar such metal takes."""

from typing import TYPE_CHECKING

from bickern.desk.answer import Answer, Row, gathered, unread, with_findings
from bickern.desk.ask.amounts import BAR
from bickern.desk.ask.answered import answered, piece_rows
from bickern.desk.ask.question import Asked, Question, Word, section_at
from bickern.iron.section import Section, area
from bickern.iron.steel import density_of
from bickern.measure.figure import Figure
from bickern.measure.finding import Finding, note, warn
from bickern.measure.units.say import say_both
from bickern.measure.units.words import Read

if TYPE_CHECKING:
    from bickern.parts.bar.result import BarResult


def taper(asked: Asked) -> Answer:
    """How much bar a taper takes: stock `1/2 sq`, end `point` or `1/8 rd`, finished length `3`."""
    thick_end = asked.section("from") if asked.said("from") else asked.section("bar")
    read = gathered(asked.bar("bar"), asked.section("end"), asked.size("length"), thick_end)
    if not read.ok:
        return unread("Taper", read)
    done = worked(asked, section_at(read, 0), section_at(read, 3), section_at(read, 1), read.number(2))
    if done.value is None:
        return unread("Taper", read, *done.findings)
    figures = (Figure("by constant volume", done.value.stock_bare, "m"), _volume(done.value))
    answer = Answer("Taper", piece_rows(done.value, asked.shop.style), read.findings, figures)
    return with_findings(answer, _upset(done, done.value.stock_bare, section_at(read, 0)))


def stock(asked: Asked) -> Answer:
    """How much bar a length of another section takes: `1/2 rd`, to be `1 sq`, `1/2` long."""
    read = gathered(asked.bar("bar"), asked.bar("end"), asked.size("length"))
    if not read.ok:
        return unread("Stock", read)
    goal = section_at(read, 1)
    done = worked(asked, section_at(read, 0), goal, goal, read.number(2))
    if done.value is None:
        return unread("Stock", read, *done.findings)
    taken = Figure("bar taken", done.value.stock_bare, "m")
    told = answered("Stock", read, (taken,), asked.shop.style, hidden=(_volume(done.value),))
    rows = (r for r in piece_rows(done.value, asked.shop.style) if r[0] != "by constant volume")
    answer = Answer(told.title, (*told.rows, *rows), told.findings, told.figures)
    return with_findings(answer, _upset(done, done.value.stock_bare, section_at(read, 0)))


def draw(asked: Asked) -> Answer:
    """What a length of bar becomes: `1/2 sq`, `6` of it, drawn or upset to `1/4 x 3/4`, `3/8 rd`, `point`."""
    read = gathered(asked.bar("bar"), asked.size("length"), asked.section("end"))
    if not read.ok:
        return unread("Draw", read)
    bar, have, end = section_at(read, 0), read.number(1), section_at(read, 2)
    ways = {"taper": bar} if area(end) <= 0 else {"even": end, "taper": bar}
    bare = {way: worked(asked, bar, start, end, have, becomes=True, fire=False) for way, start in ways.items()}
    hot = {way: worked(asked, bar, start, end, have, becomes=True) for way, start in ways.items()}
    found = tuple(f for done in (*bare.values(), *hot.values()) for f in _upset(done, have, bar))
    figures = tuple(Figure(way, _became(done.value), "m") for way, done in bare.items() if done.value)
    if len(figures) < len(ways):
        return unread("Draw", read, *dict.fromkeys(found))
    rows = tuple(_with_fire(way, done.value, asked) for way, done in hot.items() if done.value)
    return with_findings(answered("Draw", read, figures, asked.shop.style, rows), found)


def _upset(done: Read["BarResult"], taken: float, bar: Section) -> tuple[Finding, ...]:
    """What was found, an upset told as one that is asked for: `taken` [m] of the bar goes into it."""
    from bickern.parts.bar.rules import UPSET_AT_ONCE

    rest = tuple(f for f in done.findings if f.name != "wants-upset")
    if len(rest) == len(done.findings):
        return rest
    many = taken / min(bar.width, bar.thick)
    says = f"This is an upset: {many:.1f} thicknesses of bar go into it"
    if many <= UPSET_AT_ONCE:
        return (*rest, note("upset", f"{says}.", "Keep the bar straight as it swells."))
    says += f", and above about {UPSET_AT_ONCE:g} a bar buckles."
    return (*rest, warn("upset", says, "Heat it short and drive it back in several heats, or take thicker bar."))


def _became(bar: "BarResult") -> float:
    return bar.length


def _with_fire(way: str, bar: "BarResult", asked: Asked) -> Row:
    return f"{way}, less what the fire takes", say_both(_became(bar), asked.shop.style, fit=True)


def _volume(bar: "BarResult") -> Figure:
    return Figure("volume", bar.worked_volume, "m3")


def worked(
    asked: Asked, bar: Section, start: Section, end: Section, length: float, *, becomes: bool = False, fire: bool = True
) -> Read["BarResult"]:
    """A bar worked from one section to another over a finished `length` [m]; `becomes`: from that length of bar."""
    from bickern.parts.bar.allowances import without_fire
    from bickern.parts.bar.reckon import reckon_bar
    from bickern.parts.bar.tracks import BarSpec, Blank, Metal, SectionGoal

    metal = Metal(Blank.OPEN if becomes else length, SectionGoal(start), SectionGoal(end), "the work")
    spec = BarSpec("bar", bar, "mild", (metal,), stock_length=length if becomes else Blank.OPEN)
    rules = asked.shop.bar if fire else without_fire(asked.shop.bar)
    return reckon_bar(spec, rules, density_of("mild"))


QUESTIONS = (
    Question(
        "draw",
        "What a length of bar becomes, drawn out or upset.",
        (BAR, Word("length", "how much of it"), Word("end", "what it is drawn or upset to: '3/8 rd', point ...")),
        draw,
        "'3/8 sq' 1.5 '5/16 rd'",
    ),
    Question(
        "stock",
        "How much bar a length of another section takes.",
        (BAR, Word("end", "the section it is to have: '1 x 1/4' ..."), Word("length", "finished length of it")),
        stock,
        "'1/2 rd' '7/8 hex' 1/2",
    ),
    Question(
        "taper",
        "How much bar a taper takes.",
        (
            BAR,
            Word("end", "the thin end: point, '1/8 rd' ..."),
            Word("length", "finished length of the taper"),
            Word("from", "the thick end, where it is not the bar itself", ""),
        ),
        taper,
        "'1/2 sq' point 3",
    ),
)
