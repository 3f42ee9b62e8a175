"""Operations are read off what was reckoned."""

import pytest

from bickern.desk.reckon import reckon_text
from bickern.making.work.operations import of_any, of_joint

HEAD = "job: Trial\nunits: in\npieces:\n  it:\n"
BAR = HEAD + "    bar: 1/2 sq\n"
SHEET = HEAD + "    sheet: 1/16\n"
CONE = SHEET + "    surface: {cone: {base: 8, top: 2, height: 4, sizes: mean}}\n"


def of_piece(text: str) -> frozenset[str]:
    done = reckon_text(text, "trial.yaml")
    assert done.copy is not None
    assert done.copy.pieces, done.findings
    return of_any(done.copy.pieces[0])


@pytest.mark.parametrize(
    ("text", "operations"),
    [
        (BAR + "    metal: [{keep: 9}]\n", {"mark", "cut bar"}),
        (BAR + "    metal: [{keep: 9}, {to: 1/8 rd, over: 4}]\n", {"mark", "cut bar", "taper", "straighten", "heat"}),
        (BAR + "    metal: [{keep: 9}, {as: 3/8 sq, over: 4}]\n",
         {"mark", "cut bar", "shoulder", "draw", "straighten", "heat"}),
        (BAR + "    metal: [{keep: 9}, {as: 1 x 1/8, over: 4}]\n",
         {"mark", "cut bar", "shoulder", "spread", "straighten", "heat"}),
        (BAR + "    metal: [{keep: 9}, {as: 5/8 sq, over: 1}]\n", {"mark", "cut bar", "upset", "straighten", "heat"}),
        (BAR + "    metal: [{keep: 9}]\n    twist: [{turns: 1, over: 6, at: 1}]\n",
         {"mark", "cut bar", "twist", "straighten", "heat"}),
        (BAR + "    metal: [{keep: 9}]\n    holes: [{size: 1/8, by: drill, at: 2, face: front}]\n",
         {"mark", "cut bar", "drill"}),
        (BAR + "    metal: [{keep: 9}]\n    holes: [{size: 1/8, by: punch, at: 2, face: front}]\n",
         {"mark", "cut bar", "punch", "straighten", "heat"}),
        (BAR + "    metal: [{keep: 9}]\n    holes: [{size: 1/4, by: slit and drift, at: 2, face: front}]\n",
         {"mark", "cut bar", "slit", "drift", "straighten", "heat"}),
        (HEAD + "    ring: 1/4 rd\n    inside across: 2\n    closed: butted\n",
         {"cut bar", "bend", "close ring", "heat"}),
        (HEAD + "    ring: 1/8 rd\n    inside across: 4\n    closed: butted\n",  # 3 % at the skin: cold
         {"cut bar", "bend", "close ring"}),
        (HEAD + "    ring: 1/4 rd\n    inside across: 2\n    closed: welded\n",
         {"cut bar", "scarf", "bend", "weld", "heat"}),
        (CONE, {"mark", "cut sheet", "deburr", "fold", "roll sheet"}),
        (CONE + "    seam: {riveted lap: 1/2, rivets: 1/8, pitch: 1}\n",
         {"mark", "cut sheet", "deburr", "drill", "fold", "roll sheet", "rivet"}),
        (CONE + "    seam: {grooved: 1/4}\n    hot: yes\n",
         {"mark", "cut sheet", "deburr", "hem", "fold", "roll sheet", "groove", "stands in heat"}),
        (SHEET + "    surface: {bowl: {rim: 4, depth: 2, sizes: mean}}\n",  # deeper than a third of its rim: hot
         {"mark", "cut sheet", "deburr", "dish", "file", "heat"}),
        (CONE + "    seam: {brazed lap: 1/4}\n",
         {"mark", "cut sheet", "deburr", "fold", "roll sheet", "braze", "heat"}),
        (SHEET + "    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}\n",
         {"mark", "cut sheet", "deburr", "dish", "file"}),
    ],
)  # fmt: skip
def test_what_a_piece_calls_for(text: str, operations: set[str]):
    assert of_piece(text) == operations


@pytest.mark.parametrize(("size", "hot"), [("3/16", False), ("7/16", False), ("1/2", True), ("12 mm", True)])
def test_a_rivet_of_twelve_millimetres_is_driven_hot(size: str, hot: bool):
    # from 12 mm: Roloff/Matek, rivets, hot, quoted by a secondary page
    joint = f"joins:\n  - {{rivet: {size}, through: [it], grip: 1}}\n"
    done = reckon_text(BAR + "    metal: [{keep: 9}]\n" + joint, "trial.yaml")
    assert done.copy is not None
    assert done.copy.joints, done.findings
    assert ("heat" in of_joint(done.copy.joints[0])) is hot
