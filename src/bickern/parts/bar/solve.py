"""What is open is solved, unknowns against equations: lengths, an end size, lengths that bring out an overall size."""

from collections.abc import Callable
from dataclasses import dataclass, replace

from bickern.iron.section import Section, area
from bickern.measure.finding import Finding, Where, stop
from bickern.measure.spread import Spread
from bickern.parts.bar.allowances import BarRules
from bickern.parts.bar.length import Span, lay_path, path_length, thick_at
from bickern.parts.bar.line import Line, line_of
from bickern.parts.bar.places import map_of
from bickern.parts.bar.resolve import Key, Laid, Values, lay_metal, with_losses
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.says import called, leg_called
from bickern.parts.bar.sizes import sizes_of
from bickern.parts.bar.tracks import BarSpec, Blank, EyeLeg, Metal, Overall, OverallGoal, ScrollLeg, StraightLeg
from bickern.parts.bar.twist import place_twists, shortening_volume
from bickern.parts.bar.volume import Extras, stock_spread
from bickern.parts.weld import weld_allowance

ROUNDS = 40
"""Newton steps before giving up; linear cases take two."""
_HALVINGS = 12
_ENOUGH = 1e-3
"""Share of the fineness below which more steps are not worth while."""
_FINE = 1e-11
_FINE_GOAL = 1e-7
"""Metres within which an equation counts as met (overall sizes are found on a sampled outline: a tenth of a micron)."""


@dataclass(frozen=True, slots=True)
class Open:
    """One unknown: its key, what the smith calls it, the words that asked, and where."""

    key: Key
    name: str
    asked: str
    guess: float
    where: Where


@dataclass(frozen=True, slots=True)
class Trial:
    """The whole bar laid out for one set of trial values."""

    laid: Laid
    spans: tuple[Span, ...]
    extras: Extras
    values: Values


@dataclass(frozen=True, slots=True)
class Problem:
    """A bar, the stock it is made from, the shop's rules, what was split off it, and what the fire takes of each run.

    `losses` () leaves that to the shop's rule.
    """

    spec: BarSpec
    stock: Section
    rules: BarRules
    children: tuple[BarResult, ...] = ()
    losses: tuple[Spread, ...] = ()

    @property
    def stock_area(self) -> float:
        """Area of the stock [m^2]."""
        return area(self.stock)

    @property
    def stock_length(self) -> float | None:
        """Length of the stock [m] where it is given."""
        given = self.spec.stock_length
        return None if isinstance(given, Blank) else given

    def lay(self, values: Values) -> Trial:
        """Lay both tracks with trial values."""
        laid = with_losses(lay_metal(self.spec, self.stock, self.rules, values), self.losses)
        spans = lay_path(self.spec, laid, self.rules, values)
        return Trial(laid, spans, self._extras(laid, spans), values)

    def _extras(self, laid: Laid, spans: tuple[Span, ...]) -> Extras:
        spec, twist = self.spec, 0.0
        if self.rules.twist_shortening and spec.twists:
            checks, _ = place_twists(spec.twists, map_of(laid, spans), laid.runs)
            twist = shortening_volume(checks, laid.runs, self.rules)
        first, last = self.end_allowances(laid, spans)
        before = first * area(laid.runs[0].a) / self.stock_area
        weld = before + last * area(laid.runs[-1].b) / self.stock_area
        return Extras(weld, before, spec.grip, self.rules.kerf, twist, self.children)

    def end_allowances(self, laid: Laid, spans: tuple[Span, ...]) -> tuple[float, float]:
        """Lengths [m] added for welds before the datum end and behind the other, of the section there.

        A closed bar has one weld, half of it at each end; an eye that is welded has its own at its end.
        """
        if self.spec.closed and self.spec.welded:
            turn = next((getattr(s.leg, "turn", 0.0) for s in spans if s.is_bend), 0.0)
            half = self._weld(thick_at(laid.runs, 0.0, turn)) / 2
            return half, half
        return self._eye_weld(spans[0], 0.0, laid), self._eye_weld(spans[-1], laid.length, laid)

    def _eye_weld(self, span: Span, at: float, laid: Laid) -> float:
        leg = span.leg
        welded = isinstance(leg, EyeLeg) and leg.welded
        return self._weld(thick_at(laid.runs, at, getattr(leg, "turn", 0.0))) if welded else 0.0

    def _weld(self, thick: float) -> float:
        return weld_allowance(self.rules.weld, thick) * self.rules.weld_times

    def wanted(self, trial: Trial) -> float:
        """Stock [m] that a trial wants, with scale and allowances."""
        return stock_spread(trial.laid.runs, self.stock_area, trial.extras).value

    def line(self, trial: Trial) -> Line:
        """The bent line of a trial."""
        checks, _ = place_twists(self.spec.twists, map_of(trial.laid, trial.spans), trial.laid.runs)
        return line_of(trial.spans, checks)

    def overall(self, trial: Trial, axis: Overall) -> float:
        """An overall size [m] of a trial."""
        line = self.line(trial)
        limbs = [(line.end, child) for child in self.children]
        return sizes_of(line, _fitted(trial.laid.runs, path_length(trial.spans)), limbs).of(axis)


def _fitted(runs: tuple[MetalRun, ...], length: float) -> tuple[MetalRun, ...]:
    """The runs cut or drawn out to `length` [m], while metal and path are not yet of one length in a trial."""
    inside = [r for r in runs if r.start < length] or [runs[0]]
    return (*inside[:-1], replace(inside[-1], end=length))


@dataclass(frozen=True, slots=True)
class Equation:
    """Something that must come out: `kind` is "match", "stock" or "goal"; `over` is how far a trial is above it [m]."""

    kind: str
    over: Callable[[Trial], float]
    fine: float
    where: Where


@dataclass(frozen=True, slots=True)
class Answer:
    """Values for all that was open, or findings that say why there are none. `checks`: equations that had to hold."""

    values: Values
    unknowns: tuple[Open, ...] = ()
    checks: tuple[Equation, ...] = ()
    findings: tuple[Finding, ...] = ()
    met: bool = True


def unknowns_of(spec: BarSpec) -> tuple[tuple[Open, ...], tuple[Finding, ...]]:
    """Everything left open, in the order of the tracks, with the lengths that overall sizes are to be reached by."""
    found = [*_open_metal(spec), *_open_path(spec)]
    findings: list[Finding] = []
    for goal in spec.overall:
        by = _entry_called(spec, goal.by)
        asked = f"overall {goal.axis} by {goal.by}"
        if by is None:
            says = f'the overall size is to be reached by "{goal.by}", but no length on this bar has that name'
            findings.append(stop("no-such-place", says, "name a metal entry or a straight", goal.where))
        elif any(o.asked.startswith("overall") and o.key == by[0] for o in found):
            says = f'two overall sizes cannot both be reached by "{goal.by}"'
            findings.append(stop("goal-asked-twice", says, "name another length for one of them", goal.where))
        else:
            key, guess = by[0], max(by[1], goal.size)
            found = [o for o in found if o.key != key]
            found.append(Open(key, f"length of {goal.by}", asked, guess, goal.where))
    return tuple(_reaching_out(o, spec) for o in found), tuple(findings)


def _reaching_out(unknown: Open, spec: BarSpec) -> Open:
    """A start from which the long straight already is the longest: from a short one another leg would give the axes."""
    reach = max((goal.size for goal in spec.overall if goal.axis is Overall.REACH), default=0.0)
    told = unknown.key[0] == "size" or unknown.asked.startswith("overall")
    return unknown if told else replace(unknown, guess=max(unknown.guess, reach))


def _guess(length: object) -> float:
    return length if isinstance(length, float | int) else 0.05


def _open_metal(spec: BarSpec) -> list[Open]:
    found = []
    for i, entry in enumerate(spec.metal):
        name = entry.name or f"metal entry {i + 1}"
        if isinstance(entry.length, Blank):
            found.append(Open(("metal", i), f"length of {name}", entry.length.value, 0.05, entry.where))
        for goal in (entry.start, entry.end):
            if goal is not None and goal.open_size:
                size = "size" if goal.open_size == "both" else goal.open_size
                found.append(Open(("size", i), f"{size} of {name}", "?", _size_guess(spec, entry), entry.where))
    return found


def _size_guess(spec: BarSpec, entry: Metal) -> float:
    goal = entry.end or entry.start
    held = (spec.stock, goal.section if goal else None)
    return next((s.thick for s in held if s is not None and s.thick > 0.0), 0.01)


def _open_path(spec: BarSpec) -> list[Open]:
    found = []
    for i, leg in enumerate(spec.path):
        if isinstance(leg, StraightLeg) and isinstance(leg.length, Blank):
            name = leg.name or leg_called(spec.path, i)
            found.append(Open(("path", i), f"length of {name}", leg.length.value, 0.05, leg.where))
        if isinstance(leg, ScrollLeg) and _scroll_is_open(leg):
            name, asked = leg.name or "the scroll", leg.length.value if isinstance(leg.length, Blank) else "?"
            found.append(Open(("path", i), f"length of {name}", asked, _scroll_guess(leg), leg.where))
    return found


def _scroll_is_open(leg: ScrollLeg) -> bool:
    told = sum(x is not None for x in (leg.turns, leg.inside_radius, leg.outside_radius))
    return told == 2 and isinstance(leg.length, Blank)


def _scroll_guess(leg: ScrollLeg) -> float:
    radii = [r for r in (leg.inside_radius, leg.outside_radius) if r is not None]
    return 6.3 * (leg.turns or 1.0) * max(radii) * (1.0 if leg.outside_radius else 1.5)


def _entry_called(spec: BarSpec, name: str) -> tuple[Key, float] | None:
    for i, entry in enumerate(spec.metal):
        if name and entry.name == name:
            return ("metal", i), _guess(entry.length)
    for i, leg in enumerate(spec.path):
        if name and leg.name == name and isinstance(leg, StraightLeg):
            return ("path", i), _guess(leg.length)
    return None


def _goal_equation(problem: Problem, goal: OverallGoal) -> Equation:
    return Equation("goal", lambda trial: problem.overall(trial, goal.axis) - goal.size, _FINE_GOAL, goal.where)


def equations_of(problem: Problem) -> tuple[Equation, ...]:
    """What must come out: overall sizes, path as long as metal, and metal as much as the stock holds."""
    spec = problem.spec
    found = [_goal_equation(problem, goal) for goal in spec.overall]
    if spec.path:
        found.append(Equation("match", lambda t: path_length(t.spans) - t.laid.length, _FINE, spec.where))
    if problem.stock_length is not None:
        given = problem.stock_length
        found.append(Equation("stock", lambda t: problem.wanted(t) - given, _FINE, spec.where))
    return tuple(found)


def solve(problem: Problem) -> Answer:
    """Solve what is open; an equation that no unknown can move is handed back as a check."""
    unknowns, findings = unknowns_of(problem.spec)
    if findings:
        return Answer({}, unknowns, (), findings, False)
    equations = equations_of(problem)
    active, checks = _active(unknowns, equations)
    if len(unknowns) > len(active):
        return Answer({}, unknowns, checks, (_too_much_open(problem, unknowns, active),), False)
    if len(unknowns) < len(active):  # too little open: what is over is checked, the stock first
        spare = len(active) - len(unknowns)
        checks, active = checks + active[-spare:], active[:-spare]
    if any(e.kind == "goal" for e in checks):
        return Answer({}, unknowns, checks, (_goal_stuck(problem),), False)
    values, met = _newton(problem, unknowns, active)
    return Answer(values, unknowns, checks, (), met)


def _active(
    unknowns: tuple[Open, ...], equations: tuple[Equation, ...]
) -> tuple[tuple[Equation, ...], tuple[Equation, ...]]:
    tracks = {o.key[0] for o in unknowns}
    moves = {
        "goal": bool(unknowns),
        "match": bool(tracks & {"metal", "path"}),
        "stock": bool(tracks & {"metal", "size"}),
    }
    active = tuple(e for e in equations if moves[e.kind])
    return active, tuple(e for e in equations if not moves[e.kind])


def _too_much_open(problem: Problem, unknowns: tuple[Open, ...], active: tuple[Equation, ...]) -> Finding:
    names = [o.name for o in unknowns]
    if problem.stock_length is None:
        names.append("the stock length")
    said = len(active) + (1 if problem.stock_length is None else 0)
    says = f"{len(names)} sizes are open ({', '.join(names)}), but only {said} can be found from what is given"
    cure = "give one more of them" if problem.stock_length is not None else "give one more of them, or the stock length"
    return stop("too-much-open", says, cure, unknowns[-1].where)


def _goal_stuck(problem: Problem) -> Finding:
    goal = problem.spec.overall[0]
    says = (
        f"the overall {goal.axis} cannot be brought out by {called(goal.by, 'a length')}: "
        "the other track already fixes how long the bar is"
    )
    return stop("overall-not-reached", says, "let one entry of the other track be `rest`", goal.where)


def _newton(problem: Problem, unknowns: tuple[Open, ...], active: tuple[Equation, ...]) -> tuple[Values, bool]:
    """Newton's method with forward differences; exact after one step where the equations are linear."""
    keys = [o.key for o in unknowns]
    best = [o.guess for o in unknowns]

    def overs(at: list[float]) -> list[float]:
        trial = problem.lay(dict(zip(keys, at, strict=True)))
        return [e.over(trial) for e in active]

    if not keys:
        return {}, True
    off = overs(best)
    for _ in range(ROUNDS):
        if all(abs(r) <= _ENOUGH * e.fine for r, e in zip(off, active, strict=True)):
            break
        step = _linear(_slopes(overs, best, off), off)
        if step is None:
            break
        best, off, better = _damped(overs, best, off, step, keys)
        if not better:
            break
    met = all(abs(r) < e.fine for r, e in zip(off, active, strict=True))
    return dict(zip(keys, best, strict=True)), met


def _slopes(overs: Callable[[list[float]], list[float]], at: list[float], off: list[float]) -> list[list[float]]:
    columns = []
    for i, x in enumerate(at):
        h = max(1e-4, 1e-3 * abs(x))
        moved = overs([*at[:i], x + h, *at[i + 1 :]])
        columns.append([(m - o) / h for m, o in zip(moved, off, strict=True)])
    return [list(row) for row in zip(*columns, strict=True)]


def _damped(
    overs: Callable[[list[float]], list[float]], at: list[float], off: list[float], step: list[float], keys: list[Key]
) -> tuple[list[float], list[float], bool]:
    """Take the step, halved until it helps; a size is never led through nothing."""
    worst, share = max(map(abs, off)), 1.0
    if worst == 0.0:
        return at, off, False
    for _ in range(_HALVINGS):
        tried = [x - share * s for x, s in zip(at, step, strict=True)]
        if all(t > 0.0 or k[0] != "size" for t, k in zip(tried, keys, strict=True)):
            now = overs(tried)
            if max(map(abs, now)) < worst:
                return tried, now, True
        share /= 2
    return at, off, False


def _linear(rows: list[list[float]], right: list[float]) -> list[float] | None:
    """Solve a small linear system by elimination with pivoting; None where an unknown moves nothing of its own."""
    n = len(rows)
    m = [[*row, r] for row, r in zip(rows, right, strict=True)]
    scale = max((abs(x) for row in rows for x in row), default=0.0)
    for i in range(n):
        pivot = max(range(i, n), key=lambda k: abs(m[k][i]))
        if abs(m[pivot][i]) <= 1e-9 * scale:
            return None
        m[i], m[pivot] = m[pivot], m[i]
        for k in range(i + 1, n):
            f = m[k][i] / m[i][i]
            m[k] = [a - f * b for a, b in zip(m[k], m[i], strict=True)]
    answer = [0.0] * n
    for i in reversed(range(n)):
        answer[i] = (m[i][n] - sum(m[i][k] * answer[k] for k in range(i + 1, n))) / m[i][i]
    return answer
