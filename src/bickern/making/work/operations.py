"""Which operations a piece calls for, read off what was reckoned: the keys that cautions and faults hang on."""

from bickern.iron.section import Section, area
from bickern.measure.units.words import Shape
from bickern.parts.bar.result import BarResult, MetalRun
from bickern.parts.bar.tracks import BendLeg, Corner, HoleBy, ScrollLeg
from bickern.parts.joint.holes import HOT_RIVET_FROM
from bickern.parts.joint.spec import JointKind, JointResult
from bickern.parts.ring.spec import Closing, RingResult
from bickern.parts.sheet.result import SheetResult
from bickern.parts.sheet.spec import Bowl, Cone, Cylinder, EdgeKind, Pan, Pyramid, SeamKind, Transition

HOT = frozenset(
    {
        "taper",
        "draw",
        "upset",
        "spread",
        "punch",
        "slit",
        "bend",
        "scroll",
        "twist",
        "split",
        "weld",
        "dish",
        "rivet hot",
    }
)
"""Operations that need a fire; each brings the key "heat" with it."""
_SAME = 1e-6
"""Share by which two sizes may differ and still be one."""


def of_finish(finish: str) -> frozenset[str]:
    """Operations that a finish calls for, read off its words."""
    said = finish.lower()
    keys = {"wax or oil"} if any(word in said for word in ("wax", "oil", "linseed")) else set()
    return frozenset(keys | ({"galvanise after"} if "galvani" in said else set()))


def of_bar(result: BarResult) -> frozenset[str]:
    """Operations of a bar, its split ends and its branches."""
    keys = {"cut bar"} | {k for run in result.runs for k in _of_run(run, result.stock_section)}
    keys |= {"bend"} if result.bends else set()
    keys |= {"scroll"} if any(isinstance(leg, ScrollLeg) for leg in result.spec.path) else set()
    keys |= (
        {"upset"} if any(isinstance(leg, BendLeg) and leg.corner is Corner.UPSET for leg in result.spec.path) else set()
    )
    keys |= {"twist"} if result.twists else set()
    keys |= {k for check in result.holes for k in _OF_HOLE[check.hole.by]}
    keys |= {"weld"} if result.weld > 0 else set()
    keys |= {"shut hollow"} if any(Shape.TUBE in (run.a.shape, run.b.shape) for run in result.runs) else set()
    for branch, child in zip(result.spec.branches, result.children, strict=False):
        keys |= of_bar(child) | ({"weld"} if branch.at is not None else {"split"})
    return _with_heat(keys)


def of_ring(result: RingResult) -> frozenset[str]:
    """Operations of a ring, a coil or a chain."""
    keys = {"cut bar", "bend"}
    keys |= {"weld"} if result.spec.closing is Closing.WELDED else {"close ring"}
    keys |= {"chain"} if result.chain else set()
    return _with_heat(keys)


def of_sheet(result: SheetResult) -> frozenset[str]:
    """Operations of a sheet piece."""
    spec = result.spec
    keys = {"cut sheet"} | _OF_SURFACE.get(type(spec.surface), set())
    keys |= _OF_SEAM[spec.seam.kind]
    keys |= {"hem"} if any(e.kind is not EdgeKind.RAW for e in spec.edges) else set()
    keys |= {"drill"} if spec.holes else set()
    keys |= {"stands in heat"} if spec.hot else set()
    return _with_heat(keys)


def of_joint(result: JointResult) -> frozenset[str]:
    """Operations of a joint; a thick rivet is driven hot, an open hook is only hung on."""
    spec = result.spec
    if spec.hooked:
        return frozenset()
    hot = {"rivet hot"} if spec.kind is JointKind.RIVET and spec.size >= HOT_RIVET_FROM else set()
    return _with_heat(_OF_JOINT[spec.kind] | hot)


def of_any(result: BarResult | RingResult | SheetResult) -> frozenset[str]:
    """Operations of any piece."""
    if isinstance(result, BarResult):
        return of_bar(result)
    return of_ring(result) if isinstance(result, RingResult) else of_sheet(result)


_OF_HOLE = {HoleBy.DRILL: {"drill"}, HoleBy.PUNCH: {"punch"}, HoleBy.SLIT: {"slit", "drift"}}

_OF_SURFACE: dict[type, set[str]] = {
    Cone: {"roll sheet"},
    Cylinder: {"roll sheet"},
    Transition: {"roll sheet", "fold"},
    Pyramid: {"fold"},
    Pan: {"fold"},
    Bowl: {"dish"},
}

_OF_SEAM: dict[SeamKind, set[str]] = {
    SeamKind.NONE: set(),
    SeamKind.BUTT: set(),
    SeamKind.LAP: set(),
    SeamKind.RIVETED: {"rivet", "drill"},
    SeamKind.BRAZED: {"braze", "heat"},
    SeamKind.GROOVED: {"hem"},
}

_OF_JOINT: dict[JointKind, set[str]] = {
    JointKind.RING: {"close ring"},
    JointKind.RIVET: {"rivet"},
    JointKind.COLLAR: {"collar", "heat"},
    JointKind.TENON: {"rivet", "draw"},
    JointKind.WRAP: {"bend"},
    JointKind.WELD: {"weld"},
    JointKind.PIN: set(),
    JointKind.SCREW: {"drill"},
}


def _of_run(run: MetalRun, stock: Section) -> set[str]:
    """Operations of a stretch of metal, and what becomes of the bar it started as."""
    if run.outline is not None:
        return {"spread"}
    if run.kept:
        return set()
    keys = {"taper"} if _tapers(run) else {"draw"}
    if max(area(run.a), area(run.b)) > area(stock) * (1 + _SAME):
        keys |= {"upset"}
    if max(run.a.width, run.b.width) > max(stock.width, stock.thick) * (1 + _SAME):
        keys |= {"spread"}
    return keys


def _tapers(run: MetalRun) -> bool:
    sizes = ((end.width, end.thick) for end in (run.a, run.b))
    return Shape.POINT in {run.a.shape, run.b.shape} or len(set(sizes)) > 1


def _with_heat(keys: set[str]) -> frozenset[str]:
    return frozenset(keys | ({"heat"} if keys & HOT else set()))
