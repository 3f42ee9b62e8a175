"""Every row of every table and every named rule carries its source."""

import importlib
import pkgutil
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest

import bickern
from bickern.measure.source import Kind, Source


def rows() -> Iterator[tuple[str, object]]:
    """Every member of a module-level table whose rows have a field `source`."""
    seen: set[int] = set()
    for info in pkgutil.walk_packages(bickern.__path__, "bickern."):
        if info.name.endswith("__main__"):
            continue
        for name, value in vars(importlib.import_module(info.name)).items():
            table = list(value.values()) if isinstance(value, dict) else value
            if name.isupper() and isinstance(table, tuple | list) and id(value) not in seen:
                seen.add(id(value))
                yield from ((f"{info.name}.{name}", row) for row in table if _sourced(row))


def _sourced(row: object) -> bool:
    return is_dataclass(row) and any(f.name == "source" for f in fields(row))


ROWS = list(rows())


def test_there_are_tables():
    assert len({where for where, _ in ROWS}) >= 8
    assert len(ROWS) >= 150


@pytest.mark.parametrize(("where", "row"), ROWS, ids=[w for w, _ in ROWS])
def test_row_has_a_source(where: str, row: object):
    source = getattr(row, "source")  # noqa: B009 - the row is of many types
    assert isinstance(source, Source), where
    assert source.title, where
    assert source.kind in Kind
    if source.kind in {Kind.STANDARD, Kind.HANDBOOK, Kind.PAPER}:
        assert source.where, where
