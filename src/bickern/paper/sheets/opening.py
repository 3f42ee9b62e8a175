"""What stands at the head of a sheet: title, material with what to cut, tools, and what to think of first."""

import math

from bickern.measure.finding import Weight
from bickern.measure.units.say import say_both, say_mass_both, say_up_both
from bickern.measure.units.words import Style
from bickern.paper.copy import Copy, PieceResult
from bickern.paper.sheets import wording
from bickern.paper.sheets.english import in_english
from bickern.paper.sheets.mark_words import names_on_longer_bars
from bickern.paper.sheets.markout import bars_of
from bickern.paper.sheets.setting import (
    BODY,
    CUT_THIS,
    FINE,
    NOTHING,
    SMALL,
    Part,
    Sign,
    beside,
    bullets,
    centred,
    heading,
    picture,
    row,
    stack,
    table,
    ticked,
    words,
)
from bickern.paper.sheets.tools import tools
from bickern.paper.views.standing import small
from bickern.parts.bar.result import BarResult
from bickern.parts.joint.spec import JointKind, JointResult, JointSpec
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.result import SheetResult


def title(copy: Copy, kind: str) -> Part:
    """The job's name, what it is for, and at the right how many are made and what one weighs."""
    job = copy.job
    name = words(job.title, 22, bold=True)
    lines = [words(says, BODY) for says in (job.what_for, f"Skill: {job.skill}" if job.skill else "") if says]
    made = f"{job.make} sets" if job.make > 1 else "one set"
    by = "  ".join(says for says in (job.author, job.date or copy.printed) if says)
    right = stack(
        words(kind, BODY, bold=True),
        words(f"{made}, {say_mass_both(copy.mass, copy.shop.style)} each", SMALL),
        *([words(by, SMALL)] if by else []),
        gap=2,
    )
    return beside([stack(name, *lines, gap=1), right], ["1fr", "auto"])


def the_set(copy: Copy) -> Part:
    """All pieces in small pictures; a job of one piece shows it large further down."""
    if len(copy.pieces) < 2:
        return NOTHING
    across = math.ceil(len(copy.pieces) / math.ceil(len(copy.pieces) / 6))
    room = (0.196 / across - 0.008, HIGHEST)
    shown = [_in_small(piece, room) for piece in copy.pieces]
    return stack(words("", 3), beside(shown, ["1fr"] * across, gap=6), gap=0)


HIGHEST = 0.016
"""Height of a piece among the set [m]."""


def _in_small(piece: PieceResult, room: tuple[float, float]) -> Part:
    made = piece.spec.make
    name = f"{piece.spec.name}, {made} of these" if made > 1 else piece.spec.name
    if isinstance(piece, RingResult) and piece.chain is not None:
        name = f"{name}, a chain of {piece.chain.links}"
    return centred(stack(picture(small(piece, room)), words(name, SMALL, bold=True), gap=2))


def material(copy: Copy) -> Part:
    """What every piece starts from, and in a heavy frame what to cut."""
    header = ["piece", "make", "from", "by volume / with scale", "CUT THIS, each"]
    on_bars = names_on_longer_bars(copy)
    rows = [_material_row(cut, copy.shop.style, cut.name in on_bars) for cut in wording.to_cut(copy)]
    return stack(heading("Material"), table(["auto", "auto", "1fr", "auto", "auto"], header, rows, boxed=(4,)))


def _material_row(cut_out: wording.Cut, style: Style, on_bar: bool) -> list[Part]:
    piece = cut_out.piece
    if isinstance(piece, SheetResult):
        lengths, cut = ("the blank, pattern as cut", ""), list(piece.blank_cut)
    else:
        bare = piece.stock_bare if isinstance(piece, BarResult) else piece.bare
        lengths, cut = (say_both(bare, style), wording.spread(piece.stock, style)), [piece.cut_this]
    return [
        ticked(words(cut_out.name, BODY, bold=True)),
        words(str(cut_out.count), CUT_THIS, bold=True),
        stack(words(wording.from_what(piece, style), BODY, bold=True), words(piece.spec.steel, SMALL), gap=2),
        stack(*(words(one, SMALL) for one in lengths if one), gap=2),
        _on_a_bar(cut[0], style) if on_bar else cut_this(cut, style, _blanks(piece)),
    ]


def _on_a_bar(size: float, style: Style) -> Part:
    """How much of a longer bar a piece takes that is forged on it, and is not cut before."""
    told = ("not before: forge it on a longer bar,", "cut it off when told; it takes")
    return stack(*(words(one, SMALL) for one in told), cut_this([size], style), gap=2)


def _blanks(piece: PieceResult) -> int:
    """How many blanks one piece takes."""
    return sum(pattern.make for pattern in piece.patterns) if isinstance(piece, SheetResult) else 1


def cut_this(sizes: list[float], style: Style, blanks: int = 1) -> Part:
    """The length (or width and height) to cut, large, the other system under it, and how many where not one."""
    pairs = [wording.cut_pair(size, style) for size in sizes]
    first, second = (" x ".join(pair[i] for pair in pairs) for i in (0, 1))
    size = CUT_THIS if len(sizes) == 1 else CUT_THIS - 1
    many = [words(f"{blanks} blanks", BODY, bold=True)] if blanks > 1 else []
    return stack(*many, words(first, size, bold=True), words(second, BODY), gap=2)


def joints(copy: Copy) -> Part:
    """The metal that each joint takes, with the other published rules beside it."""
    if not copy.joints:
        return NOTHING
    header = ["joint", "how many", "what", "metal, each"]
    rows = [_joint_row(*pair, copy) for pair in zip(wording.joint_names(copy), copy.joints, strict=True)]
    return stack(heading("Joints"), table(["auto", "auto", "1fr", "auto"], header, rows))


def _joint_row(name: str, joint: JointResult, copy: Copy) -> list[Part]:
    spec, style = joint.spec, copy.shop.style
    size = f", {say_both(spec.size, style)}" if spec.size and spec.kind is not JointKind.RING else ""
    metal = say_up_both(joint.metal, style) if joint.metal > 0 else "none"
    if {"grip-not-known", "girth-not-known"} & {f.name for f in joint.findings}:
        metal = f"{metal}, and what it goes through or round"
    through = " and ".join(wording.place(one) for one in spec.through)
    ring = joint.says if spec.hooked else f"closed through {through}"
    what = ring if spec.kind is JointKind.RING else f"{through}: {joint.says}{_unholed(spec, copy)}"
    return [
        ticked(words(f"{name}{size}", SMALL, bold=True)),
        words(str(spec.number * copy.job.make), SMALL),
        words(in_english(what, copy.shop.english), SMALL),
        words(metal, BODY, bold=True),
    ]


def _unholed(spec: JointSpec, copy: Copy) -> str:
    """What to do about a sheet that a rivet, pin or screw goes through and that has no hole for it."""
    if spec.kind not in (JointKind.RIVET, JointKind.PIN, JointKind.SCREW):
        return ""
    sheets = {one.spec.name: one for one in copy.pieces if isinstance(one, SheetResult)}
    bare = [one for one in spec.through if one in sheets and not any(p.holes for p in sheets[one].patterns)]
    holed = [wording.place(one) for one in spec.through if one not in bare]
    if not bare or not holed:
        return ""
    return f"; holes of {' and '.join(bare)}: mark through from {' and '.join(holed)}"


def tools_part(copy: Copy) -> Part:
    """Tools beyond fire, anvil, hammer and tape; those to be made first say so."""
    lines = []
    for tool in tools(copy):
        first = [words("First: ", SMALL, bold=True)] if tool.first else []
        lines.append(row(*first, words(in_english(tool.says, copy.shop.english), SMALL)))
    aside = "besides fire, anvil, hammer, tape"
    return stack(heading("Tools", aside), bullets(lines, 3, Sign.BOX)) if lines else NOTHING


def think_first(copy: Copy) -> Part:
    """What was found in the job that must be settled or thought of before the fire is lit."""
    lines: dict[bool, list[Part]] = {True: [], False: []}
    owners = wording.owners(copy)
    for one in wording.told(copy):
        weight, says = wording.finding(one, owners.get((one.name, one.says), ""))
        says = in_english(says, copy.shop.english)
        lines[one.weight > Weight.NOTE].append(row(words(f"{weight}: ", SMALL, bold=True), words(says, SMALL)))
    told = [bullets(lines[True], sign=Sign.BOX), bullets(lines[False], sign=Sign.DASH)]
    return stack(heading("Before you light the fire"), *told, gap=1.5) if any(lines.values()) else NOTHING


def legend(copy: Copy) -> Part:
    """What letters and directions mean, on a job with bars."""
    bars = bars_of(copy)
    if not bars:
        return NOTHING
    lines = [words(LETTERS, SMALL)]
    if any(bar.bends or bar.holes for bar in bars):
        lines.append(words(DIRECTIONS, SMALL))
    return stack(words("", 3), *lines, gap=1.5)


LETTERS = (
    "On drawings of bars: P, a dot in a ring: punch mark (found by feel after the fire); C, a stroke: chalk; "
    "S: section; B: bend. Every mark is measured from the end with the flag."
)
DIRECTIONS = (
    "Directions are told along the bar from the flag, its reference face (front) up: left and right are to its sides, "
    "up is toward the front face, down toward the back."
)
BRIEF = "P punch, C chalk, S section, B bend; all measured from the flag, front face up."


def brief_legend() -> Part:
    """The same in one line, to repeat under a bar's drawings."""
    return words(BRIEF, FINE, slanted=True)
