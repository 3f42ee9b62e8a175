"""The shop sheet: all that a smith needs at the anvil, on as little paper as it will go on."""

from collections.abc import Sequence
from pathlib import PurePath

from bickern.paper.copy import Copy, PieceResult
from bickern.paper.pens.page import MARGIN, Paper
from bickern.paper.sheets import ending, opening
from bickern.paper.sheets.heats import heats_parts
from bickern.paper.sheets.pieces import bar_halves, facts_of, is_small, piece_block
from bickern.paper.sheets.setting import NOTHING, Part, beside, document, fill, stack, words
from bickern.paper.sheets.together import together_parts
from bickern.parts.bar.result import BarResult
from bickern.parts.sheet.result import SheetResult


def shop_sheet(copy: Copy, paper: Paper) -> tuple[str, dict[str, bytes]]:
    """The source and files of the sheet for the shop."""
    opened = (
        opening.title(copy, "Shop sheet"),
        opening.the_set(copy),
        opening.legend(copy),
        opening.material(copy),
        opening.joints(copy),
        opening.tools_part(copy),
        opening.think_first(copy),
    )
    cautions = ending.cautions_parts(copy)
    beside_it = (ending.faults_part(copy), ending.other_rules(copy), ending.how_sure(copy), *cautions)
    between = [(*together, *beside_it) for together in together_parts(copy, paper)]
    last = (ending.notes_and_finish(copy), ending.happened())
    body = stack(*opened, told_of_pieces(copy, between, last, paper), gap=0)
    return document(body, paper, copy.job.title, imprint(copy))


def blocks(copy: Copy, paper: Paper) -> tuple[list[Part], list[Part]]:
    """A block for each piece, in the job's order; under each bar stands what the letters on its drawings mean.

    Small pieces that follow one another stand two by two. The second list is the same with a bar's block cut in two:
    the stock with its marks, and the bar drawn out.
    """
    wide = paper.width - 2 * MARGIN
    whole: list[Part] = []
    cut: list[Part] = []
    for pair in _pairs(copy):
        if not isinstance(pair[0], BarResult):
            whole.append(_side_by_side(pair, copy, wide))
            cut.append(whole[-1])
            continue
        upper, lower, apart = bar_halves(pair[0], copy, wide)
        whole.append(stack(upper, _with_legend(lower)))
        cut += [upper, stack(words("", 4), _with_legend(apart), gap=0)] if lower is not NOTHING else [whole[-1]]
    return whole, cut


def _with_legend(lower: Part) -> Part:
    return stack(lower, opening.brief_legend(), gap=3)


def told_of_pieces(
    copy: Copy, between: Sequence[Sequence[Part]], last: Sequence[Part], paper: Paper, lots: bool = True
) -> Part:
    """The blocks of the pieces and the order of work (with its `lots`), what is between where it fits, what is last."""
    heats = heats_parts(copy, paper, lots)
    whole, cut = blocks(copy, paper)
    return fill([*whole, *heats], between, last, paper, [*cut, *heats])


def _side_by_side(pair: Sequence[PieceResult], copy: Copy, wide: float) -> Part:
    """One piece over the whole width, or two side by side, each as wide as its words want."""
    if len(pair) == 1:
        return piece_block(pair[0], copy, wide)
    counts = [facts_of(piece, copy) * (2 if isinstance(piece, SheetResult) else 1) for piece in pair]
    share = min(0.6, max(0.4, counts[0] / sum(counts)))
    rooms = [part * (wide - 0.004) for part in (share, 1 - share)]
    shown = [piece_block(one, copy, room) for one, room in zip(pair, rooms, strict=True)]
    return beside(shown, [f"{room * 1000:.2f}mm" for room in rooms], gap=0.004 / 0.0254 * 72)


def _pairs(copy: Copy) -> list[tuple[PieceResult, ...]]:
    """The pieces in order, two small neighbours together."""
    found: list[tuple[PieceResult, ...]] = []
    for piece in copy.pieces:
        alone = bool(found) and len(found[-1]) == 1 and is_small(found[-1][0], copy)
        if alone and is_small(piece, copy):
            found[-1] = (*found[-1], piece)
        else:
            found.append((piece,))
    return found


def imprint(copy: Copy) -> str:
    """What the foot says beside the title: the job's file, the shop, when it was printed and by which version."""
    made = f"bickern {copy.version}" if copy.version else "bickern"
    return ", ".join(says for says in (PurePath(copy.job.file).name, copy.shop.name, copy.printed, made) if says)
