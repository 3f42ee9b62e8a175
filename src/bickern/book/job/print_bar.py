"""A bar piece written out as words."""

from typing import Any

from bickern.book.job.say import (
    amount_text,
    angle_text,
    goal_text,
    length_text,
    number_text,
    place_text,
    section_text,
    turn_text,
)
from bickern.measure.units.words import System
from bickern.parts.bar.tracks import (
    BarSpec,
    BendLeg,
    Blank,
    Branch,
    Corner,
    EndShape,
    EyeLeg,
    Hole,
    HoopLeg,
    Metal,
    PathLeg,
    ScrollLeg,
    StraightLeg,
    Twist,
)

Words = dict[str, Any]


def bar_words(spec: BarSpec, system: System | None) -> Words:
    """All words of a bar."""
    return {
        "bar": "any" if spec.stock is None else section_text(spec.stock, system),
        "steel": spec.steel, "coating": spec.coating,
        "stock length": "" if spec.stock_length is Blank.OPEN else amount_text(spec.stock_length, system),
        "grip": length_text(spec.grip, system) if spec.grip else "",
        "closed": ("welded" if spec.welded else "butted") if spec.closed else "",
        "make": "" if spec.make == 1 else str(spec.make),
        **_tracks(spec, system),
        "overall": [{str(g.axis): length_text(g.size, system), "by": g.by} for g in spec.overall],
    }  # fmt: skip


def _tracks(spec: BarSpec, system: System | None) -> Words:
    return {
        "hand": "" if spec.hand == "right" else spec.hand,
        "metal": [_metal(m, system) for m in spec.metal],
        "path": [_leg(p, system) for p in spec.path],
        "twist": [_twist(t, system) for t in spec.twists],
        "holes": [_hole(h, system) for h in spec.holes],
        "split": {b.name: _tracks(b.bar, system) for b in spec.branches if b.at is None},
        "weld on": {b.name: _branch(b, system) for b in spec.branches if b.at is not None},
    }


def _branch(branch: Branch, system: System | None) -> Words:
    bar, at = branch.bar, branch.at
    return {
        "at": place_text(at, system) if at is not None else "",
        "bar": section_text(bar.stock, system) if bar.stock is not None else "",
        "steel": bar.steel, "coating": bar.coating, **_tracks(bar, system),
    }  # fmt: skip


def _metal(entry: Metal, system: System | None) -> Words:
    told = entry.start is not None or entry.end is not None
    word = str(entry.outline.shape) if entry.outline else "over" if told else "keep"
    offset = [length_text(v, system) for v in entry.offset] if entry.offset != (0.0, 0.0) else ""
    return {
        "from": goal_text(entry.start, system) if entry.start and entry.end else "",
        "to": goal_text(entry.end, system) if entry.end else "",
        "as": goal_text(entry.start, system) if entry.start and not entry.end else "",
        word: amount_text(entry.length, system),
        **(_outline(entry, system) if entry.outline else {}),
        "shoulder": length_text(entry.shoulder, system) if entry.shoulder else "",
        "flush": str(entry.flush) if entry.flush else "", "offset": offset,
        "roll": angle_text(entry.roll) if entry.roll else "", "name": entry.name,
    }  # fmt: skip


def _outline(entry: Metal, system: System | None) -> Words:
    if entry.outline is None:
        return {}
    widths = [[number_text(a), number_text(b)] for a, b in entry.outline.profile]
    return {
        "width": length_text(entry.outline.width, system), "thick": length_text(entry.outline.thick, system),
        "widths": widths if entry.outline.shape is EndShape.FREE else "",
    }  # fmt: skip


def _leg(leg: PathLeg, system: System | None) -> Words:
    if isinstance(leg, StraightLeg):
        return {"straight": amount_text(leg.length, system), "to corners": leg.to_corners, "name": leg.name}
    if isinstance(leg, BendLeg):
        return _bend(leg, system)
    if isinstance(leg, EyeLeg):
        return {
            "eye": length_text(leg.inside_across, system), "centred": "" if leg.centred else "no",
            "welded": "yes" if leg.welded else "", "turn": _turn(leg), "name": leg.name,
        }  # fmt: skip
    inner = _scroll(leg, system) if isinstance(leg, ScrollLeg) else _hoop(leg, system)
    way = str(leg.way) if isinstance(leg, HoopLeg) and leg.way else ""
    return {
        ("scroll" if isinstance(leg, ScrollLeg) else "hoop"): inner,
        "turn": _turn(leg),
        "way": way,
        "name": leg.name,
    }


def _turn(leg: BendLeg | EyeLeg | ScrollLeg | HoopLeg) -> str:
    """Which way it turns, where that was told."""
    return turn_text(leg.turn) if leg.aside is None else ""


def _bend(leg: BendLeg, system: System | None) -> Words:
    return {
        ("corner" if leg.corner else "bend"): angle_text(leg.angle),
        "inside radius": length_text(leg.inside_radius, system) if leg.inside_radius else "",
        "forged": "upset" if leg.corner is Corner.UPSET else "",
        "turn": _turn(leg), "way": str(leg.way) if leg.way else "", "name": leg.name,
    }  # fmt: skip


def _scroll(leg: ScrollLeg, system: System | None) -> Words:
    def size(metres: float | None) -> str:
        return "" if metres is None else length_text(metres, system)

    return {
        "turns": "" if leg.turns is None else number_text(leg.turns),
        "inside radius": size(leg.inside_radius), "outside radius": size(leg.outside_radius),
        "length": "" if leg.length is None else amount_text(leg.length, system),
        "kind": "equiangular" if leg.equiangular else "", "starts": "" if leg.from_centre else "outside",
    }  # fmt: skip


def _hoop(leg: HoopLeg, system: System | None) -> Words:
    sizes = {"inside across": leg.inside_across, "mean across": leg.mean_across, "outside across": leg.outside_across}
    return {word: length_text(size, system) for word, size in sizes.items() if size is not None}


def _twist(twist: Twist, system: System | None) -> Words:
    hand = "left" if twist.turns < 0 else ""
    if twist.over is None:
        where = {"all of": twist.at.name}
    else:
        where = {"over": length_text(twist.over, system), "at": place_text(twist.at, system)}
    return {"turns": number_text(abs(twist.turns)), **where, "hand": hand, "name": twist.name}


def _hole(hole: Hole, system: System | None) -> Words:
    several: Words = {"number": "" if hole.number == 1 else str(hole.number)}
    if hole.spacing is not None:
        several["spacing"] = length_text(hole.spacing, system)
    elif hole.number > 1:
        several = {"divide": str(hole.number)}
    return {
        "size": length_text(hole.size, system), "long": "" if hole.long is None else length_text(hole.long, system),
        "by": str(hole.by), "at": place_text(hole.at, system), "face": str(hole.face), **several,
        "first": first_text(hole.first) if "divide" in several else "", "name": hole.name,
    }  # fmt: skip


def first_text(first: float) -> str:
    """How many spaces the first stands off; half a space is the usual and is not written."""
    return "" if first == 0.5 else "at the joint" if first == 0 else number_text(first)
