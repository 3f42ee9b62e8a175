"""A sheet piece from its words."""

from bickern.book.forms import Takes
from bickern.book.job.bar import first_of
from bickern.book.job.material import zinc_on
from bickern.book.job.surface import read_surface
from bickern.book.job.words import OFFERED
from bickern.book.text import Items, Word
from bickern.book.told import Told, sized, tell
from bickern.iron.gauge import gauge_called, resolve
from bickern.measure.finding import note, stop
from bickern.measure.units.read import read_sizes, read_thickness
from bickern.measure.units.words import GaugeSystem, GaugeWords, Read
from bickern.parts.sheet.spec import (
    Bowl,
    Edge,
    EdgeKind,
    FlatOutline,
    Lug,
    Offered,
    Pan,
    Seam,
    SeamKind,
    SheetHole,
    SheetSpec,
    Sized,
)

_ROUND_EDGES = ("top", "bottom", "rim")
_PAN_EDGES = ("front", "back", "left", "right", "walls")


def read_sheet(told: Told, name: str, steel: str, coating: str) -> SheetSpec | None:
    """The piece, or None where its thickness or surface cannot be read."""
    thick, gauge = _thickness(told, coating)
    surface, sized = read_surface(told)
    seam = _seam(told)
    edges, lugs, holes, offered = _edges(told), _lugs(told), _holes(told), _offered(told)
    count, hot, make = told.count("parts"), told.yes("hot"), told.count("make")
    if thick is None or surface is None:
        return None
    seamless = isinstance(surface, FlatOutline | Bowl | Pan)
    return SheetSpec(
        name, thick, steel, surface, Sized(sized), seam or Seam(SeamKind.NONE if seamless else SeamKind.BUTT),
        edges, lugs, holes, count, offered, hot, gauge, coating, make, where=told.where,
    )  # fmt: skip


def _thickness(told: Told, coating: str) -> tuple[float | None, str]:
    """Thickness [m], and the gauge with its system (empty where a thickness is told)."""
    word = told.word("sheet", Takes.THICKNESS)
    read = sized(word, lambda t: read_thickness(t, told.reading.system)) if word is not None else Read(None)
    found = read.value
    if not isinstance(found, GaugeWords):
        return told.reading.take(Read(found, read.findings), told.at("sheet")), ""
    # that no system was named is said by `resolve`, with the thicknesses, or the job names it
    if found.system is None and told.reading.gauge_told:
        found = GaugeWords(found.number, told.reading.gauge)
    zinc = zinc_on(coating)
    thick = told.reading.take(resolve(found, told.reading.gauge, zinc), told.at("sheet"))
    taken = GaugeSystem.GALVANISED if zinc and told.reading.gauge is GaugeSystem.US else told.reading.gauge
    return thick, gauge_text(found.number, found.system or taken)


def gauge_text(number: int, system: GaugeSystem) -> str:
    """A gauge with its system named, so that it means the same wherever it is read."""
    plain = system in (GaugeSystem.US, GaugeSystem.GALVANISED)
    return f"{gauge_called(number)} {system} ga" if plain else f"{gauge_called(number)} {system}"


def _seam(told: Told) -> Seam | None:
    inner = told.group_of("seam")
    if inner is None:
        return None
    kind = inner.which()
    width = inner.length(kind) if kind not in ("butt", "none", "") else 0.0
    rivet, pitch = inner.length("rivets"), inner.length("pitch")
    if kind != "riveted lap" and (inner.has("rivets") or inner.has("pitch")):
        inner.fault("unknown-word", f"`rivets` and `pitch` belong to a riveted lap, not to {kind}", "", "rivets")
    if kind == "riveted lap" and not (inner.has("rivets") and inner.has("pitch")):
        inner.fault(
            "missing", "a riveted lap wants `rivets` (their diameter) and `pitch`", "add `rivets: 1/8, pitch: 1`"
        )
    return Seam(SeamKind(kind or "none"), width or 0.0, rivet or 0.0, pitch or 0.0, inner.where)


def _edges(told: Told) -> tuple[Edge, ...]:
    found = []
    for t in told.list_of("edges"):
        kind = t.which()
        size = t.length(kind) if kind not in ("raw", "") else 0.0
        on = _edge_named(t)
        found.append(Edge(on, EdgeKind(kind or "raw"), size or 0.0, t.where))
    return tuple(found)


def _edge_named(told: Told) -> str:
    said = told.text("on").lower()
    if told.has("on") and said not in (*_ROUND_EDGES, *_PAN_EDGES):
        says = f"`{said[:60]}` is not an edge"
        told.fault("not-a-choice", says, f"write one of: {', '.join((*_ROUND_EDGES, *_PAN_EDGES))}", "on")
    return said


def _lugs(told: Told) -> tuple[Lug, ...]:
    return tuple(_lug(t) for t in told.list_of("lugs"))


def _lug(told: Told) -> Lug:
    eye, flat = told.length("eye") or 0.0, told.length("flat") or 0.0
    return Lug(
        _edge_named(told),
        told.count("divide"),
        _lug_width(told, eye),
        eye,
        flat,
        first_of(told),
        told.name(),
        told.where,
    )


def _lug_width(told: Told, eye: float) -> float:
    if told.has("width"):
        return told.length("width") or 0.0
    if not eye:
        told.fault("missing-word", "the width of a flat tab is not told", "add `width: ...`")
        return 0.0
    says = "the width of the lug is not told: it is taken as wide as its eye"
    told.reading.say(note("lug-width", says, "add `width:`"), told.where)
    return eye


def _holes(told: Told) -> tuple[SheetHole, ...]:
    found = []
    for t in told.list_of("holes"):
        size, up = t.length("size"), t.length("up")
        found.append(SheetHole(size or 0.0, up or 0.0, t.count("divide"), first_of(t), t.name(), t.where))
    return tuple(found)


def _offered(told: Told) -> tuple[Offered, ...]:
    """Sheets there are: `48 x 24`, or groups with what is known of them."""
    value = told.value("cut from", Takes.OFFERED)
    if value is None:
        return ()
    found = []
    for item in value.items if isinstance(value, Items) else (value,):
        if isinstance(item, Word):
            sizes, coating = told.reading.take(read_sizes(item.text, told.reading.system), item.where), ""
        else:
            inner = tell(told.reading, item, OFFERED, "cut from")
            sizes, coating = (inner.sizes("size"), inner.text("coating")) if inner else (None, "")
        if sizes is not None and len(sizes) == 2:
            found.append(Offered(sizes[0], sizes[1], coating, item.where))
        elif sizes is not None:
            told.reading.say(stop("sizes", "a sheet has two sizes", "write `48 x 24`"), item.where)
    return tuple(found)
