"""A sheet piece reckoned: sizes to the middle of the sheet, laid flat, allowances added, rolled up again, judged."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from math import pi

from bickern.geometry.blank import fits_in, min_blank
from bickern.geometry.polygon import area
from bickern.measure.finding import Finding, stopping
from bickern.measure.units.words import Read
from bickern.parts.sheet.after import flat_wrong, folds_sharp, lugs_wrong, net_wrong, pattern_wrong
from bickern.parts.sheet.again import covered
from bickern.parts.sheet.allowances import SheetRules
from bickern.parts.sheet.also import also_by_rule
from bickern.parts.sheet.check import asked_wrong
from bickern.parts.sheet.close import closing_gap
from bickern.parts.sheet.cut import Range, cut_pattern, merged, net_pattern
from bickern.parts.sheet.figures import figures_of
from bickern.parts.sheet.flats import bowl_cut, bowl_net, flat_pattern
from bickern.parts.sheet.lay import laid, parted
from bickern.parts.sheet.net import Net, net_of
from bickern.parts.sheet.neutral import on_middle
from bickern.parts.sheet.offers import coated_and_hot, in_one_piece, is_hot, judged, no_sheet_left, none_fits
from bickern.parts.sheet.pan import pan_cut, pan_net
from bickern.parts.sheet.result import Pattern, SheetFit, SheetResult
from bickern.parts.sheet.spec import Bowl, FlatOutline, Offered, Pan, SheetSpec, Surface

_MOST_PARTS = 8


def reckon_sheet(spec: SheetSpec, rules: SheetRules, density: float) -> Read[SheetResult]:
    """A sheet piece from what was asked, the shop's rules, and the metal's density [kg/m3]."""
    found = [*asked_wrong(spec, rules), *_coated(spec)]
    if any(f.stops and f.name != "coated-and-hot" for f in found):
        return Read(None, tuple(found))
    drawn = _drawn(spec, rules)
    found += drawn.findings
    if drawn.value is None:
        return Read(None, tuple(found))
    sheets = drawn.value
    fits, judgements = _offers(spec, rules, sheets)
    found += judgements
    if any(f.name in _NO_PATTERN for f in found if f.stops):
        return Read(None, tuple(found))
    result = _result(spec, rules, density, sheets, fits, tuple(found))
    return Read(result, result.findings)


_NO_PATTERN = frozenset(("pattern-overlaps-itself", "lugs-overlap", "hole-off-pattern"))
"""Stops after which a pattern would mislead, so that none is handed on."""


@dataclass(frozen=True, slots=True)
class _Sheets:
    """Patterns of one piece: surface with mean sizes, nets, patterns as cut, and how they close."""

    middle: Surface
    bare: tuple[Pattern, ...]
    cut: tuple[Pattern, ...]
    nets: tuple[Net, ...] = ()
    gap: float = 0.0
    stray: float = 0.0


def _coated(spec: SheetSpec) -> tuple[Finding, ...]:
    found = coated_and_hot(spec.coating, is_hot(spec), "The sheet of this piece") if spec.coating else None
    return (found.at(spec.where),) if found else ()


def _drawn(spec: SheetSpec, rules: SheetRules) -> Read[_Sheets]:
    middle = on_middle(spec.surface, spec.thick, spec.sized)
    if wrong := _once(lugs_wrong(middle, spec, rules)):
        return Read(None, tuple(f.at(spec.where) for f in wrong))
    if isinstance(middle, Pan):
        bare, cut = pan_net(middle, spec.thick, rules, spec.name), pan_cut(middle, spec, rules, spec.name)
    elif isinstance(middle, Bowl):
        bare, cut = bowl_net(middle, spec.name), bowl_cut(middle, spec, rules, spec.name)
    elif isinstance(middle, FlatOutline):
        bare = cut = flat_pattern(middle, spec.name)
    else:
        return _skin(middle, spec, rules)
    found = tuple(f.at(spec.where) for f in flat_wrong(cut, spec))
    return Read(_Sheets(middle, (bare,), (cut,)), found)


def _skin(middle: Surface, spec: SheetSpec, rules: SheetRules) -> Read[_Sheets]:
    whole = laid(middle)
    if whole.value is None:
        return Read(None, tuple(f.at(spec.where) for f in whole.findings))
    parts = parted(whole.value, spec.parts)
    if parts.value is None:
        return Read(None, tuple(f.at(spec.where) for f in (*whole.findings, *parts.findings)))
    nets = tuple(net_of(d, spec.parts) for d in parts.value)
    ranges = covered(parts.value)
    wrong = _once(f for net, covers in zip(nets, ranges, strict=True) for f in net_wrong(net, spec, rules, covers))
    if stopping(wrong):
        return Read(None, (*whole.findings, *wrong))
    cut, found = _cut(nets, ranges, spec, rules)
    bare = tuple(net_pattern(n, name) for n, name in zip(nets, _names(spec), strict=True))
    gap = closing_gap(parts.value, nets, tuple(p.outline for p in bare))
    sheets = _Sheets(middle, merged(bare), merged(cut), nets, gap, whole.value.stray)
    one = in_one_piece((net_pattern(net_of(whole.value), spec.name),), spec) if spec.parts > 1 and spec.offered else ()
    said = (*whole.findings, *wrong, *found, *folds_sharp(whole.value, spec, rules), *one)
    return Read(sheets, tuple(f.at(spec.where) for f in said))


def _cut(
    nets: tuple[Net, ...], ranges: tuple[Range, ...], spec: SheetSpec, rules: SheetRules
) -> tuple[tuple[Pattern, ...], tuple[Finding, ...]]:
    cut: list[Pattern] = []
    found: list[Finding] = []
    for net, covers, name in zip(nets, ranges, _names(spec), strict=True):
        cut.append(cut_pattern(net, spec, rules, name, covers))
        found += pattern_wrong(net, cut[-1], spec, rules, covers)
    return tuple(cut), _once(found)


def _once(found: Iterable[Finding]) -> tuple[Finding, ...]:
    """The same findings without those that parts which are alike say again."""
    return tuple(dict.fromkeys(found))


def _names(spec: SheetSpec) -> tuple[str, ...]:
    if spec.parts == 1:
        return (spec.name,)
    if spec.parts == 2:
        return (f"{spec.name}, half", f"{spec.name}, other half")
    return tuple(f"{spec.name}, part {i + 1}" for i in range(spec.parts))


def _offers(spec: SheetSpec, rules: SheetRules, sheets: _Sheets) -> tuple[tuple[SheetFit, ...], tuple[Finding, ...]]:
    fits: list[SheetFit] = []
    found: list[Finding] = []
    for offered in spec.offered:
        fit, findings = judged(offered, sheets.bare, sheets.cut, spec, rules, 0)
        if any(f.name == "blank-too-big" for f in findings):
            enough = _enough(spec, rules, offered)
            fit, findings = judged(offered, sheets.bare, sheets.cut, spec, rules, enough)
        fits.append(fit)
        found += findings
    if no_sheet_left(tuple(fits)):
        found.append(none_fits(spec))
    return tuple(fits), tuple(found)


def _enough(spec: SheetSpec, rules: SheetRules, offered: Offered) -> int:
    """In how many parts each pattern fits the sheet on its own; 0 where none up to eight would do."""
    for parts in range(spec.parts + 1, _MOST_PARTS + 1):
        drawn = _drawn(replace(spec, parts=parts), rules)
        if drawn.value is None or not drawn.value.nets:
            return 0
        if all(fits_in(p.outline, offered.wide, offered.high).fits for p in drawn.value.cut):
            return parts
    return 0


def _result(
    spec: SheetSpec,
    rules: SheetRules,
    density: float,
    sheets: _Sheets,
    fits: tuple[SheetFit, ...],
    findings: tuple[Finding, ...],
) -> SheetResult:
    metal = sum(p.make * pattern_area(p) for p in sheets.cut)
    return SheetResult(
        spec,
        sheets.bare,
        sheets.cut,
        figures_of(spec, sheets.middle, sheets.nets, rules),
        _blank(sheets.bare),
        _blank(sheets.cut),
        metal,
        metal * spec.thick * density,
        sheets.gap,
        sheets.stray,
        fits,
        also_by_rule(spec, sheets.middle, rules),
        findings,
    )


def pattern_area(pattern: Pattern) -> float:
    """Area [m2] of one pattern as cut, holes and cut-outs taken off."""
    holes = sum(pi / 4 * h.size**2 for h in pattern.holes)
    return area(pattern.outline) - sum(abs(area(c)) for c in pattern.cutouts) - holes


def net_area(result: SheetResult) -> float:
    """Area [m2] of the surface itself: all its bare patterns, without seams, hems and lugs."""
    return sum(p.make * pattern_area(p) for p in result.net)


def _blank(patterns: tuple[Pattern, ...]) -> tuple[float, float]:
    """The smallest rectangle round the largest pattern [m]."""
    blanks = [min_blank(p.outline) for p in patterns]
    largest = max(blanks, key=lambda b: b.width * b.height)
    return largest.width, largest.height
