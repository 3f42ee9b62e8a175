"""The table of faults: every row hangs on an operation that is known, says something, and is not said twice."""

import re

from bickern.making.work import operations
from bickern.making.work.faults import FAULTS, faults_of
from bickern.measure.source import Kind


def known_operations() -> set[str]:
    keys = set(operations.HOT)
    for table in (operations._OF_HOLE, operations._OF_SURFACE, operations._OF_SEAM, operations._OF_JOINT):
        keys |= set().union(*table.values())
    return keys | {"hem", "close ring", "taper", "draw", "spread", "cut bar", "cut sheet"}


def test_every_fault_belongs_to_an_operation_that_can_be_asked_for():
    assert {fault.operation for fault in FAULTS} <= known_operations()


def test_every_hot_operation_but_the_rivet_has_a_fault_told():
    told = {fault.operation for fault in FAULTS}
    assert operations.HOT - told - {"rivet hot"} == set()


def test_rows_are_short_and_told_once_and_say_how_they_are_known():
    assert len({(fault.operation, fault.shows) for fault in FAULTS}) == len(FAULTS)
    for fault in FAULTS:
        assert 0 < len(fault.shows) < 60
        assert 0 < len(fault.cure) < 100
        assert fault.source.kind is Kind.COMMON
        assert not re.search(r"\d", fault.cure), "figures would want a source of their own"


def test_only_the_faults_of_the_operations_asked_for():
    assert {fault.operation for fault in faults_of(frozenset({"twist", "heat"}))} == {"twist"}
    assert faults_of(frozenset()) == ()
