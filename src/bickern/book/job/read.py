"""A job from its text: all faults are collected with their places, and nothing raises for what a user wrote."""

from typing import TYPE_CHECKING

from bickern.book.files import Fetch, no_files
from bickern.book.forms import GAUGES, Form, Takes
from bickern.book.job.asked import Hang, Job, Spec
from bickern.book.job.bar import read_bar
from bickern.book.job.joint import read_joint
from bickern.book.job.like import written_out
from bickern.book.job.material import coating_of, steel_of
from bickern.book.job.ring import read_ring
from bickern.book.job.sheet import read_sheet
from bickern.book.job.who import Who, look_up_name, who_is_there
from bickern.book.job.words import FORMS, JOB, PIECES
from bickern.book.text import Group, Word, read_page
from bickern.book.told import Reading, Told, guess, named, tell
from bickern.measure.finding import Finding, stop
from bickern.measure.units.words import GaugeSystem, System
from bickern.parts.joint.spec import JointSpec

if TYPE_CHECKING:
    from bickern.making.shop import Shop

MOST_PIECES = 2000
"""Pieces in one job."""


def read_job(
    text: str | bytes, file: str, shop: "Shop | None" = None, fetch: Fetch = no_files
) -> tuple[Job | None, tuple[Finding, ...]]:
    """The job, and every finding about its text. A piece with a finding that stops it is left out of the job.

    None where the text is no job at all (it cannot be parsed, or has no pieces). `fetch` gives the bytes of outline
    files named in the job. Joins and the hanger are kept even where they speak of a piece that was left out.
    """
    page = read_page(text, file)
    if page.top is None:
        return None, page.findings
    told_gauge = page.top.get("gauge") is not None
    reading = Reading(_units(page.top), _gauge(page.top, shop), told_gauge, fetch, list(page.findings), FORMS)
    told = tell(reading, page.top, JOB)
    job = _job(told, file) if told is not None else None
    return job, in_order(reading.findings)


def in_order(findings: list[Finding]) -> tuple[Finding, ...]:
    """Findings in the order of the file's lines."""
    return tuple(sorted(findings, key=lambda f: (f.where.line, f.where.column)))


def _units(top: Group) -> System | None:
    said = top.get("units")
    known = {s.value: s for s in System}
    return known.get(said.text.strip().lower()) if isinstance(said, Word) else None


def _gauge(top: Group, shop: "Shop | None") -> GaugeSystem:
    said = top.get("gauge")
    known = {g.lower(): GaugeSystem(g) for g in GAUGES}
    default = shop.gauge if shop is not None else GaugeSystem.US
    return known.get(said.text.strip().lower(), default) if isinstance(said, Word) else default


def _job(told: Told, file: str) -> Job | None:
    groups = _pieces(told)
    if groups is None:
        return None
    specs = {name: s for name, group in groups.items() if (s := _piece(told.reading, name, group)) is not None}
    who = who_is_there(groups, specs)
    joints = tuple(j for t in told.list_of("joins") if (j := _joint(t, who)) is not None)
    units, _ = told.choice("units", ""), told.choice("gauge", "")
    return Job(
        told.text("job"), System(units) if units else None, tuple(specs.values()), joints, _hang(told, who),
        told.count("make"), told.texts("use"), told.text("finish"), told.text("what for"), told.text("skill"),
        told.text("author"), told.text("date"), told.texts("notes"), told.text("shop"), file,
    )  # fmt: skip


_STILL_A_JOINT = ("counts-differ", "not-so-many")
"""Faults of a joint that leave it a joint: only the numbers do not agree."""


def _joint(told: Told, who: Who) -> JointSpec | None:
    """One joint, or None where a fault in it leaves nothing to reckon."""
    before = len(told.reading.findings)
    joint = read_joint(told, who)
    faults = [f for f in told.reading.findings[before:] if f.stops and f.name not in _STILL_A_JOINT]
    return None if faults else joint


def _pieces(told: Told) -> dict[str, Group] | None:
    """The pieces by name with every `like` written out; None where there are none at all."""
    value = told.value("pieces", Takes.NAMED)
    if value is None:
        return None
    if not isinstance(value, Group) or not value.entries:
        told.fault(
            "no-pieces", "`pieces` wants the pieces, each under its name", "pieces:\n  hook:\n    bar: 1/4 rd", "pieces"
        )
        return None
    if len(value.entries) > MOST_PIECES:
        told.fault(
            "too-large", f"there are {len(value.entries)} pieces; at most {MOST_PIECES} are reckoned", "", "pieces"
        )
        return None
    found: dict[str, Group] = {}
    for entry in value.entries:
        name = named(told.reading, entry.key)
        if name in found:
            told.reading.say(stop("said-twice", f"two pieces are named `{name}`", "rename one"), entry.key.where)
        elif isinstance(entry.value, Group):
            found[name] = entry.value
        else:
            says = f"`{name}` does not say what it is"
            told.reading.say(stop("not-a-group", says, "write `bar:`, `ring:` or `sheet:` under it"), entry.value.where)
    return written_out(found, told.reading)


def _piece(reading: Reading, name: str, group: Group) -> Spec | None:
    """One piece, or None where anything in it stops the work."""
    before = len(reading.findings)
    form = _form(reading, name, group)
    told = tell(reading, group, form) if form is not None else None
    spec = _read_piece(told, name) if told is not None else None
    return None if any(f.stops for f in reading.findings[before:]) else spec


def _form(reading: Reading, name: str, group: Group) -> Form | None:
    said = [f for f in PIECES if f.name in group.words()]
    if len(said) > 1:
        says = f"`{name}` cannot be both {said[0].name} and {said[1].name}"
        reading.say(stop("two-kinds", says, "make two pieces of it, or take one word out"), group.where)
    elif not said and "like" not in group.words():
        first = group.entries[0].key.text if group.entries else ""
        try_this = guess(first, ("bar", "ring", "sheet")) if first else "write `bar: 1/2 sq`"
        says = f"`{name}` does not say what it is made from: bar, ring or sheet"
        reading.say(stop("missing", says, try_this), group.where)
    return said[0] if len(said) == 1 else None


def _read_piece(told: Told, name: str) -> Spec | None:
    kind = told.form.name
    hot = kind != "sheet" or told.yes("hot")
    steel, coating = steel_of(told), coating_of(told, hot)
    if kind == "bar":
        return read_bar(told, name, steel, coating)
    return read_ring(told, name, steel, coating) if kind == "ring" else read_sheet(told, name, steel, coating)


def _hang(told: Told, who: Who) -> Hang | None:
    inner = told.group_of("hang")
    if inner is None:
        return None
    place = inner.text("from")
    if place:
        look_up_name(inner, "from", place, who)
    if inner.has("on") and not inner.text("on"):
        inner.fault("empty", "nothing is written behind `on`: what does it hang on?", "write `on: wall`", "on")
    return Hang(place, inner.text("on"), inner.where)


def form_named(name: str) -> Form:
    """The table of words of that form."""
    return FORMS[name]
