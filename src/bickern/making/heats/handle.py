"""Short pieces: forged on the end of a longer bar, which is the handle, and cut off last."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from bickern.iron.section import area, hydraulic
from bickern.making.heats.checks import on_a_longer_bar
from bickern.making.heats.hold import LOOSE, SHORT, Handle
from bickern.making.heats.lies import thickness
from bickern.making.heats.result import End
from bickern.making.shop import Shop
from bickern.making.work.bar_works import cut_off
from bickern.making.work.result import Work
from bickern.measure.finding import Finding
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import EyeLeg, ScrollLeg

DRAWN_OUT = 0.6
"""An end that is left less than this share of the bar's metal across is made when it is cut off (common practice)."""
WIDER = 1.1
"""An end this many times as wide as the bar is made in the free end (common practice)."""
POINTED = 0.1
"""An end left less than this share is a point: that, or a leaf, is not made where the bar goes on if there is any
other way to hold it (common practice)."""
BESIDE_END = 2.0
"""A hole this near to an end, in thicknesses of the bar, is made in the free end (common practice)."""


@dataclass(frozen=True, slots=True)
class Handled:
    """One way to hold a piece: its works with that, and what there is to say. `second`: only if no other way holds."""

    handle: Handle
    works: tuple[Work, ...]
    findings: tuple[Finding, ...] = ()
    second: bool = False


def handled(bar: BarResult, works: Sequence[Work], shop: Shop) -> Iterator[Handled]:
    """Ways to hold a bar, the best first: cut to length while there is enough to hold, else on a longer bar.

    On a longer bar it is cut off as soon as the rest can be held by what is made: before that end is forged, else
    before it is bent, else last of all. Where that end does not do, the other may.
    """
    hot = any(w.hot for w in works)
    if bar.grip > 0:
        yield from _on_a_bar(bar, [w for w in works if w.does != "cut off" or w.child], shop, End.OTHER)
        return
    long_enough = bar.stock.value >= SHORT.value
    if not hot or long_enough or bar.spec.closed:
        yield Handled(LOOSE, tuple(works))
    if hot and not bar.spec.closed:
        said = (on_a_longer_bar(bar, bar.stock.value, shop),)
        left = [w for w in works if w.does != "cut bar" or w.child]
        best = handle_end(bar)
        yield from _on_a_bar(bar, left, shop, best, said)
        if not any(b.at is None for b in bar.spec.branches):
            other = End.DATUM if best is End.OTHER else End.OTHER
            yield from (replace(way, second=True) for way in _on_a_bar(bar, left, shop, other, said))


def _on_a_bar(
    bar: BarResult, works: Sequence[Work], shop: Shop, end: End, said: tuple[Finding, ...] = ()
) -> Iterator[Handled]:
    """What the bar goes on as beyond that end is its handle until it is cut off."""
    for when in _cuts(bar, end):
        cut = cut_off(bar, shop, at_datum=end is End.DATUM, when=when)
        nicked = not when and _left(bar, end) < POINTED
        if nicked:  # at the drawn point, in the heat it is drawn in: the bar beyond it is stout
            cut = replace(cut, thin=(cut.thin + hydraulic(bar.stock_section)) / 2)
        yield Handled(Handle(end), (*works, cut), said, second=nicked)


def limbs_on_bars(
    works: Sequence[Work], loose: Mapping[tuple[str, ...], BarResult], shop: Shop
) -> tuple[tuple[Work, ...], dict[tuple[str, ...], Handle]]:
    """Works of limbs to be welded on that are too short to hold, each on the end of a longer bar; and these handles.

    What is done to the end where it goes on, as its scarf, is done when it is cut off.
    """
    kept = [w for w in works if not (w.does == "cut bar" and w.child in loose)]
    handles = {path: Handle(handle_end(limb)) for path, limb in loose.items()}
    piece = works[0].piece
    cuts = (
        cut_off(
            limb, shop, at_datum=handles[path].end is End.DATUM, when=_limb_cut(limb, handles[path].end),
            piece=piece, child=path,
        )
        for path, limb in loose.items()
    )  # fmt: skip
    return (*kept, *cuts), handles


def _limb_cut(limb: BarResult, end: End) -> str:
    """A limb that is stout where it goes on is made on the longer bar but for its scarf; else it is cut off earlier."""
    return "scarf" if _left(limb, end) >= DRAWN_OUT else "end"


def _left(bar: BarResult, end: End) -> float:
    """Share of the bar's metal across that is left at an end."""
    section = bar.runs[0].a if end is End.DATUM else bar.runs[-1].b
    return area(section) / area(bar.stock_section)


def _cuts(bar: BarResult, end: End) -> tuple[str, ...]:
    """When it may be cut off the longer bar, the best first (`Work.case` of the cut)."""
    run, left = bar.runs[0] if end is End.DATUM else bar.runs[-1], _left(bar, end)
    if left < POINTED or run.outline is not None:  # where that leaves nothing to hold: nicked at the drawn point
        return ("end", "") if left > 0 and run.outline is None else ("end",)
    early = ("end",) if left < DRAWN_OUT else ()
    bent = ("bends",) if bar.bends else ()
    turned = bool(bar.spec.path) and isinstance(bar.spec.path[0 if end is End.DATUM else -1], EyeLeg | ScrollLeg)
    return (*early, *bent, *(() if turned else ("",))) or ("",)


def handle_end(bar: BarResult) -> End:
    """The end that goes on into the longer bar: the stouter, and not one that is turned up, split, spread, or holed."""
    if any(b.at is None for b in bar.spec.branches):
        return End.DATUM
    return max((End.OTHER, End.DATUM), key=lambda end: _fit_for_it(bar, end))


def _fit_for_it(bar: BarResult, end: End) -> float:
    """How well the longer bar goes on at an end: its area over girth [m]; under nothing where it must be free."""
    first = end is End.DATUM
    path, run = bar.spec.path, bar.runs[0 if first else -1]
    section, stock = run.a if first else run.b, bar.stock_section
    if run.outline is not None or (path and isinstance(path[0 if first else -1], EyeLeg | ScrollLeg)):
        return -2.0
    near = BESIDE_END * thickness(stock)
    holed = any((hole.at if first else bar.length - hole.at) < near for hole in bar.holes)
    widest = max(run.a.width, run.a.thick, run.b.width, run.b.thick)  # a head swells toward its end, or away from it
    if holed or widest > WIDER * max(stock.width, stock.thick):
        return -1.0
    return hydraulic(section) if area(section) else 0.0
