"""The shop sheet: all that a smith needs at the anvil, on as little paper as it will go on."""

from pathlib import PurePath

from bickern.paper.copy import Copy
from bickern.paper.pens.page import MARGIN, Paper
from bickern.paper.sheets import ending, opening
from bickern.paper.sheets.pieces import piece_block
from bickern.paper.sheets.setting import Part, document, stack
from bickern.parts.bar.result import BarResult


def shop_sheet(copy: Copy, paper: Paper) -> tuple[str, dict[str, bytes]]:
    """The source and files of the sheet for the shop."""
    body = stack(
        opening.title(copy, "Shop sheet"),
        opening.material(copy),
        opening.joints(copy),
        opening.tools_part(copy),
        opening.think_first(copy),
        *blocks(copy, paper),
        ending.notes_part(copy),
        ending.other_rules(copy),
        ending.how_sure(copy),
        ending.cautions_part(copy.cautions),
        ending.faults_part(copy),
        ending.finish_part(copy),
        ending.happened(),
        gap=0,
    )
    return document(body, paper, copy.job.title, imprint(copy))


def blocks(copy: Copy, paper: Paper) -> list[Part]:
    """A block for each piece, in the job's order, after a line that explains the letters."""
    wide = paper.width - 2 * MARGIN
    parts = [piece_block(piece, copy, wide) for piece in copy.pieces]
    bars = any(isinstance(piece, BarResult) for piece in copy.pieces)
    return [opening.legend(), *parts] if bars else parts


def imprint(copy: Copy) -> str:
    """What the foot says beside the title: the job's file, the shop, when it was printed and by which version."""
    made = f"bickern {copy.version}" if copy.version else "bickern"
    return ", ".join(says for says in (PurePath(copy.job.file).name, copy.shop.name, copy.printed, made) if says)
