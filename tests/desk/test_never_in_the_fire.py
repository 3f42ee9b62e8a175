"""Jobs that try to get coated, unknown or sealed metal hot, or to bend iron where it breaks: no plan may offer it.

Each plan is read here by its own words: what is hot, what it touches, what hangs on that. Which pieces must stay cold
is told beside the job, by hand.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import pytest

from bickern.desk.reckon import reckon_text
from bickern.desk.work.heats import planned
from bickern.iron.steel import MetalClass, find_steel
from bickern.making.heats.result import Plan
from bickern.making.work.result import Work
from bickern.making.work.ways import way_of
from bickern.paper.copy import Copy

BLACK = 700.0 + 273.15
"""Below this, and above what a hand bears, no steel is bent [K] (common practice)."""
BENT = ("bend", "curl", "hoop", "scroll", "twist", "wind", "roll sheet", "fold")
HEAD = "job: Trial\nunits: in\n"
FINISH = "finish: Wire brush at red, beeswax at black heat\n"
PAN = "sheet: 1/16\n    surface: {pan: {long: 5, wide: 4, high: 1/2, inside radius: 1/8, sizes: outside}}"
HOOD = (
    "sheet: 20 ga\n    surface: {cone: {base: 8, top: 1 1/2, height: 4, sizes: mean}}\n"
    "    lugs: [{eye: 1/4, width: 5/16, on: top, divide: 2, name: lugs}]"
)
FOOT = (
    "bar: 2 x 1/4\n    metal: [{keep: 14, name: foot}]\n"
    "    holes: [{size: 1/2, by: punch, at: 7, face: front, name: hole}]"
)
STRAP = (
    "bar: 2 x 1/4\n    metal: [{keep: 14, name: strap}]\n"
    "    holes: [{size: 3/4, by: drill, at: 7, face: front, name: hole}]"
)
POST = "bar: 1/2 sq\n    metal: [{keep: 12, name: post}, {to: 3/8 rd, over: 1/4}, {keep: 7/8, name: tenon}]"
STRAIGHT = "bar: 1/2 sq\n    metal: [{keep: 14, name: stem}]"
BRANCH = (
    "bar: 1/2 sq\n    metal: [{{keep: 14, name: stem}}]\n"
    "    weld on: {{leg: {{bar: 1/4 sq, at: middle of stem, metal: [{{keep: 4}}], coating: {}}}}}"
)
HOOK = (
    "bar: 3/8 rd\n    metal: [{keep: 14, name: stem}]\n"
    "    path: [{straight: 5}, {bend: 180, inside radius: 1, turn: up, name: hook}, {straight: rest}]"
)
RING = "ring: 3/8 rd\n    inside across: 2\n    closed: welded"
THIN_RING = RING.replace("3/8", "3/16")
STIFF = "ring: 3/8 rd\n    inside across: 2\n    closed: butted"
CHAIN = "ring: 1/4 rd\n    inside across: 3/4\n    inside long: 1 1/2\n    closed: welded\n    chain: {links: 5}"


@dataclass(frozen=True)
class Hostile:
    """A job, which of its pieces must stay cold, and what must be said of it."""

    name: str
    pieces: dict[str, str]
    cold: tuple[str, ...]
    joins: str = ""
    says: str = ""

    @property
    def text(self) -> str:
        body = "".join(f"  {name}:\n    {lines}\n" for name, lines in self.pieces.items())
        return f"{HEAD}{FINISH}pieces:\n{body}" + (f"joins: [{self.joins}]\n" if self.joins else "")


def coated(lines: str, said: str = "bluish") -> str:
    return f"{lines}\n    coating: {said}"


JOBS = (
    *(
        Hostile(f"bar {said}", {"it": coated(HOOK, said)}, ("it",))
        for said in ("galvanised", "Zinc-plated", "hot dip", "bluish", "unknown", "not bare", "chromed", "old paint")
    ),
    *(
        Hostile(f"ring {said}", {"it": coated(RING, said)}, ("it",))
        for said in ("zinc plated", "cadmium", "coppered", "greenish")
    ),
    Hostile("chain plated", {"it": coated(CHAIN, "zinc plated")}, ("it",)),
    Hostile("chain unknown", {"it": coated(CHAIN)}, ("it",), says="piece-kept-cold"),
    Hostile("brazed galvanised", {"it": coated(
        "sheet: 1/16\n    surface: {cylinder: {across: 6, height: 4, sizes: mean}}\n    seam: {brazed lap: 1/4}",
        "galvanised")}, ("it",), says="coated-and-hot"),
    Hostile("brazed unknown", {"it": coated(
        "sheet: 1/16\n    surface: {cylinder: {across: 6, height: 4, sizes: mean}}\n    seam: {brazed lap: 1/4}")},
        ("it",), says="piece-kept-cold"),
    Hostile("hot dish galvanised", {"it": coated(
        "sheet: 1/8\n    surface: {bowl: {rim: 4, depth: 1 3/4, sizes: mean}}", "galvanised")},
        ("it",), says="piece-kept-cold"),
    Hostile("cold dish galvanised", {"it": coated(
        "sheet: 20 ga\n    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}", "galvanised")}, ("it",)),
    Hostile("thick lugs painted", {"it": coated(
        "sheet: 1/8\n    surface: {cone: {base: 18, top: 12, height: 6, sizes: mean}}\n"
        "    lugs: [{eye: 1/4, width: 1, on: top, divide: 2, name: lugs}]", "painted")},
        ("it",), says="piece-kept-cold"),
    Hostile("hearth sheet galvanised", {"it": coated(f"{PAN}\n    hot: yes", "galvanised")}, ("it",)),
    Hostile("offered sheet", {"it": f"{PAN}\n    hot: yes\n    cut from: [{{size: 10 x 10, coating: galvanised}}]"},
            ("it",), says="coated-and-hot"),
    Hostile("tube sealed", {"it": coated(
        "bar: 1 x 1/16 tube\n    metal: [{keep: 19}]\n"
        "    path: [{straight: 5}, {bend: 90, inside radius: 3, turn: up}, {straight: rest}]", "sealed")}, ("it",)),
    Hostile("tube forged shut at both ends", {"it":
        "bar: 1 x 1/16 tube\n    metal: [{from: 1/4 rd, to: 1 x 1/16 tube, over: 2, name: a}, {keep: 29}, "
        "{to: 1/4 rd, over: 2, name: b}]"}, ("it",), says="piece-kept-cold"),
    Hostile("tube welded to a hoop", {"it":
        "bar: 1/2 x 1/16 tube\n    closed: welded\n    metal: [{keep: rest}]\n"
        "    path: [{hoop: {inside across: 12}}]"}, ("it",),
        says="piece-kept-cold"),
    Hostile("branch unknown", {"it": BRANCH.format("bluish")}, ("it",), says="piece-kept-cold"),
    Hostile("branch galvanised", {"it": BRANCH.format("galv")}, ("it",)),
    Hostile("hot rivet through galvanised", {"tray": coated(PAN, "galvanised"), "foot": FOOT}, ("tray",),
            "{rivet: 1/2, through: [foot.hole, tray]}", "joint-kept-cold"),
    Hostile("ring welded in an unknown strap", {"strap": coated(STRAP), "ring": RING}, ("strap",),
            "{ring: ring, through: [strap.hole]}", "joint-kept-cold"),
    Hostile("ring closed hot in an unknown strap", {"strap": coated(STRAP), "ring": STIFF}, ("strap",),
            "{ring: ring, through: [strap.hole]}"),
    Hostile("ring welded in a galvanised strap", {"strap": coated(STRAP, "galvanised"), "ring": RING},
            ("strap", "ring"), "{ring: ring, through: [strap.hole]}"),
    Hostile("ring welded in a galvanised hood", {"hood": coated(HOOD, "galvanised"), "ring": THIN_RING}, ("hood",),
            "{ring: ring, through: [hood.lugs 1]}", "joint-kept-cold"),
    Hostile("ring on a ring that holds a galvanised hood",
            {"hood": coated(HOOD, "galvanised"), "small": "ring: 1/8 rd\n    inside across: 4\n    closed: butted",
             "ring": RING}, ("hood",),
            "{ring: small, through: [hood.lugs 1]}, {ring: ring, through: [small]}", "joint-kept-cold"),
    Hostile("tenon into unknown", {"post": POST, "foot": coated(FOOT.replace("1/2, by: punch", "3/8, by: drill"))},
            ("foot",), "{tenon: 3/8, through: [post.tenon, foot.hole]}", "joint-kept-cold"),
    Hostile("tenon of unknown", {"post": coated(POST), "foot": FOOT.replace("1/2, by", "3/8, by")}, ("post",),
            "{tenon: 3/8, through: [post.tenon, foot.hole]}", "piece-kept-cold"),
    Hostile("collar, wrap and weld on unknown", {"a": coated(STRAIGHT), "b": STRAIGHT}, ("a",),
            "{collar: 1/8 x 1/2, round: [a, b]}, {wrap: 1/8 rd, round: [a, b], turns: 3}, {weld: [a.stem, b.stem]}",
            "joint-kept-cold"),
    Hostile("chain in an unknown ring", {"links": CHAIN, "big": coated(STIFF)}, ("big",),
            "{ring: big, through: [links 1]}", "piece-kept-cold"),
    Hostile("clean and coated in one set", {"hook": HOOK, "tray": coated(PAN, "galvanised")}, ("tray",)),
)  # fmt: skip


def plan_of(job: Hostile) -> tuple[Copy | None, Plan | None, set[str]]:
    done = planned(reckon_text(job.text, "trial.yaml"))
    assert not [f for f in done.findings if f.name in ("unknown-word", "missing", "unknown-place", "not-a-choice")]
    copy = done.copy
    return copy, copy.plan if copy is not None else None, {f.name for f in done.findings}


def steps(plan: Plan) -> Iterator[tuple[Work, bool]]:
    """Every work in order, and whether it is done in a heat."""
    spells = [s for p in plan.pieces for s in p.spells]
    for spell in (*spells, *plan.joining, *plan.finish):
        yield from ((work, spell.hot) for work in spell.works)


def touched(copy: Copy) -> dict[str, set[str]]:
    """What each piece is joined to, one step away."""
    beside: dict[str, set[str]] = {}
    for joint in copy.job.joints:
        names = {place.split(".")[0].rstrip("0123456789 ") for place in (*joint.through, joint.ring) if place}
        for name in names:
            beside.setdefault(name, set()).update(names - {name})
    return beside


@pytest.mark.parametrize("job", JOBS, ids=lambda j: j.name)
def test_no_step_heats_what_must_stay_cold(job: Hostile):
    copy, plan, found = plan_of(job)
    assert not job.says or job.says in found
    assert found, "such a job is never passed over in silence"
    if plan is None:  # nothing is offered at all
        return
    for work, hot in steps(plan):
        if hot or work.hot or work.does == "braze":
            assert not {work.piece, *work.with_pieces} & set(job.cold), work.key
        if not hot:
            assert not work.hot, work.key
        if work.does == "wax or oil":
            bare = not ({work.piece} | {p.spec.name for p in copy.pieces}) & set(job.cold)
            assert bare or "must not be warmed" in way_of(work).how


@pytest.mark.parametrize("job", [j for j in JOBS if j.joins], ids=lambda j: j.name)
def test_nothing_is_closed_hot_in_what_must_stay_cold(job: Hostile):
    """A ring that is threaded and then welded has what it holds beside it in the fire."""
    copy, plan, _ = plan_of(job)
    if plan is None:
        return
    beside = touched(copy)
    for spell in plan.joining:
        for work in spell.works:
            if spell.hot and work.does in ("weld", "close ring", "brush"):
                near = beside.get(work.piece, set())
                near = near.union(*(beside.get(name, set()) for name in near))
                assert not near & set(job.cold), work.key


@pytest.mark.parametrize("job", JOBS, ids=lambda j: j.name)
def test_a_piece_kept_cold_says_why_and_is_made_no_further_than_it_can_be(job: Hostile):
    _, plan, found = plan_of(job)
    for one in plan.pieces if plan is not None else ():
        assert bool(one.refused) is (one.piece in job.cold)
        if one.refused:
            assert one.heats.value == 0
            done = [w.does for s in one.spells for w in s.works]
            assert "piece-kept-cold" not in found or not set(done) & {"scarf", "dish", "close ring", "file", "braze"}


@pytest.mark.parametrize("job", [j for j in JOBS if j.joins], ids=lambda j: j.name)
def test_nothing_is_joined_to_a_piece_that_is_not_made(job: Hostile):
    _, plan, found = plan_of(job)
    if plan is not None and "piece-kept-cold" in found:
        named = {name for s in plan.joining for w in s.works for name in (w.piece, *w.with_pieces)}
        assert not named & set(job.cold)


def test_a_vented_tube_has_its_hole_before_its_first_heat():
    text = f"""{HEAD}pieces:
  it:
    bar: 1 x 1/16 tube
    metal:
      - {{from: 1/4 rd, to: 1 x 1/16 tube, over: 2, name: a}}
      - {{keep: 29, name: hollow}}
      - {{to: 1/4 rd, over: 2, name: b}}
    holes: [{{size: 1/8, by: drill, at: middle of hollow, face: front, name: vent}}]
"""
    copy = planned(reckon_text(text, "trial.yaml")).copy
    assert copy is not None
    assert copy.plan is not None
    (one,) = copy.plan.pieces
    assert not one.refused
    done = [(w.does, s.hot) for s in one.spells for w in s.works]
    assert done.index(("drill", False)) < min(i for i, (_, hot) in enumerate(done) if hot)


@pytest.mark.parametrize("steel", ["mild", "5160", "O1", "304", "W1", "12L14", "A36", "copper", "brass"])
@pytest.mark.parametrize(
    ("lines", "piece"),
    [
        ("bar: 1/4 rd\n    metal: [{keep: 14, name: stem}]\n    path: [{straight: 5}, {bend: 90, inside radius: 3, "
         "turn: up, name: hook}, {straight: rest}]", "wide"),
        ("bar: 1/4 rd\n    metal: [{keep: 14, name: stem}]\n    path: [{straight: 5}, {bend: 90, inside radius: 1/4, "
         "turn: up, name: hook}, {straight: rest}]", "tight"),
        ("bar: 1/2 sq\n    metal: [{keep: 24, name: stem}]\n    path: [{straight: 5}, {bend: 90, inside radius: 9, "
         "turn: up, name: hook}, {straight: rest}]", "thick"),
        ("bar: 1/4 rd\n    metal: [{keep: 14, name: stem}]\n    path: [{eye: 1, turn: left}, {straight: rest}]", "eye"),
        ("bar: 1/2 sq\n    metal: [{keep: 14, name: stem}]\n    twist: [{turns: 1, over: 4, at: 3}]", "twist"),
        ("ring: 1/8 rd\n    inside across: 6\n    closed: butted", "wide ring"),
        ("ring: 1/4 rd\n    inside across: 1\n    closed: butted", "tight ring"),
    ],
    ids=lambda x: x if len(x) < 12 else "",
)  # fmt: skip
def test_a_cold_bend_is_within_the_shops_limit_and_nothing_is_bent_at_black_heat(steel: str, lines: str, piece: str):
    copy = planned(reckon_text(f"{HEAD}pieces:\n  it:\n    {lines}\n    steel: {steel}\n", "trial.yaml")).copy
    assert copy is not None
    assert copy.plan is not None
    metal = find_steel(steel).value
    assert metal is not None
    bends = [(work, hot) for work, hot in steps(copy.plan) if work.does in BENT]
    assert bends
    for work, hot in bends:
        if hot:
            assert work.stop >= BLACK or metal.family is MetalClass.COPPER
        else:
            assert _strain(work, copy) <= copy.shop.ring.cold_limit + 1e-9
            assert metal.family not in (MetalClass.TOOL, MetalClass.SPRING)
    assert piece not in ("tight", "twist", "tight ring") or all(hot for _, hot in bends)


def _strain(work: Work, copy: Copy) -> float:
    """Strain of the skin of a bend: half the thickness over the radius of the middle."""
    (one,) = copy.pieces
    thick = work.before.thick if work.before is not None else one.spec.wire.thick
    return thick / (2 * work.radius + thick)
