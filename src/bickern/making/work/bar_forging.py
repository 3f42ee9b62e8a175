"""The stretches of a bar that are forged, as works: upset, shoulder, then draw, taper or spread."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import sqrt

from bickern.iron.section import Section, area, hydraulic
from bickern.making.work.anvil import Anvil, hot_work, skin_depth
from bickern.making.work.effort import forging_work, strain_to, tapering_work
from bickern.making.work.result import Work
from bickern.measure.units.words import Shape
from bickern.parts.bar.resolve import same_section
from bickern.parts.bar.result import MetalRun
from bickern.parts.bar.rules import A_LITTLE
from bickern.parts.bar.tracks import EndShape
from bickern.parts.bar.volume import outline_share

RAMP = 2.0
"""A tapering stretch up to so many thicknesses of the bar is a ramp to the stretch beside it (common practice)."""
NAMED_RAMP = 1.0
"""The same of one that the job gives a name of its own: longer, it is a thing of its own (our choice)."""
ON_EDGE = 3.0
"""Flat bar wider than so many thicknesses buckles when it is worked on its edge (common practice)."""
STEEP = 2.0
"""A shoulder shorter than so many times its drop is set down first, over the anvil's edge (common practice)."""
LEAST_DROP = 0.1
"""Drop, in thicknesses of the bar, from which a change of section is a shoulder (common practice)."""
WIDER = 0.03
"""Share wider than the bar ever was from which a stretch counts as spread (our choice)."""
_LEAST_UPSET = 0.02
"""Share of metal gathered below which a stretch counts as not upset (our choice)."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """Neighbouring runs forged as one: `main` is what a smith calls it by.

    The others come to the very same section, or are ramps that lead to it.
    """

    runs: tuple[int, ...]
    main: int


def forging_works(anvil: Anvil) -> Iterator[Work]:
    """The works of every stretch that is not left as it came, from the datum end."""
    for stretch in stretches(anvil.result.runs, anvil.thick, anvil.stock):
        yield from _works(anvil, stretch)


def stretches(runs: tuple[MetalRun, ...], thick: float, stock: Section) -> tuple[Stretch, ...]:
    """The runs that are forged, ramps with the stretch they lead to; every such run once, in order."""
    led = {i: _first_of(runs, _led_to(runs, i, thick, stock)) for i, run in enumerate(runs) if not run.kept}
    mains = [i for i in led if led[i] == i]
    return tuple(Stretch(tuple(i for i in led if led[i] == main), main) for main in mains)


def stretch_name(runs: tuple[MetalRun, ...], main: int) -> str:
    """A stretch by its own name, else by the named one beside it, else by where it lies.

    Of neighbours that come to one section by the names of all: `a and b`, of more `a to c`.
    """
    last = main
    while last + 1 < len(runs) and _goes_on(runs[last], runs[last + 1]):
        last += 1
    if named := [run.name for run in runs[main : last + 1] if run.name]:
        return " to ".join((named[0], named[-1])) if len(named) > 2 else " and ".join(named)
    if main == 0 and last == len(runs) - 1:
        return "bar"
    if main == 0:
        return "datum end"
    if last == len(runs) - 1:
        return "other end"
    before, after = runs[main - 1].name, runs[last + 1].name
    return f"stretch after {before}" if before else f"stretch before {after}" if after else f"stretch {main + 1}"


def _first_of(runs: tuple[MetalRun, ...], i: int) -> int:
    """The first of the even runs that come to one section with this one, side by side."""
    while i > 0 and _goes_on(runs[i - 1], runs[i]):
        i -= 1
    return i


def _goes_on(run: MetalRun, then: MetalRun) -> bool:
    """Whether two neighbours are forged to one even section, in one line and the same way up."""
    if run.kept or then.kept or run.outline is not None or then.outline is not None:
        return False
    even = same_section(run.a, run.b) and same_section(run.b, then.a) and same_section(then.a, then.b)
    return even and run.offset_b == then.offset_a and run.roll == then.roll


def _led_to(runs: tuple[MetalRun, ...], i: int, thick: float, stock: Section) -> int:
    """The run that a ramp leads to: of its forged neighbours that go on from it, the one less like the stock."""
    if not _is_ramp(runs, i, thick, stock):
        return i
    beside = [j for j in (i - 1, i + 1) if not runs[j].kept and not _is_ramp(runs, j, thick, stock)]
    beside = [j for j in beside if same_section(*_joint(runs, i, j))]
    return max(beside, key=lambda j: strain_to(stock, _joint(runs, i, j)[1]), default=i)


def _is_ramp(runs: tuple[MetalRun, ...], i: int, thick: float, stock: Section) -> bool:
    """Whether a tapering run only leads to its neighbour: short, or a swelling back to the bar, and never an end."""
    run = runs[i]
    if i in (0, len(runs) - 1) or run.outline is not None or same_section(run.a, run.b):
        return False
    longest = (NAMED_RAMP if run.name else RAMP) * thick * (1 + 1e-9)
    return run.end - run.start <= longest or (not run.name and _swells_back(run, stock))


def _swells_back(run: MetalRun, stock: Section) -> bool:
    """Whether a tapering run goes from more metal than the bar has, in its own shape, back to the bar as it comes."""
    if run.outline is not None or run.a.shape is not run.b.shape:
        return False
    small, large = sorted((run.a, run.b), key=area)
    return same_section(small, stock) and area(large) > (1 + _LEAST_UPSET) * area(small)


def _joint(runs: tuple[MetalRun, ...], i: int, j: int) -> tuple[Section, Section]:
    """The two sections that meet where run `i` and its neighbour `j` join, that of `i` first."""
    return (runs[i].b, runs[j].a) if j > i else (runs[i].a, runs[j].b)


def _works(anvil: Anvil, stretch: Stretch) -> Iterator[Work]:
    runs = anvil.result.runs
    name, main = stretch_name(runs, stretch.main), runs[stretch.main]
    zone = (runs[stretch.runs[0]].start, runs[stretch.runs[-1]].end)
    grown = _grown(anvil, stretch)
    if grown is not None:
        all_done = not _shaped(anvil.stock, main)
        yield _upset(anvil, stretch, zone, grown, all_done=all_done)
        if all_done:
            return
    before = grown or anvil.stock
    does = _does(anvil, stretch, before)
    last = _after(main, does)
    energy = sum(_energy(runs[i], before, anvil.stress(does, zone)) for i in stretch.runs)
    edges = _edges(anvil, stretch)
    set_down = _set_down(anvil, stretch, edges[0], before) if edges else before
    if area(set_down) < (1 - LEAST_DROP / 2) * area(before):
        share = min(1 / 3, len(edges) * anvil.thick / (zone[1] - zone[0]))
        shoulder = hot_work(anvil, "shoulder", name, _round(anvil, edges), share * energy)
        says = _buckles(before, set_down)
        shoulder = _filled(anvil, shoulder, stretch, before, set_down, done=False, says=says, metal=share)
        yield _thinned(shoulder) if does == "spread" else shoulder
        energy *= 1 - share
    says = _says(anvil, stretch, does, set_down)
    work = _filled(anvil, hot_work(anvil, does, name, zone, energy), stretch, before, last, says=says)
    yield replace(work, case="outline") if main.outline is not None else work


def _upset(anvil: Anvil, stretch: Stretch, zone: tuple[float, float], grown: Section, *, all_done: bool) -> Work:
    """The stretch swelled: to what it becomes where that is all of it, else only to the metal that it wants."""
    main = anvil.result.runs[stretch.main]
    back = _swells_back(main, anvil.stock)
    name = stretch_name(anvil.result.runs, stretch.main)
    work = hot_work(anvil, "upset", name, zone, _gather_energy(anvil, stretch, zone, grown))
    after = max((main.a, main.b), key=area) if all_done else grown
    said = ["it runs back to the bar's own size along its length"] if back and all_done else []
    says = "; ".join((*said, *_ramps_said(anvil, stretch))) if all_done else ""
    return _filled(anvil, work, stretch, anvil.stock, after, done=all_done, says=says)


def _thinned(shoulder: Work) -> Work:
    """A shoulder beside what is spread next: only the thickness is set down, the width is left."""
    if shoulder.before is None or shoulder.after is None or shoulder.after.width < shoulder.before.width * (1 - 1e-9):
        return shoulder
    return replace(shoulder, case="thick")


def _filled(
    anvil: Anvil,
    work: Work,
    stretch: Stretch,
    before: Section,
    after: Section,
    *,
    done: bool = True,
    says: str = "",
    metal: float = 1.0,
) -> Work:
    """The work with its sections and metal; its body is half-way from what it was to what it becomes.

    What is only begun (upset to be shaped, a shoulder set down) has no run to its name: `done` False.
    """
    moved = metal * sum(anvil.result.runs[i].volume for i in stretch.runs)
    finished = skin_depth(anvil.result.runs, (_start(anvil, stretch), _end(anvil, stretch)))
    thin = (hydraulic(before) + finished) / 2
    runs = stretch.runs if done else ()
    return replace(work, before=before, after=after, metal=moved, thin=thin, runs=runs, says=says)


def _start(anvil: Anvil, stretch: Stretch) -> float:
    return anvil.result.runs[stretch.runs[0]].start


def _end(anvil: Anvil, stretch: Stretch) -> float:
    return anvil.result.runs[stretch.runs[-1]].end


def _after(run: MetalRun, does: str) -> Section:
    """What it is to become: the thinner end of a taper, the broader of what is spread."""
    if does == "spread":
        return max((run.a, run.b), key=lambda one: max(one.width, one.thick))
    return min((run.a, run.b), key=area)


def _grown(anvil: Anvil, stretch: Stretch) -> Section | None:
    """The stock swelled to the metal that a stretch wants, in its own proportion; None where it has enough.

    A little more than the bar has is driven back while it is spread; a stretch that only thickens is always upset.
    """
    run = anvil.result.runs[stretch.main]
    most = max(area(run.a), area(run.b))
    if run.outline is not None:
        most = run.volume / (run.end - run.start) if run.end > run.start else 0.0
    share = most / area(anvil.stock) - 1
    if share <= (A_LITTLE if _broader(run, anvil.stock) and _shaped(anvil.stock, run) else _LEAST_UPSET):
        return None
    swell = sqrt(1 + share)
    return replace(anvil.stock, width=anvil.stock.width * swell, thick=anvil.stock.thick * swell)


def _shaped(stock: Section, run: MetalRun) -> bool:
    """Whether a stretch is more than the stock swelled: another shape, a taper or an outline.

    What only runs from its swelling back to the bar is swelled and no more.
    """
    if _swells_back(run, stock):
        return False
    alike = run.a.shape is stock.shape and same_section(run.a, run.b) and run.outline is None
    return not alike or abs(run.a.width / run.a.thick - stock.width / stock.thick) > WIDER * stock.width / stock.thick


def _gather_energy(anvil: Anvil, stretch: Stretch, zone: tuple[float, float], grown: Section) -> float:
    metal = sum(anvil.result.runs[i].volume for i in stretch.runs)
    return forging_work(metal, anvil.stock, grown, anvil.stress("upset", zone))


def _does(anvil: Anvil, stretch: Stretch, before: Section) -> str:
    """The smith's word: spread where it becomes wider than the bar was, taper where it runs out, else draw.

    What only goes on from a broad neighbour, and runs out from it, is a taper too.
    """
    run = anvil.result.runs[stretch.main]
    even = run.outline is not None or same_section(run.a, run.b)
    if run.outline is not None or (_broader(run, before) and (even or not _runs_out(anvil, stretch))):
        return "spread"
    return "draw" if even else "taper"


def _runs_out(anvil: Anvil, stretch: Stretch) -> bool:
    """Whether the broad end of a tapering stretch is only where a broad neighbour ends."""
    runs, i = anvil.result.runs, stretch.main
    run = runs[i]
    at_start = max(run.a.width, run.a.thick) > max(run.b.width, run.b.thick)
    j = i - 1 if at_start else i + 1
    return 0 <= j < len(runs) and not runs[j].kept and same_section(*_joint(runs, i, j))


def _broader(run: MetalRun, bar: Section) -> bool:
    most = max(run.a.width, run.a.thick, run.b.width, run.b.thick)
    return most > max(bar.width, bar.thick) * (1 + WIDER)


def _energy(run: MetalRun, before: Section, stress: float) -> float:
    if run.outline is not None:
        broad = run.outline.width * outline_share(run.outline)
        return forging_work(run.volume, before, Section(Shape.FLAT, broad, run.outline.thick), stress)
    return tapering_work(before, run.a, run.b, run.end - run.start, stress)


def _edges(anvil: Anvil, stretch: Stretch) -> tuple[float, ...]:
    """Places [m] where the stretch ends in a shoulder too steep to grow out of the drawing: set down first."""
    runs, found = anvil.result.runs, []
    for inner, outer in ((stretch.runs[0], stretch.runs[0] - 1), (stretch.runs[-1], stretch.runs[-1] + 1)):
        if 0 <= outer < len(runs) and _steep(anvil, stretch, inner, outer):
            found.append(runs[inner].start if outer < inner else runs[inner].end)
    return tuple(found)


def _set_down(anvil: Anvil, stretch: Stretch, edge: float, before: Section) -> Section:
    """What the bar is set down to at the edge: the stretch there; of an outline the neck that it grows from.

    What is spread is set down to its thickness only: it widens afterwards.
    """
    runs = anvil.result.runs
    main = runs[stretch.main]
    at_start = abs(edge - runs[stretch.runs[0]].start) < 1e-9
    beside = stretch.runs[0] - 1 if at_start else stretch.runs[-1] + 1
    mine = main.a if at_start else main.b
    if main.outline is not None:
        mine = runs[beside].b if at_start else runs[beside].a
    if mine.width <= before.width * (1 + WIDER):
        return mine
    return replace(mine, width=before.width, thick=min(mine.thick, before.thick))


def _steep(anvil: Anvil, stretch: Stretch, inner: int, outer: int) -> bool:
    runs = anvil.result.runs
    main, beside = runs[stretch.main], runs[outer]
    mine, theirs = _joint(runs, inner, outer)
    ramp = 0.0
    if not same_section(runs[inner].a, runs[inner].b) and inner != stretch.main:
        mine = _joint(runs, stretch.main, inner)[0]
        ramp = runs[inner].end - runs[inner].start
    drop = _drop(mine, theirs)
    steep = drop > LEAST_DROP * anvil.thick and ramp < STEEP * drop * (1 - 1e-9)
    return steep and (beside.kept or _sets_down(main, mine, beside, theirs))


def _drop(mine: Section, theirs: Section) -> float:
    """How much the neighbour stands over the stretch [m], side by side, the longer side with the longer."""
    wide = max(theirs.width, theirs.thick) - max(mine.width, mine.thick)
    return max(wide, min(theirs.width, theirs.thick) - min(mine.width, mine.thick))


def _sets_down(main: MetalRun, mine: Section, beside: MetalRun, theirs: Section) -> bool:
    """Of two forged neighbours the one that is set down: the outlined end, else the smaller, else the thinner."""
    if (main.outline is None) is not (beside.outline is None):
        return main.outline is not None
    if abs(area(mine) - area(theirs)) > 1e-3 * area(theirs):
        return area(mine) < area(theirs)
    return min(mine.width, mine.thick) < min(theirs.width, theirs.thick)


def _round(anvil: Anvil, edges: tuple[float, ...]) -> tuple[float, float]:
    return anvil.within(edges[0] - anvil.thick, edges[-1] + anvil.thick)


_OUTLINES = {
    EndShape.LEAF: "draw a short point first, then spread it to the leaf's outline",
    EndShape.SPADE: "draw a short blunt point first, then spread it to the outline",
    EndShape.SPOON: "round the end over first, then spread it to the outline",
    EndShape.FREE: "spread it to the full-size outline",
}


def _says(anvil: Anvil, stretch: Stretch, does: str, before: Section) -> str:
    main = anvil.result.runs[stretch.main]
    said = []
    if main.outline is not None:
        said.append(_OUTLINES[main.outline.shape])
    elif does == "spread" and not same_section(main.a, main.b):
        said.append("it grows broader all along its length")
    elif does != "spread":
        said.append(_buckles(before, _after(main, does)))
    return "; ".join(one for one in (*said, *_ramps_said(anvil, stretch)) if one)


def _ramps_said(anvil: Anvil, stretch: Stretch) -> tuple[str, ...]:
    """The ramps of a stretch, by their names."""
    runs = anvil.result.runs
    ramps = [runs[i] for i in stretch.runs if i != stretch.main and not same_section(runs[i].a, runs[i].b)]
    named = [run.name for run in ramps if run.name]
    if named:
        return (f"with its {' and '.join(named)}",)
    return ("with the shoulder that leads to it",) if ramps else ()


def _buckles(before: Section, after: Section) -> str:
    """What to know where a flat bar is worked on its edge: made narrower, and no thinner."""
    wide, thick = max(before.width, before.thick), min(before.width, before.thick)
    narrow, thin = max(after.width, after.thick), min(after.width, after.thick)
    if wide <= ON_EDGE * thick or thin < 0.75 * thick or narrow > 0.75 * wide:
        return ""
    return "on its edge so wide a bar buckles: saw the sides off, or flatten it again after every few blows"
