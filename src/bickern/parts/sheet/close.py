"""The pattern rolled up again: whether its seams close."""

from dataclasses import replace

from bickern.geometry.develop.pattern import Development, Seam, seam_gap
from bickern.geometry.polygon import Line, Loop, seg_end, seg_start
from bickern.parts.sheet.net import Net


def closing_gap(developments: tuple[Development, ...], nets: tuple[Net, ...], outlines: tuple[Loop, ...]) -> float:
    """Greatest distance [m] between the seam edges once the printed outlines are rolled up in order.

    The seam edges are read back off the outlines that are printed; only how the surface is bent comes from elsewhere.
    """
    printed = [
        replace(development, seams=(_seam(net, outline),))
        for development, net, outline in zip(developments, nets, outlines, strict=True)
    ]
    return seam_gap(*printed)


def _seam(net: Net, outline: Loop) -> Seam:
    """Both seam edges of a printed net, upward: the segment behind the bottom's, and the last one."""
    last, first = outline.segs[len(net.bottom)], outline.segs[-1]
    return Seam(Line(seg_end(first), seg_start(first)), Line(seg_start(last), seg_end(last)))
