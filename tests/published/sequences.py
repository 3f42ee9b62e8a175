"""Sequences of work that books print, held against the order of work that the planner finds for the same job."""

from collections.abc import Sequence
from dataclasses import dataclass

from bickern.desk.reckon import reckon_text
from bickern.desk.work.heats import planned
from bickern.making.heats.result import PiecePlan, Spell

Pair = tuple[str, str]


@dataclass(frozen=True)
class Told:
    """One printed sequence: where it stands, how it is known, the job, and which step comes before which.

    `before`: pairs (first, then) that print and plan agree on. `otherwise`: pairs that print has so and the plan the
    other way round, with the reason in `why`; if the plan ever agreed, the test would say so.
    """

    where: str
    known: str
    job: str
    before: tuple[Pair, ...]
    otherwise: tuple[Pair, ...] = ()
    why: str = ""

    def holds(self) -> None:
        """The plan keeps what is agreed and parts from print only where that is said."""
        assert self.known in ("read", "quoted")
        assert bool(self.otherwise) is bool(self.why)
        steps = steps_of(self.job)
        for first, then in self.before:
            assert steps.index(first) < steps.index(then), (self.where, first, then, steps)
        for first, then in self.otherwise:
            assert steps.index(then) < steps.index(first), (self.where, "now as printed", first, then)


def plan_of(job: str) -> PiecePlan:
    """The plan of the first piece of a job given as text."""
    done = planned(reckon_text(f"job: one\nunits: in\n{job}", "job.yaml"))
    assert done.copy is not None, done.findings
    assert done.copy.plan is not None, done.findings
    return done.copy.plan.pieces[0]


def steps_of(job: str) -> list[str]:
    """All that is done, in order: operation and name."""
    return [f"{work.does} {work.name}".rstrip() for spell in plan_of(job).spells for work in spell.works]


def heats_with(job: str, does: str) -> Sequence[Spell]:
    """The heats of a job in which an operation is done."""
    return [spell for spell in plan_of(job).spells if spell.hot and any(work.does == does for work in spell.works)]


def ring(bar: str, inside: str) -> str:
    """A welded ring."""
    return f"pieces: {{it: {{ring: {bar}, inside across: {inside}, closed: welded}}}}\n"


def link(bar: str, wide: str, long: str) -> str:
    """A welded link of a chain."""
    return (
        f"pieces: {{it: {{ring: {bar}, inside across: {wide}, inside long: {long}, closed: welded, "
        "chain: {links: 5}}}\n"
    )


LINK_STEPS: tuple[Pair, ...] = (("bend", "scarf"), ("scarf", "weld"))
"""Bent to a U, scarfed, welded."""
GATE_HOOK = """pieces:
  it:
    bar: 3/8 sq
    metal:
      - {as: 5/16 rd, over: 3, name: eye end}
      - {as: 3/8 sq, over: 4, name: middle}
      - {to: 1/8 rd, over: 3, name: point}
    path:
      - {eye: 1/2, turn: left, name: eye}
      - {straight: rest}
      - {bend: 90, inside radius: 1/4, turn: left, name: hook}
      - {straight: 3/4}
    twist: [{turns: 1, over: 2, middle of: middle, name: twist}]
"""
"""A gate hook with an eye, a twist and a pointed hook; Ilgen's sizes where the figure gives them."""
GATE_STEPS: tuple[Pair, ...] = (
    ("draw eye end", "curl eye"),
    ("draw eye end", "bend hook"),
    ("taper point", "bend hook"),
    ("curl eye", "bend hook"),
)
TWIST_LAST: tuple[Pair, ...] = (("bend hook", "twist twist"),)
WHY_TWIST = "a straight bar is easier on vise and wrench (common practice); print twists the finished hook"
HAMMOCK_HOOK = """pieces:
  hook:
    bar: 3/8 rd
    metal: [{keep: 9, name: shank}, {to: 1/8 rd, over: 2, name: point}]
    path: [{eye: 3/4, turn: left, name: eye}, {straight: rest}, {bend: 180, inside radius: 3/4, turn: left, name: hook},
      {straight: 1}]
"""
"""An eye at one end, a tapered hook at the other."""
