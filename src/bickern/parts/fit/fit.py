"""The main question of this room: do the joints of a job go together, with how much to spare, in which order."""

from collections.abc import Sequence

from bickern.measure.units.words import Style
from bickern.parts.fit.chains import in_chains, which_link
from bickern.parts.fit.checked import Bench, Checked
from bickern.parts.fit.eyes import two_eyes
from bickern.parts.fit.holes import filled
from bickern.parts.fit.hooks import Hung, hook_named, hook_rows, hooks_of, without_hooks
from bickern.parts.fit.loops import Loop, loop_named
from bickern.parts.fit.openings import neighbours, openings_at
from bickern.parts.fit.order import closing_findings, order_of
from bickern.parts.fit.result import FitResult
from bickern.parts.fit.rings import bar_at, round_metal, through
from bickern.parts.fit.round_bars import round_bundle
from bickern.parts.fit.tenons import tenon_findings
from bickern.parts.fit.together import all_in_ring, all_through, in_rings, through_openings
from bickern.parts.joint.spec import JointKind, JointResult, JointSpec
from bickern.parts.set.pieces import Pieces


def fit_rows(pieces: Pieces, joints: Sequence[JointResult], style: Style, drifts: Sequence[float] = ()) -> FitResult:
    """Every joint in every place it goes through, by closed forms alone; `drifts` [m] are the shop's own (none: any).

    Rows come in the order of the joints, then what one ring or one opening holds in all, then chains. What a mesh alone
    can tell (how far a thing swings before it touches another) is not asked here.
    """
    bench, asked = Bench(style, tuple(drifts)), [made.spec for made in joints]
    hooks = hooks_of(asked, pieces)
    found, met = Checked(), set[frozenset[str]]()
    for made in joints:
        found += _joint(made, pieces, bench, met)
        found += _on_hooks(made.spec, hooks, pieces, bench)
    found += _at_once(asked, pieces, bench) + in_chains(pieces, bench)
    closed = closing_findings(without_hooks(asked, hooks, pieces), pieces)
    findings = (*found.findings, *which_link(asked, pieces), *closed)
    return FitResult(found.rows, order_of(asked, pieces, style, hooks), tuple(dict.fromkeys(findings)))


def _joint(made: JointResult, pieces: Pieces, bench: Bench, met: set[frozenset[str]]) -> Checked:
    joint = made.spec
    if joint.kind is JointKind.RING:
        loop = hook_named(joint.ring, pieces) if joint.hooked else loop_named(joint.ring, pieces)
        return _ring(joint, loop, pieces, bench, met) if loop is not None else Checked()
    tenons = Checked((), tenon_findings(made, pieces, bench.style))
    return filled(joint, pieces, bench) + tenons + round_bundle(made, bench)


def _on_hooks(joint: JointSpec, hooks: Sequence[Hung], pieces: Pieces, bench: Bench) -> Checked:
    mine = [hung for hung in hooks if hung.joint is joint]
    return hook_rows(mine, pieces, bench.style) if mine else Checked()


def _ring(joint: JointSpec, loop: Loop, pieces: Pieces, bench: Bench, met: set[frozenset[str]]) -> Checked:
    """Links of one chain are looked at as a chain; two rings told by both their joints are looked at once (`met`)."""
    found = Checked()
    in_chain = neighbours(joint.ring, pieces)
    for place in joint.through:
        pair = frozenset((joint.ring, place))
        if place not in in_chain and pair not in met:
            found += _place(joint, loop, place, pieces, bench)
            met.add(pair)
    return found if joint.hooked else found + two_eyes(joint, loop, pieces, bench)


def _place(joint: JointSpec, loop: Loop, place: str, pieces: Pieces, bench: Bench) -> Checked:
    found = Checked()
    openings = openings_at(place, pieces)
    for opening in openings:
        found += through(joint, loop, opening, bench)
    metal = None if openings else bar_at(place, pieces)
    return found + round_metal(joint, loop, metal, bench.style) if metal is not None else found


def _at_once(joints: Sequence[JointSpec], pieces: Pieces, bench: Bench) -> Checked:
    found = Checked()
    for name, held in in_rings(joints, pieces).items():
        found += all_in_ring(name, held, pieces, bench)
    for place, (joint, loops) in through_openings(joints, pieces).items():
        found += all_through(joint, loops, openings_at(place, pieces)[0], bench)
    return found
