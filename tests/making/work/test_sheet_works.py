"""Works of sheet: all that can be done flat is done flat, opposite walls in pairs, nothing coated annealed."""

import pytest

from bickern.desk.reckon import reckon_text
from bickern.making.shop import Shop
from bickern.making.work.sheet_works import COLD_SHEET, works_of_sheet
from bickern.making.work.ways import way_of
from bickern.parts.sheet.result import SheetResult

SHOP = Shop()
CONE = "surface: {cone: {base: 8, top: 2, height: 4, sizes: mean}}"


def works(thick: str, *lines: str):
    text = f"job: Trial\nunits: in\npieces:\n  it:\n    sheet: {thick}\n" + "".join(f"    {line}\n" for line in lines)
    done = reckon_text(text, "trial.yaml")
    assert done.copy is not None, done.findings
    assert done.copy.pieces, done.findings
    piece = done.copy.pieces[0]
    assert isinstance(piece, SheetResult)
    return works_of_sheet(piece, SHOP)


def order(made) -> list[str]:
    return [f"{w.does} {w.name}".strip() for w in made]


def test_a_riveted_cone_is_drilled_flat_its_edges_bent_first_and_riveted_last():
    made = works("20 ga", CONE, "seam: {riveted lap: 1/2, rivets: 1/8, pitch: 1}")
    assert order(made) == [
        "mark", "cut sheet", "deburr", "drill rivet holes", "fold seam edges", "roll sheet", "rivet seam",
    ]  # fmt: skip
    assert "middle" in made[-1].says
    assert not any(w.hot for w in made)
    assert all(w.sheet for w in made)


def test_a_grooved_seam_is_hooked_flat_and_closed_last():
    made = order(works("20 ga", CONE, "seam: {grooved: 1/4}"))
    assert made.index("hem seam edges") < made.index("roll sheet") < made.index("groove seam")
    assert made[-1] == "groove seam"


def test_hems_are_turned_before_rolling_a_wire_is_laid_in_after():
    hemmed = order(works("20 ga", CONE, "edges: [{hem: 1/4, on: bottom}]"))
    wired = order(works("20 ga", CONE, "edges: [{wired: 1/8, on: bottom}]"))
    assert hemmed.index("hem bottom") < hemmed.index("roll sheet")
    assert wired.index("hem bottom") > wired.index("roll sheet")


def test_opposite_walls_of_a_pan_are_folded_in_pairs():
    made = works("18 ga", "surface: {pan: {long: 5, wide: 4, high: 1/2, sizes: outside}}")
    assert order(made)[-2:] == ["fold left and right walls", "fold front and back walls"]
    three = works("18 ga", "surface: {pan: {long: 5, wide: 4, high: 1/2, walls: [back, left, right], sizes: outside}}")
    assert order(three)[-2:] == ["fold left and right walls", "fold back wall"]


@pytest.mark.parametrize(
    ("thick", "depth", "hot"),
    [("16 ga", "1 1/4", False), ("16 ga", "1 3/4", True), ("1/8", "1", True)],
)
def test_a_bowl_is_dished_cold_of_thin_sheet_if_it_is_shallow(thick: str, depth: str, hot: bool):
    # 2 mm and a third of the rim: common practice
    made = works(thick, f"surface: {{bowl: {{rim: 4, depth: {depth}, sizes: mean}}}}")
    dish = next(w for w in made if w.does == "dish")
    assert dish.hot is hot
    assert COLD_SHEET.value == pytest.approx(0.002)
    if hot:
        assert dish.start > dish.stop >= 973.15


@pytest.mark.parametrize("coating", ["galvanised", "painted", "tinned", "bluish"])
def test_no_step_of_a_coated_bowl_speaks_of_annealing(coating: str):
    shallow = "surface: {bowl: {rim: 4, depth: 1, sizes: mean}}"
    bare = next(w for w in works("16 ga", shallow) if w.does == "dish")
    assert not bare.hot
    assert "anneal it" in way_of(bare).how
    coated = next(w for w in works("16 ga", shallow, f"coating: {coating}") if w.does == "dish")
    assert not coated.hot
    assert "must not be annealed" in way_of(coated).how


def test_two_halves_take_twice_the_cutting_of_one_and_all_seconds_have_a_span():
    whole, halves = works("20 ga", CONE), works("20 ga", CONE, "parts: 2")
    for does in ("mark", "cut sheet"):
        one, two = (next(w for w in made if w.does == does) for made in (whole, halves))
        assert two.seconds.value > one.seconds.value
    assert all(0 < w.seconds.low < w.seconds.value < w.seconds.high and w.seconds.why for w in halves)
    assert len({w.key for w in halves}) == len(halves)
