"""The table of faults: every row hangs on an operation that is known, says something, and is not said twice."""

import re

from bickern.making.work.faults import FAULTS, faults_of
from bickern.making.work.ways import WAYS
from bickern.measure.source import Kind

HOT = {
    "upset", "draw", "taper", "spread", "shoulder", "split", "punch", "slit", "drift", "bend", "curl", "hoop", "scroll",
    "twist", "scarf", "weld", "straighten", "cut off", "dish", "rivet hot", "collar", "brush",
}  # fmt: skip
"""What is done in the fire's heat, by hand."""


def test_every_fault_belongs_to_an_operation_that_can_be_asked_for():
    assert {fault.operation for fault in FAULTS} <= {way.does for way in WAYS}


def test_every_hot_operation_has_a_fault_told():
    told = {fault.operation for fault in FAULTS}
    assert set() == HOT - told


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
