"""A tenon that is drawn too short or too long for what it goes through is told. Grip + 1 d is common practice."""

import pytest

from bickern.desk.reckon import reckon_text

JOB = """
job: A post in a foot
units: in
pieces:
  post: {{bar: 1/2 sq, metal: [{{keep: 10, name: post}}, {{as: 3/8 rd, over: {over}, name: tenon}}]}}
  foot:
    bar: 1 x 1/4
    metal: [{{keep: 6, name: foot}}]
    holes: [{{size: 3/8, by: punch, at: 3, name: hole}}]
joins:
  - {{tenon: 3/8, through: [post.tenon, foot.hole]}}
"""


@pytest.mark.parametrize(("over", "told"), [("5/8", False), ("1/2", True), ("3/4", True)])
def test_a_tenon_is_as_long_as_its_grip_and_one_diameter(over: str, told: bool):
    # the foot is 1/4 thick and the tenon 3/8 across: 5/8 past the shoulder
    found = {f.name for f in reckon_text(JOB.format(over=over), "job.yaml").findings}
    assert ("tenon-length" in found) is told
