"""The main question: a job file in, everything reckoned out, and every finding on the way."""

import datetime
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from pathlib import Path

from bickern import __version__
from bickern.book.files import beside, no_files, read_file
from bickern.book.job.asked import Job, Spec
from bickern.book.job.read import read_job
from bickern.book.outline.read import LARGEST as LARGEST_OUTLINE
from bickern.book.text import LARGEST
from bickern.desk.asker import shop_at
from bickern.desk.forge_fit import forge_findings
from bickern.desk.seen import AS_SHOP, Seen, as_seen
from bickern.iron.steel import density_of, families_of
from bickern.making.shop import Shop, millimetres_first
from bickern.making.work.caution import Caution
from bickern.making.work.cautions import USES, that_apply
from bickern.making.work.operations import of_job
from bickern.measure.finding import Finding, Where, note, stop
from bickern.measure.units.words import Read, System
from bickern.paper.copy import NOT_JOINED, Copy, PieceResult
from bickern.parts.bar.result import BarResult
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.fit.result import FitResult
from bickern.parts.joint.spec import JointKind, JointResult, JointSpec
from bickern.parts.ring.spec import RingResult, RingSpec
from bickern.parts.set.grip import girth_of, grip_of, place_of_pin

SCALE_UNPROVED = (
    "Scale lost in the fire is an estimate, not measured in your fire (printed trade rules run from 0.6 to 7.5 %): "
    "make one, weigh it, correct."
)
FORM_UNPROVED = "How full your corners come out: one lesson has a figure, nothing measured bears it out."
TWIST_UNPROVED = "The change of length in a twist has no figure in print that could be checked."
"""Said on the sheet and on the page: what no printed figure has confirmed."""


@dataclass(frozen=True, slots=True)
class Reckoning:
    """A job reckoned: the job and what to print (None where the file cannot be read), and all findings in order."""

    job: Job | None
    copy: Copy | None
    findings: tuple[Finding, ...]

    @property
    def stops(self) -> bool:
        """Whether something stops the work."""
        return any(f.stops for f in self.findings)


def reckon_file(path: Path, shop_path: Path | None = None) -> Reckoning:
    """Reads a job file (and the shop file it names, or the one given) and reckons it."""
    text = read_file(path, LARGEST)
    if isinstance(text, Finding):
        return Reckoning(None, None, (text,))
    return reckon_text(text, str(path), folder=path.parent, shop_path=shop_path)


def reckon_text(
    text: str | bytes,
    file: str,
    *,
    folder: Path | None = None,
    shop_path: Path | None = None,
    seen: Seen = AS_SHOP,
    each: "Each | None" = None,
) -> Reckoning:
    """Reckons a job given as text; `folder` is where the files it names may lie, `seen` how it is to be shown.

    `each` reckons one piece (None: `reckon_piece`).
    """
    fetch = beside(folder, LARGEST_OUTLINE) if folder is not None else no_files
    shop, shop_findings = shop_at(shop_path)
    job, findings = read_job(text, file, shop, fetch)
    if job is None:
        return Reckoning(None, None, (*shop_findings, *findings))
    if job.shop and shop_path is None and folder is not None:
        named = _is_shop_file(job.shop, folder)
        shop, shop_findings = shop_at(folder / job.shop) if named else (shop, (_no_shop(job),))
        job, findings = read_job(text, file, shop, fetch)
        if job is None:
            return Reckoning(None, None, (*shop_findings, *findings))
    if job.units is System.MM and shop_path is None and not job.shop:
        shop = millimetres_first(shop)
    return reckon_job(job, as_seen(shop, seen), (*shop_findings, *findings), each)


def _is_shop_file(name: str, folder: Path) -> bool:
    """A job may come from anybody: it makes nobody read what is not meant to be read as a shop file."""
    try:
        inside = (folder / name).resolve().is_relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError):
        return False
    return inside and Path(name).suffix in (".yaml", ".yml")


def _no_shop(job: Job) -> Finding:
    says = f"`{job.shop[:60]}` is not the name of a shop file beside the job"
    way = "name a file in the job's own folder that ends in .yaml (`--shop` takes one from anywhere)"
    return stop("not-a-shop-file", says, way, Where(job.file))


Each = Callable[[Spec, Shop], Read[PieceResult]]
"""What reckons one piece."""


def reckon_job(job: Job, shop: Shop, before: Iterable[Finding] = (), each: Each | None = None) -> Reckoning:
    """Reckons a job already understood."""
    reads = [(spec, (each or reckon_piece)(spec, shop)) for spec in job.pieces]
    pieces = tuple(read.value for _, read in reads if read.value is not None)
    joints = [joint_of(pieces, j, shop) for j in job.joints]
    made = tuple(read.value for read in joints if read.value is not None)
    fit = fit_of(pieces, made, shop)
    findings = (
        *before,
        *unknown_uses(job),
        *(f.at(s.where) for s, r in reads for f in r.findings),
        *(f for p in pieces for f in forge_findings(p, shop)),
        *(f for j in joints for f in j.findings),
        *fit.findings,
    )
    in_order = tuple(sorted(dict.fromkeys(findings), key=lambda f: (f.where.file, f.where.line, -f.weight)))
    copy = Copy(
        job,
        shop,
        pieces,
        made,
        cautions_for(job, pieces, made, shop),
        in_order,
        sum(mass_of(p) for p in pieces) + sum(j.mass for j in made),
        not_validated_of(pieces),
        datetime.date.today().isoformat(),
        __version__,
        fit,
    )
    return Reckoning(job, copy, in_order)


def fit_of(pieces: tuple[PieceResult, ...], joints: tuple[JointResult, ...], shop: Shop) -> FitResult:
    """Whether the joints go together, by closed forms; a job without joints or chain does not open that room."""
    if not joints and not any(isinstance(p, RingResult) and p.chain for p in pieces):
        return NOT_JOINED
    from bickern.parts.fit.fit import fit_rows

    return fit_rows({p.spec.name: p for p in pieces}, joints, shop.style, shop.drifts)


def reckon_piece(spec: Spec, shop: Shop) -> Read[PieceResult]:
    """Reckons one piece by its kind; a kind's room is opened only when a piece asks for it: a start must be quick."""
    density = density_of(spec.steel)
    if isinstance(spec, BarSpec):
        from bickern.parts.bar.reckon import reckon_bar

        return reckon_bar(spec, shop.bar, density)
    if isinstance(spec, RingSpec):
        from bickern.parts.ring.reckon import reckon_ring

        return reckon_ring(spec, shop.ring, density)
    from bickern.parts.sheet.reckon import reckon_sheet

    return reckon_sheet(spec, shop.sheet, density)


def not_validated_of(pieces: tuple[PieceResult, ...]) -> tuple[str, ...]:
    """What no print has confirmed about these very pieces."""
    bars = [p for p in pieces if isinstance(p, BarResult)]
    scale = (SCALE_UNPROVED,) if bars or any(isinstance(p, RingResult) for p in pieces) else ()
    twist = (TWIST_UNPROVED,) if any(b.twists for b in bars) else ()
    return (*scale, *((FORM_UNPROVED,) if bars else ()), *twist)


def mass_of(piece: PieceResult) -> float:
    """Mass [kg] of all copies of a piece in one set; a chain counts whole."""
    one = piece.chain.mass if isinstance(piece, RingResult) and piece.chain else piece.mass
    return one * piece.spec.make


def cautions_for(
    job: Job, pieces: tuple[PieceResult, ...], joints: tuple[JointResult, ...], shop: Shop
) -> tuple[Caution, ...]:
    """The cautions for the operations, metals and uses of this very job."""
    operations = of_job(pieces, joints, job.finish, shop)
    metals = frozenset().union(*(families_of(steel) for p in pieces for steel in steels_in(p)))
    uses = set(job.use)
    if job.hang is not None or any(j.spec.kind is JointKind.RING for j in joints):
        uses.add("load")
    return that_apply(operations, metals, frozenset(uses))


def steels_in(piece: PieceResult) -> tuple[str, ...]:
    """The metals of a piece: its own, and those of its limbs and of what is welded on."""
    limbs = piece.children if isinstance(piece, BarResult) else ()
    return (piece.spec.steel, *(steel for limb in limbs for steel in steels_in(limb)))


def unknown_uses(job: Job) -> tuple[Finding, ...]:
    """A use that no caution hangs on may be a slip of the pen, and a caution would be lost with it."""
    strange = [u for u in job.use if u not in USES]
    says = "no caution hangs on the use “{}”"
    return tuple(
        note("unknown-use", says.format(u), f"uses with cautions: {', '.join(USES)}", Where(job.file)) for u in strange
    )


def joint_of(pieces: tuple[PieceResult, ...], spec: JointSpec, shop: Shop) -> Read[JointResult]:
    """Reckons one joint from the pieces that it takes in."""
    from bickern.parts.joint.reckon import reckon_joint

    named = {p.spec.name: p for p in pieces}
    grip, girth, drawn = grip_of(spec, named), girth_of(spec, named), place_of_pin(spec, named)
    read = reckon_joint(spec, shop.joint, density_of("mild"), grip, girth, drawn)
    return Read(read.value, tuple(f.at(spec.where) for f in read.findings))
