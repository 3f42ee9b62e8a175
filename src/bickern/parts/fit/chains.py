"""A chain's links in one another: every joint of it that nobody writes down."""

from bickern.parts.fit.checked import Bench, Checked
from bickern.parts.fit.result import FitRow
from bickern.parts.fit.rings import inside_of
from bickern.parts.fit.words import moving, said_margin, spare
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.chain import LEAST
from bickern.parts.ring.spec import RingResult
from bickern.parts.set.pieces import Pieces


def implied(ring: RingResult) -> JointSpec | None:
    """The joint of each link with the next, as if it had been written; None where there is no chain."""
    if ring.chain is None or ring.spec.chain is None:
        return None
    name, where = ring.spec.name, ring.spec.chain.where
    return JointSpec(JointKind.RING, (f"{name} 2",), f"{name} 1", number=ring.chain.links - 1, where=where)


def in_chains(pieces: Pieces, bench: Bench) -> Checked:
    """Each chain: a link through the next, and the two neighbours in one link. Its own checks speak of faults."""
    found = [_links(p, joint, bench) for p in pieces.values() if isinstance(p, RingResult) and (joint := implied(p))]
    return Checked(tuple(row for rows in found for row in rows))


def _links(ring: RingResult, joint: JointSpec, bench: Bench) -> tuple[FitRow, ...]:
    name, wire = ring.spec.name, inside_of("", ring.spec.wire).across
    inside, long = ring.inside_across, ring.inside_long
    room, slides = inside - wire, long - 2 * wire
    what = f"{name}: each link in the next"
    says = f"{spare(room, bench.style)}; each slides {said_margin(slides, bench.style)} in the next"
    rows = [FitRow(joint, what, "goes through", moving(room), wire, inside, room, says)]
    if ring.chain is not None and ring.chain.links > LEAST:
        what, says = f"{name}: two links in one", spare(slides, bench.style)
        rows.append(FitRow(joint, what, "holds all", moving(slides), 2 * wire, long, slides, says))
    return tuple(rows)
