"""Sheets offered: refused for hot work, too small, or large enough; and whether two parts go on one."""

from collections.abc import Iterator
from dataclasses import replace
from math import degrees, pi

from bickern.geometry.blank import fits_in, min_blank
from bickern.geometry.polygon import area
from bickern.iron.coating import coating_finding
from bickern.measure.finding import Finding, Weight, note, stop
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.place import two_at_once
from bickern.parts.sheet.result import Pattern, SheetFit
from bickern.parts.sheet.say import told, told_pair
from bickern.parts.sheet.spec import Offered, SeamKind, SheetSpec

Judged = tuple[SheetFit, tuple[Finding, ...]]
"""What comes of one offered sheet."""


def is_hot(spec: SheetSpec) -> bool:
    """Whether the piece sees fire: told so, or brazed."""
    return spec.hot or spec.seam.kind is SeamKind.BRAZED


def coated_and_hot(coating: str, hot: bool, what: str) -> Finding | None:
    """What stands against `what` (coated so) in the fire; None where nothing does or it stays cold."""
    if not hot or (found := coating_finding(coating)) is None:
        return None
    name = "coated-and-hot" if found.stops else found.name
    return replace(found, name=name, says=f"{what}: {found.says}")


def judged(
    offered: Offered,
    net: tuple[Pattern, ...],
    cut: tuple[Pattern, ...],
    spec: SheetSpec,
    rules: SheetRules,
    enough: int,
) -> Judged:
    """One sheet against the patterns as cut; `enough`: in how many parts they would fit (0: not known)."""
    coat = coated_and_hot(offered.coating, is_hot(spec), f"The sheet {told_pair(offered.wide, offered.high)}")
    found = [_refused(coat)] if coat else []
    short = _short(cut, offered)
    if coat is not None and coat.stops:
        fit = SheetFit(offered, False, "refused: never in the fire", *short)
    elif max(short) > 0.0:
        fit = SheetFit(offered, False, "", *short)
        found.append(_too_big(offered, net, cut, short, enough))
    else:
        fit = SheetFit(offered, True, "", 0.0, 0.0)
        together = [*_together(offered, cut, rules)]
        found += together if any(f.name == "two-on-one" for f in together) else [*together, *_turned(offered, cut)]
    return fit, tuple(f.at(offered.where) for f in found)


def _refused(coat: Finding) -> Finding:
    """One sheet refused is not the end where another will do; where none is left, the piece is stopped."""
    return replace(coat, weight=Weight.WARN, says=f"{coat.says} This sheet is refused.") if coat.stops else coat


def no_sheet_left(fits: tuple[SheetFit, ...]) -> bool:
    """Whether every offered sheet is too small or refused."""
    return bool(fits) and not any(f.fits for f in fits)


def _short(patterns: tuple[Pattern, ...], offered: Offered) -> tuple[float, float]:
    """The worst shortfall of any pattern, each alone on the sheet [m]."""
    fits = [fits_in(p.outline, offered.wide, offered.high) for p in patterns]
    worst = max(fits, key=lambda f: f.short_width + f.short_height)
    return (0.0, 0.0) if all(f.fits for f in fits) else (worst.short_width, worst.short_height)


def _too_big(
    offered: Offered, net: tuple[Pattern, ...], cut: tuple[Pattern, ...], short: tuple[float, float], enough: int
) -> Finding:
    bare = _short(net, offered)
    largest, whole = (max((min_blank(p.outline) for p in ps), key=lambda b: b.width * b.height) for ps in (net, cut))
    says = f"The blank needs {told_pair(largest.width, largest.height)}"
    says += f" ({told_pair(whole.width, whole.height)} with its allowances); the sheet is "
    says += f"{told_pair(offered.wide, offered.high)}. {_misses(bare, short)}"
    way = f"Cut it in {_halves(enough)}." if enough > 1 else "Find a larger sheet."
    # Another offered sheet may do, so this one alone is not the end: the piece is stopped only where none is left.
    return Finding("blank-too-big", says, way, Weight.WARN)


def _misses(bare: tuple[float, float], short: tuple[float, float]) -> str:
    with_all = f"with its allowances it misses by {_ways(short)}."
    if max(bare) <= 0.0:
        return with_all[0].upper() + with_all[1:]
    return f"The bare blank misses by {_ways(bare)}; {with_all}"


def _ways(short: tuple[float, float]) -> str:
    wide, high = short
    ways = [f"{told(s)} along its {side}" for s, side in ((wide, "width"), (high, "height")) if s > 0.0]
    return " and ".join(ways)


def _halves(enough: int) -> str:
    return "two halves (`parts: 2`)" if enough == 2 else f"{enough} parts (`parts: {enough}`)"


def _together(offered: Offered, cut: tuple[Pattern, ...], rules: SheetRules) -> Iterator[Finding]:
    outlines = [p.outline for p in cut for _ in range(p.make)]
    size = told_pair(offered.wide, offered.high)
    if len(outlines) == 1:
        return
    if sum(map(area, outlines)) > offered.wide * offered.high:
        says = f"The parts have more area than one sheet of {size}."
        yield note("not-all-on-one-sheet", says, "Each fits on a sheet of its own.")
    elif len(outlines) > 2:
        yield note("parts-each-fit", f"Each part fits {size}; all on one was not looked for.", "Lay them out.")
    elif (pair := two_at_once(outlines[0], outlines[1], offered.wide, offered.high, rules.kerf)) is None:
        says = f"No way was found to cut both parts from one sheet of {size}; the search does not prove there is none."
        yield note("two-on-one-not-found", says, "Count on a sheet for each, or try with paper patterns.")
    else:
        says = f"Both parts go on one sheet of {size}: one {pair.first}, the other {pair.second}."
        corners = [told_pair(p.x, p.y) for p in (pair.first, pair.second)]
        places = (
            "Turned from lying evenly, the middle line upright, counter-clockwise; the lower left of what each takes "
        )
        places += f"at {corners[0]} and {corners[1]} from the sheet's corner. Try it with paper patterns first."
        yield note("two-on-one", says, places)


def _turned(offered: Offered, cut: tuple[Pattern, ...]) -> Iterator[Finding]:
    """Patterns that the sheet holds only askew: the rectangle printed as their blank does not go on it."""
    for pattern in cut:
        blank, fit = min_blank(pattern.outline), fits_in(pattern.outline, offered.wide, offered.high)
        if _upright(blank.width, blank.height, offered) or _upright(blank.height, blank.width, offered):
            continue
        turn = (fit.turn - blank.turn + pi / 2) % pi - pi / 2
        says = f"The pattern {pattern.name} goes on the sheet {told_pair(offered.wide, offered.high)} only askew; "
        says += f"its blank as a rectangle, {told_pair(blank.width, blank.height)}, does not."
        way = f"Cut no rectangle: lay the blank's long side along the {told(offered.wide)} side, then turn the pattern "
        way += f"{abs(degrees(turn)):.1f} degrees {'counter-clockwise' if turn > 0.0 else 'clockwise'} to fit."
        yield note("lay-it-turned", says, way)


def _upright(wide: float, high: float, offered: Offered) -> bool:
    return wide <= offered.wide + 1e-9 and high <= offered.high + 1e-9


def in_one_piece(whole: tuple[Pattern, ...], spec: SheetSpec) -> tuple[Finding, ...]:
    """How far the same pattern, not split, misses each sheet that its parts are offered."""
    return tuple(
        note(
            "one-piece-misses",
            f"In one piece the bare blank would miss the sheet {told_pair(o.wide, o.high)} by {_ways(short)}.",
            "",
            o.where,
        )
        for o in spec.offered
        if max(short := _short(whole, o)) > 0.0
    )


def none_fits(spec: SheetSpec) -> Finding:
    """Every offered sheet is refused or too small."""
    return stop(
        "no-sheet-fits", "None of the sheets there are will do.", "Split the pattern or find a larger sheet."
    ).at(spec.where)
