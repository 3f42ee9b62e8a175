"""A job written out again as a job file: what is read back is the same job."""

import json
import re
from dataclasses import fields, is_dataclass, replace
from typing import Any

from bickern.book.job.asked import Job, Spec
from bickern.book.job.print_bar import bar_words
from bickern.book.job.print_sheet import sheet_words
from bickern.book.job.say import length_text, section_text
from bickern.measure.finding import NOWHERE, Where
from bickern.measure.units.words import System
from bickern.parts.bar.tracks import BarSpec
from bickern.parts.joint.spec import JointKind, JointSpec
from bickern.parts.ring.spec import Closing, RingSpec

Words = dict[str, Any]
"""Words and what stands behind them: text, lists, or words again."""

_PLAIN = re.compile(r"[A-Za-z0-9]([A-Za-z0-9 ./'\"+%-]*[A-Za-z0-9.'\"%])?")


def print_job(job: Job) -> str:
    """The job as text. An outline that holds arcs is written as points along them, to 0.02 mm."""
    lines = [line for word, value in _head(job).items() for line in _written(word, value, 0)]
    lines += ["pieces:"]
    for spec in job.pieces:
        lines += _written(spec.name, _piece(spec, job.units), 1)
    if job.joints:
        lines += _written("joins", [_join(j, job.units) for j in job.joints], 0)
    if job.hang is not None:
        lines += _written("hang", _told({"from": job.hang.place, "on": job.hang.on}), 0)
    return "\n".join(lines) + "\n"


def without_places(job: Job) -> Job:
    """The same job with every place in a file taken off: what two jobs are compared by."""
    bare = _bare(job)
    return bare if isinstance(bare, Job) else job


def _bare(value: object) -> object:
    if isinstance(value, tuple):
        return tuple(_bare(v) for v in value)
    if isinstance(value, Where):
        return NOWHERE
    if not is_dataclass(value) or isinstance(value, type):
        return value
    return replace(value, **{f.name: _bare(getattr(value, f.name)) for f in fields(value)})


def _head(job: Job) -> Words:
    return _told({
        "job": job.title, "units": str(job.units or ""), "make": _many(job.make), "use": list(job.use),
        "finish": job.finish, "what for": job.what_for, "skill": job.skill, "author": job.author, "date": job.date,
        "notes": list(job.notes), "shop": job.shop,
    })  # fmt: skip


def _many(count: int) -> str:
    return "" if count == 1 else str(count)


def _told(words: Words) -> Words:
    """Only the words that say something."""
    return {w: v for w, v in words.items() if v not in ("", [], {}, None)}


def _piece(spec: Spec, system: System | None) -> Words:
    if isinstance(spec, BarSpec):
        return _told(bar_words(spec, system))
    return _told(_ring(spec, system) if isinstance(spec, RingSpec) else sheet_words(spec, system))


def _ring(spec: RingSpec, system: System | None) -> Words:
    def size(metres: float | None) -> str:
        return "" if metres is None else length_text(metres, system)

    chain = spec.chain
    return {
        "ring": section_text(spec.wire, system), "steel": spec.steel, "coating": spec.coating,
        "inside across": size(spec.inside_across), "mean across": size(spec.mean_across),
        "outside across": size(spec.outside_across), "inside long": size(spec.inside_long),
        "closed": "" if spec.closing is Closing.BUTTED else str(spec.closing),
        "chain": _told({"links": str(chain.links or ""), "length": size(chain.length)}) if chain else "",
        "wound": (f"on {length_text(spec.mandrel, system)}" if spec.mandrel else "yes") if spec.wound else "",
        "make": _many(spec.make),
    }  # fmt: skip


def _join(joint: JointSpec, system: System | None) -> Words:
    kind, places = joint.kind, list(joint.through)
    grip = "" if joint.grip is None else length_text(joint.grip, system)
    if kind is JointKind.WELD:
        return _told({"weld": places, "number": _many(joint.number), "grip": grip})
    if joint.hooked:
        return _told({"hook": joint.ring, "on": places, "number": _many(joint.number), "grip": grip})
    round_it = kind in (JointKind.COLLAR, JointKind.WRAP)
    of = joint.ring if kind is JointKind.RING else _join_size(joint, system)
    count = "turns" if kind is JointKind.WRAP else "number"
    return _told({str(kind): of, "round" if round_it else "through": places, count: str(joint.number), "grip": grip})


def _join_size(joint: JointSpec, system: System | None) -> str:
    if joint.section is not None:
        return section_text(joint.section, system)
    # a bare number behind `screw` is a screw's number, so its size always carries a unit
    return length_text(joint.size, None if joint.kind is JointKind.SCREW else system)


def _written(word: str, value: Any, depth: int) -> list[str]:
    """Lines for one word; groups inside lists stand on one line in braces."""
    pad = "  " * depth
    if isinstance(value, dict) and depth < 2:
        return [f"{pad}{quoted(word)}:", *(line for w, v in value.items() for line in _written(w, v, depth + 1))]
    if isinstance(value, list) and any(isinstance(v, dict) for v in value):
        return [f"{pad}{quoted(word)}:", *(f"{pad}  - {flow(v)}" for v in value)]
    return [f"{pad}{quoted(word)}: {flow(value)}"]


def flow(value: Any) -> str:
    """A value on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{quoted(w)}: {flow(v)}" for w, v in value.items() if v not in ("", [], {}, None)) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(flow(v) for v in value) + "]"
    return quoted(str(value))


def quoted(text: str) -> str:
    """A text as YAML reads it back: plain where that is safe, else in double quotes."""
    if _PLAIN.fullmatch(text) or text in ("?", "rest") or re.fullmatch(r"-[0-9][0-9 ./a-z]*", text):
        return text
    if re.fullmatch(r"\? [a-z ]+|\? x [0-9 ./a-z]+|[0-9 ./a-z]+ x \?", text):
        return text
    return json.dumps(text, ensure_ascii=False).replace("\x85", "\\u0085").replace("\ufeff", "\\ufeff")
