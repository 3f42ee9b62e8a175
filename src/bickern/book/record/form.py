"""A record as text that is kept, and back: JSON in SI units, with a number that tells its form."""

import json
from dataclasses import asdict
from typing import Any

from bickern.making.lessons.record import Foreseen, Foresight, Record, Size, Told
from bickern.measure.finding import Finding, warn

FORM = 1
"""Goes up when a key is renamed or changes its meaning; new keys do not change it."""
_TOLD = ("made", "stock", "left", "heats", "seconds", "blows", "weighed_before", "weighed_after", "collar")


def body_of(record: Record) -> str:
    """What was told and foreseen, as JSON."""
    told = {key: value for key, value in asdict(record.told).items() if value not in (None, (), "")}
    return json.dumps({"form": FORM, "told": told, "foresight": asdict(record.foresight)}, ensure_ascii=False)


def record_of(body: str, number: int, when: str, who: str, refused: str) -> Record | Finding:
    """A record as it was kept; a finding where a newer bickern has written it, or where it cannot be read."""
    try:
        data = json.loads(body)
        if data["form"] > FORM:
            return warn("record-too-new", f"record {number} was written by a newer bickern", "bring bickern up to date")
        told, foresight = _told(data["told"]), _foresight(data["foresight"])
        return Record(told, foresight, when, who, refused, number)
    except (ValueError, KeyError, TypeError, AttributeError, OverflowError, RecursionError) as fault:
        says = f"record {number} of the day book cannot be read ({type(fault).__name__})"
        return warn("record-not-read", says, "nothing is learnt from it; the others count")


def _told(data: dict[str, Any]) -> Told:
    plain = {key: data[key] for key in _TOLD if key in data}
    pairs = {key: tuple((str(name), float(value)) for name, value in data.get(key, ())) for key in ("reached", "works")}
    return Told(**plain, remark=data.get("remark", ""), reached=pairs["reached"], works=pairs["works"])


def _foresight(data: dict[str, Any]) -> Foresight:
    sizes = tuple(Size(one["name"], one["asked"], one["takes"]) for one in data["sizes"])
    rows = tuple(Foreseen(one["kind"], one["said"], _pairs(one["leans"])) for one in data["foreseen"])
    plain = ("job", "piece", "made", "before", "make", "stock", "area", "density", "least", "hot")
    held: dict[str, Any] = {key: data[key] for key in plain}
    return Foresight(**held, sizes=sizes, foreseen=rows, figures=_pairs(data["figures"]))


def _pairs(rows: Any) -> tuple[tuple[str, float], ...]:
    return tuple((str(name), float(value)) for name, value in rows)
