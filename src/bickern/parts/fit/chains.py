"""A chain's links in one another: every joint of it that nobody writes down."""

from collections.abc import Sequence

from bickern.measure.finding import Finding, stop
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


def which_link(joints: Sequence[JointSpec], pieces: Pieces) -> tuple[Finding, ...]:
    """A chain that is named as a whole where one of its links is meant."""
    rings = [j for j in joints if j.kind is JointKind.RING]
    said = [(j, pieces.get(name)) for j in rings for name in (j.ring, *j.through)]
    return tuple(_which(j, p) for j, p in said if isinstance(p, RingResult) and p.chain is not None)


def _which(joint: JointSpec, ring: RingResult) -> Finding:
    name, links = ring.spec.name, ring.chain.links if ring.chain else 0
    says = f"`{name}` is a chain of {links} links: which of them the ring joint means is not said"
    return stop("which-link", says, f"name one link, as `{name} 1` or `{name} {links}`", joint.where)


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
