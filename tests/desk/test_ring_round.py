"""A ring that goes round a bar, or holds two others, must have room: sums done by hand beside each."""

import pytest

from bickern.desk.reckon import reckon_text

JOB = """
job: Rings
units: in
pieces:
  arm: {{bar: 1/2 sq, metal: [{{keep: 6, name: stem}}]}}
  big: {{ring: 3/4 rd, inside across: 3, closed: welded}}
  other: {{ring: 3/4 rd, inside across: 3}}
  r: {{ring: {wire} rd, inside across: {inside}}}
joins:
  - {{ring: r, through: [{through}]}}
"""


@pytest.mark.parametrize(
    ("wire", "inside", "through", "name"),
    [
        ("1/8", "5/8", "arm.stem", "ring-round-too-small"),  # 1/2 sq is .707 across its corners
        ("1/8", "3/4", "arm.stem", ""),
        ("1/8", "3/4", "arm.start", ""),  # a bar without a path
        ("1/4", "1 1/4", "big, other", "ring-too-full"),  # 3/4 + 3/4 lie side by side in 1 1/4
        ("1/4", "1 5/8", "big, other", ""),
    ],
)
def test_room_in_a_ring(wire: str, inside: str, through: str, name: str):
    done = reckon_text(JOB.format(wire=wire, inside=inside, through=through), "job.yaml")
    assert {f.name for f in done.findings if f.stops} == ({name} if name else set())


@pytest.mark.parametrize(
    "round_", ["one.bar, two.bar", "one, two", "one.middle, two.start", "one.stem, two.stem", "one.end, two"]
)
def test_a_collar_is_as_long_whatever_part_of_a_plain_bar_is_named(round_: str):
    # Sims, The Backyard Blacksmith, p. 101 (quoted by a secondary page): two 1/2 sq, collar 1/8 thick: 3 1/4
    text = f"""
job: Collar
units: in
pieces:
  one: {{bar: 1/2 sq, metal: [{{keep: 6, name: stem}}]}}
  two: {{bar: 1/2 sq, metal: [{{keep: 6, name: stem}}]}}
joins:
  - {{collar: 1/2 x 1/8, round: [{round_}]}}
"""
    copy = reckon_text(text, "job.yaml").copy
    assert copy is not None
    assert copy.joints[0].metal == pytest.approx(3.25 * 0.0254)
