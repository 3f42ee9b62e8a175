"""The class sheet: the shop sheet's drawings and cautions, with targets to meet and a box to be signed; no prices."""

from bickern.measure.units.say import say_both
from bickern.paper.copy import Copy, PieceResult
from bickern.paper.pens.page import Paper
from bickern.paper.sheets import ending, opening, wording
from bickern.paper.sheets.setting import BODY, SMALL, Part, document, heading, stack, table, words
from bickern.paper.sheets.sheetsizes import sheet_size
from bickern.paper.sheets.shop import imprint, told_of_pieces
from bickern.paper.sheets.together import together_parts
from bickern.parts.bar.result import BarResult
from bickern.parts.ring.spec import RingResult
from bickern.parts.sheet.spec import Bowl, FlatOutline, Pan, SeamKind


def class_sheet(copy: Copy, paper: Paper) -> tuple[str, dict[str, bytes]]:
    """The source and files of the sheet for a class."""
    opened = (
        opening.title(copy, "Class sheet"),
        opening.the_set(copy),
        opening.legend(copy),
        opening.material(copy),
        opening.joints(copy),
        opening.tools_part(copy),
        opening.think_first(copy),
    )
    beside_it = (ending.faults_part(copy), *ending.cautions_parts(copy))
    between = [(*together, *beside_it) for together in together_parts(copy, paper)]
    last = (ending.notes_and_finish(copy), targets(copy), ending.sign_off())
    body = stack(*opened, told_of_pieces(copy, between, last, paper, lots=False), gap=0)
    return document(body, paper, copy.job.title, imprint(copy))


def targets(copy: Copy) -> Part:
    """What the finished pieces must come to, with room to write what they did come to."""
    rows = [
        [words(piece.spec.name, SMALL, bold=True), words(what, SMALL), words(size, BODY, bold=True), words("")]
        for piece in copy.pieces
        for what, size in _targets(piece, copy)
    ]
    return stack(heading("Targets"), table(["auto", "auto", "1fr", "35mm"], ["piece", "size", "aim", "got"], rows))


def _targets(piece: PieceResult, copy: Copy) -> list[tuple[str, str]]:
    style = copy.shop.style
    if isinstance(piece, BarResult):
        straight = [("drawn length, still straight", say_both(piece.length, style))]
        return [*straight, ("overall", wording.overall(piece, style))]
    if isinstance(piece, RingResult):
        return [("inside across", say_both(piece.inside_across, style))]
    size = [("finished", sheet_size(piece, style))]
    if piece.spec.seam.kind is SeamKind.NONE or isinstance(piece.spec.surface, Bowl | Pan | FlatOutline):
        return size
    return [*size, ("seam gap, at most", say_both(max(piece.seam_gap, piece.spec.thick / 2), style, fit=True))]
