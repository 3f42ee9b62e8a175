"""The works of a bar, read off what was reckoned: told in a job's own words, looked at as a smith would."""

from dataclasses import replace
from math import pi
from pathlib import Path

import pytest

from bickern.desk.reckon import reckon_file, reckon_text
from bickern.iron.section import area
from bickern.making.shop import Hand, Shop
from bickern.making.work.bar_works import cut_off, works_of_bar
from bickern.making.work.fire import BLACK_HEAT
from bickern.making.work.result import Work
from bickern.making.work.ways import way_of
from bickern.measure.units.words import INCH
from bickern.parts.bar.result import BarResult

EXAMPLES = Path(__file__).parents[3] / "examples"
HEAD = "job: Trial\nunits: in\npieces:\n  it:\n"


def bar_of(text: str) -> BarResult:
    done = reckon_text(HEAD + text, "trial.yaml")
    assert done.copy is not None
    assert done.copy.pieces, done.findings
    piece = done.copy.pieces[0]
    assert isinstance(piece, BarResult)
    return piece


def told(text: str, shop: Shop | None = None) -> tuple[Work, ...]:
    return works_of_bar(bar_of(text), shop or Shop())


def example(name: str, piece: str) -> tuple[Work, ...]:
    done = reckon_file(EXAMPLES / f"{name}.yaml")
    assert done.copy is not None
    bar = next(p for p in done.copy.pieces if p.spec.name == piece)
    assert isinstance(bar, BarResult)
    return works_of_bar(bar, Shop())


def words(works: tuple[Work, ...]) -> list[str]:
    return [f"{w.does} {w.name}".strip() for w in works]


def one(works: tuple[Work, ...], does: str) -> Work:
    found = [w for w in works if w.does == does]
    assert len(found) == 1, words(works)
    return found[0]


def test_the_arm_of_the_lantern():
    works = example("porch-lantern", "arm")
    assert words(works) == [
        "mark", "cut bar", "taper tip", "spread palm", "drill upper screw", "drill lower screw", "twist stem",
        "straighten stem", "scroll scroll", "bend drop", "straighten",
    ]  # fmt: skip
    palm = one(works, "spread")
    assert palm.runs == (2, 3)
    assert palm.says == "with its shoulder"
    assert palm.after is not None
    assert palm.after.thick == pytest.approx(INCH / 4)


def test_the_leaf_hook():
    works = example("leaf-coat-hook", "hook")
    assert words(works)[2:11] == [
        "shoulder leaf", "spread leaf", "shoulder stem", "draw stem", "shoulder upper pad", "spread upper pad",
        "shoulder lower pad", "spread lower pad", "taper hook taper",
    ]  # fmt: skip


def test_half_a_pair_of_tongs():
    works = example("bolt-tongs", "half")
    assert words(works)[2:8] == [
        "shoulder jaw", "draw jaw", "spread boss", "shoulder rein", "taper rein", "punch rivet hole",
    ]  # fmt: skip


def test_a_neck_that_runs_out_of_a_palm_is_a_taper():
    works = example("ladle", "handle")
    assert words(works)[2:6] == ["spread palm", "taper neck", "draw shank", "taper hook taper"]


def test_bar_as_it_comes_is_only_marked_and_cut():
    assert words(told("    bar: 1/2 sq\n    metal: [{keep: 9}]\n")) == ["mark", "cut bar"]


def test_a_thicker_end_is_upset():
    works = told("    bar: 1/2 sq\n    metal: [{keep: 9}, {as: 5/8 sq, over: 1, name: knob}]\n")
    upset = one(works, "upset")
    assert upset.runs == (1,)
    assert upset.after is not None
    assert upset.after.width == pytest.approx(5 / 8 * INCH)
    assert upset.metal == pytest.approx((5 / 8 * INCH) ** 2 * INCH)
    assert not [w for w in works if w.does in ("draw", "spread")]


def test_a_broad_thick_end_is_upset_before_it_is_spread():
    works = told("    bar: 1/2 sq\n    metal: [{keep: 9}, {as: 1 x 3/8, over: 1, name: pad}]\n")
    does = [w.does for w in works]
    assert does.index("upset") < does.index("spread")
    assert one(works, "upset").runs == ()  # the pad is not there before it is spread
    spread = one(works, "spread")
    assert spread.runs == (1,)
    assert spread.before is not None
    assert area(spread.before) == pytest.approx(INCH * 3 / 8 * INCH)


def test_a_little_more_than_the_bar_is_driven_back_while_spreading():
    works = told("    bar: 5/8 sq\n    metal: [{keep: 9}, {as: 1 1/8 x 3/8, over: 1}]\n")  # 8 % more metal
    assert "upset" not in {w.does for w in works}


def test_a_gentle_shoulder_needs_no_setting_down_and_a_steep_one_does():
    gentle = told("    bar: 1/2 sq\n    metal: [{keep: 9}, {to: 3/8 sq, over: 1/4}, {keep: 2, name: tang}]\n")
    assert words(gentle)[2:3] == ["draw tang"]
    assert one(gentle, "draw").runs == (1, 2)
    steep = told("    bar: 1/2 sq\n    metal: [{keep: 9}, {to: 3/8 sq, over: 1/8}, {keep: 2, name: tang}]\n")
    assert words(steep)[2:4] == ["shoulder tang", "draw tang"]
    sharp = told("    bar: 1/2 sq\n    metal: [{keep: 9}, {as: 3/8 sq, over: 2, name: tang}]\n")
    assert words(sharp)[2:4] == ["shoulder tang", "draw tang"]


def test_setting_down_is_a_share_of_the_same_work():
    alone = one(told("    bar: 1/2 sq\n    metal: [{as: 3/8 sq, over: 2, name: tang}]\n"), "draw")
    beside = told("    bar: 1/2 sq\n    metal: [{keep: 9}, {as: 3/8 sq, over: 2, name: tang}]\n")
    shoulder, drawn = one(beside, "shoulder"), one(beside, "draw")
    assert shoulder.energy + drawn.energy == pytest.approx(alone.energy)
    assert (shoulder.runs, drawn.runs) == ((), (1,))


@pytest.mark.parametrize("steel", ["mild", "1045", "5160", "W1", "304", "wrought iron"])
def test_a_thin_end_is_pulled_at_yellow_and_no_colder_than_its_metal_is_drawn_at(steel: str):
    """Common practice: thin ends burn, so nothing thin is pulled hotter than yellow (1150 C); pulled colder than the
    rest of its metal, there would be no time to draw it. Mild is never drawn from under 2000 F (1093 C)."""
    ends = ("1/4 rd", "1/8 rd", "point")
    bar = f"    bar: 1/2 sq\n    steel: {steel}\n"
    works = [told(bar + f"    metal: [{{keep: 9}}, {{to: {end}, over: 3}}]\n") for end in ends]
    blunt, *thin = [one(w, "taper").start for w in works]
    assert thin == [min(blunt, 1150 + 273.15)] * 2
    assert steel != "mild" or min(thin) >= 1093 + 273.15
    assert one(works[-1], "taper").thin > 0  # there is metal to be worked all the same


@pytest.mark.parametrize("steel", ["mild", "1045", "5160", "W1", "304"])
def test_a_bend_is_pulled_lower_than_drawing_and_keeps_most_of_its_time(steel: str):
    works = told(
        f"    bar: 1/2 sq\n    steel: {steel}\n    metal: [{{keep: 9}}, {{as: 3/8 sq, over: 3}}]\n"
        "    path: [{straight: 4}, {bend: 90, inside radius: 1/2}, {straight: rest}]\n"
    )
    drawn, bent = one(works, "draw"), one(works, "bend")
    assert drawn.start - 100 <= bent.start < drawn.start
    assert bent.start - bent.stop >= 0.69 * (drawn.start - drawn.stop)


def test_metal_that_snaps_cold_is_trued_hot():
    mild, spring = (
        told(f"    bar: 1/2 sq\n    steel: {steel}\n    metal: [{{keep: 9}}, {{as: 3/8 sq, over: 3}}]\n")
        for steel in ("mild", "5160")
    )
    assert not one(mild, "straighten").hot
    hot = one(spring, "straighten")
    assert hot.hot
    assert hot.stop >= one(spring, "draw").stop > BLACK_HEAT


def test_a_shoulder_is_set_down_to_what_is_there_and_not_to_what_comes_of_it_later():
    """Of a taper its thick end; of what is spread only the thickness; of a leaf the neck that it grows from."""
    rein = told("    bar: 5/8 sq\n    metal: [{keep: 6}, {from: 3/8 rd, to: 1/4 rd, over: 9, name: rein}]\n")
    pad = told("    bar: 3/8 sq\n    metal: [{keep: 6}, {as: 3/4 x 3/16, over: 1, name: pad}]\n")
    leaf = told("    bar: 3/8 sq\n    metal: [{leaf: 2, width: 1, thick: 1/16}, {as: 3/16 rd, over: 2}, {keep: 3}]\n")
    full = told("    bar: 3/8 sq\n    metal: [{leaf: 2, width: 1, thick: 1/16}, {keep: 6}]\n")
    down = [next(w for w in works if w.does == "shoulder").after for works in (rein, pad, leaf)]
    sizes = [(s.width / INCH, s.thick / INCH) for s in down if s is not None]
    assert sizes == [pytest.approx(x) for x in ((3 / 8, 3 / 8), (3 / 8, 3 / 16), (3 / 16, 3 / 16))]
    assert "shoulder" not in {w.does for w in full}  # nothing narrower to set down to


def test_steel_with_more_carbon_is_pulled_at_a_lower_heat():
    def draw(steel: str) -> Work:
        bar = f"    bar: 1/2 sq\n    steel: {steel}\n"
        return one(told(bar + "    metal: [{keep: 9}, {as: 3/8 sq, over: 2}]\n"), "draw")

    assert draw("mild").start > draw("5160").start > draw("W1").start
    assert draw("5160").stop > draw("mild").stop


def test_an_eye_a_scroll_and_a_hook():
    path = (
        "    path: [{eye: 1, turn: left, name: ring}, {straight: rest}, {bend: 180, inside radius: 1/2, turn: left}]\n"
    )
    works = told("    bar: 3/8 rd\n    metal: [{keep: 14}]\n" + path)
    assert [w.does for w in works if w.bends] == ["curl", "bend"]
    assert one(works, "curl").name == "ring"
    assert one(works, "bend").amount == pytest.approx(pi)
    assert one(works, "bend").radius == pytest.approx(INCH / 2)


def test_a_gentle_bend_of_thin_bar_is_cold_and_the_same_in_thick_bar_hot():
    path = "    path: [{straight: 4}, {bend: 30, inside radius: 4, turn: up}, {straight: rest}]\n"
    assert not one(told("    bar: 1 x 1/8\n    metal: [{keep: 14}]\n" + path), "bend").hot
    assert one(told("    bar: 1/2 sq\n    metal: [{keep: 14}]\n" + path), "bend").hot
    spring = "    bar: 1 x 1/8\n    steel: 5160\n    metal: [{keep: 14}]\n"
    assert one(told(spring + path), "bend").hot  # spring steel is never bent cold


def test_a_shop_that_allows_no_cold_strain_bends_hot():
    path = "    path: [{straight: 4}, {bend: 30, inside radius: 4, turn: up}, {straight: rest}]\n"
    shop = Shop()
    strict = replace(shop, ring=replace(shop.ring, cold_limit=0.001))
    assert one(told("    bar: 1 x 1/8\n    metal: [{keep: 14}]\n" + path, strict), "bend").hot


def test_a_corner_is_upset_where_the_job_says_so():
    path = "    path: [{straight: 4}, {corner: 90, forged: upset, turn: up, name: knee}, {straight: rest}]\n"
    works = told("    bar: 1/2 sq\n    metal: [{keep: 14}]\n" + path)
    assert words(works)[2:4] == ["upset knee", "bend knee"]
    middle = sum(one(works, "bend").zone) / 2
    assert one(works, "upset").zone[0] < middle < one(works, "upset").zone[1]


def test_a_square_corner_takes_more_work_than_a_bend():
    def energy(entry: str) -> float:
        path = f"    path: [{{straight: 4}}, {{{entry}, turn: up}}, {{straight: rest}}]\n"
        works = told("    bar: 1/2 sq\n    metal: [{keep: 14}]\n" + path)
        return one(works, "bend").energy

    assert energy("corner: 90") > 2 * energy("bend: 90, inside radius: 1/2")


def test_a_twist_is_one_heat_and_no_blows():
    works = told("    bar: 1/2 sq\n    metal: [{keep: 9}]\n    twist: [{turns: 2, over: 4, at: 2}]\n")
    twist = one(works, "twist")
    assert (twist.whole, twist.hot, twist.blows.value) == (True, True, 0.0)
    assert twist.zone == pytest.approx((2 * INCH, 6 * INCH))
    assert twist.energy > 0
    assert "straighten" in {w.does for w in works if w.zone == twist.zone}


def test_a_hole_is_punched_slit_and_drifted_or_drilled():
    hole = "    holes: [{size: 1/4, by: %s, at: 2, face: front, name: eye}]\n"
    bar = "    bar: 1 x 1/2\n    metal: [{keep: 9}]\n"
    assert words(told(bar + hole % "punch"))[2:3] == ["punch eye"]
    assert words(told(bar + hole % "slit and drift"))[2:4] == ["slit eye", "drift eye"]
    drilled = told(bar + hole % "drill")
    assert words(drilled)[2:] == ["drill eye"]
    assert not any(w.hot for w in drilled)


def test_holes_beside_each_other_are_one_work_and_far_ones_are_not():
    bar = "    bar: 1 x 1/4\n    metal: [{keep: 20}]\n"
    near = told(bar + "    holes: [{size: 1/4, by: punch, at: 2, number: 3, spacing: 1, face: front, name: row}]\n")
    assert one(near, "punch").holes == (0, 1, 2)
    far = told(bar + "    holes: [{size: 1/4, by: punch, at: 2, number: 3, spacing: 6, face: front, name: row}]\n")
    assert words(far)[2:5] == ["punch row 1", "punch row 2", "punch row 3"]


def test_a_welded_hoop_is_scarfed_bent_and_welded():
    works = example("trivet", "hoop")
    does = [w.does for w in works]
    assert does.index("scarf") < does.index("hoop") < does.index("weld")
    assert does.count("scarf") == 2
    weld = one(works, "weld")
    assert weld.whole
    assert weld.start > max(w.start for w in works if w.hot and w.does != "weld")
    assert not one(works, "hoop").hot  # 1/4 in the easy way round 7 in: 4 % of strain


def test_a_butted_hoop_is_not_welded():
    works = told(
        "    bar: 3/4 x 1/4\n    closed: butted\n    metal: [{keep: rest}]\n"
        "    path: [{hoop: {outside across: 7}, turn: up}]\n"
    )
    assert not {"scarf", "weld"} & {w.does for w in works}


def test_a_welded_eye_is_scarfed_before_it_is_curled():
    path = "    path: [{straight: rest}, {eye: 1, turn: left, welded: yes, name: ring}]\n"
    does = [w.does for w in told("    bar: 3/8 rd\n    metal: [{keep: 14}]\n" + path)]
    assert does.index("scarf") < does.index("curl") < does.index("weld")


SPLIT = (
    "    bar: 1 x 3/8\n    metal: [{keep: 9}]\n    split:\n"
    "      left: {metal: [{to: 1/8 rd, over: 3, name: left prong}]}\n"
    "      right: {metal: [{to: 1/8 rd, over: 3, name: right prong}]}\n"
)


def test_a_fork_is_split_and_its_limbs_are_worked():
    works = told(SPLIT)
    assert words(works)[2:5] == ["split left and right", "taper left prong", "taper right prong"]
    assert [w.child for w in works[2:5]] == [(), ("left",), ("right",)]
    assert works[3].key == "it.left: taper left prong"
    taper = works[3]
    assert taper.before is not None
    assert area(taper.before) == pytest.approx(area(bar_of(SPLIT).stock_section) / 2)


def test_a_branch_is_made_by_itself_and_welded_on():
    works = told(
        "    bar: 1/2 sq\n    metal: [{keep: 9, name: stem}]\n"
        "    weld on:\n"
        "      thorn: {at: middle of stem, bar: 1/4 rd, metal: [{keep: 1}, {to: 1/16 rd, over: 1, name: point}]}\n"
    )
    assert words(works)[2:] == [
        "mark",
        "cut bar",
        "taper point",
        "straighten",
        "scarf thorn",
        "weld thorn",
        "straighten",
    ]
    weld = one(works, "weld")
    assert weld.child == ()
    assert weld.zone[0] < 4.5 * INCH < weld.zone[1]


def test_what_is_held_by_its_grip_is_cut_off_last():
    bar = bar_of("    bar: 1/2 sq\n    grip: 3\n    metal: [{as: 3/8 sq, over: 2}]\n")
    works = works_of_bar(bar, Shop())
    assert works[-1].does == "cut off"
    assert works[-1] == cut_off(bar, Shop())
    assert works[-1].zone[1] == pytest.approx(bar.length)


def test_the_cut_goes_through_the_stock_where_the_end_is_made_after_it():
    """And its heat lasts as the stock's does, not as that of the point which is not drawn yet."""
    bar = bar_of("    bar: 1/2 sq\n    metal: [{as: 3/8 sq, over: 2}, {to: point, over: 2}]\n")
    early, datum = cut_off(bar, Shop(), when="end"), cut_off(bar, Shop(), at_datum=True)
    assert early.case == "end"
    assert (early.before, datum.before) == (bar.stock_section, bar.runs[0].a)
    assert early.thin == pytest.approx(INCH / 8)
    assert datum.thin == pytest.approx(INCH * 3 / 32)
    assert early.zone == pytest.approx((bar.length - INCH / 2, bar.length))
    assert datum.zone == pytest.approx((0.0, INCH / 2))


def test_a_heavier_hammer_wants_fewer_blows_and_less_time():
    bar = "    bar: 1/2 sq\n    metal: [{keep: 9}, {as: 3/8 sq, over: 2}]\n"
    light, heavy = one(told(bar), "draw"), one(told(bar, Shop(hand=Hand(hammer=2.0))), "draw")
    assert heavy.energy == light.energy
    assert heavy.blows.value == pytest.approx(light.blows.value * Hand().hammer / 2)
    assert heavy.seconds.value < light.seconds.value


def test_metal_that_is_not_known_is_worked_as_carefully_as_tool_steel():
    bar = bar_of("    bar: 1/2 sq\n    metal: [{keep: 9}, {as: 3/8 sq, over: 2}]\n")
    unknown = replace(bar, spec=replace(bar.spec, steel="found in a ditch"))
    assert one(works_of_bar(unknown, Shop()), "draw").start < one(works_of_bar(bar, Shop()), "draw").start


def test_a_run_at_the_end_of_the_bar_is_a_work_of_its_own_and_no_ramp():
    foot = told(
        "    bar: 3/4 sq\n    metal: [{keep: 12}, {to: 1/2 sq, over: 5, name: ankle},"
        " {to: 1 1/4 x 3/8, over: 1, name: foot}]\n"
    )
    assert words(foot)[2:4] == ["taper ankle", "spread foot"]
    spread = one(foot, "spread")
    assert spread.after is not None
    assert (spread.after.width, spread.after.thick) == pytest.approx((1.25 * INCH, 3 / 8 * INCH))
    assert "broader" in spread.says
    spear = told(
        "    bar: 1/2 sq\n    metal: [{keep: 8}, {as: 1 x 1/4, over: 1, name: pad}, {to: 1/8 rd, over: 1, name: nib}]\n"
    )
    assert words(spear)[2:5] == ["shoulder pad", "spread pad", "taper nib"]
    assert one(spear, "spread").runs == (1,)


def test_a_named_run_longer_than_the_bar_is_thick_is_no_ramp_and_a_short_one_is():
    def of(length: str) -> list[str]:
        metal = f"{{keep: 9}}, {{to: 3/8 sq, over: {length}, name: neck}}, {{keep: 3, name: tang}}"
        return words(told(f"    bar: 1/2 sq\n    metal: [{metal}]\n"))[2:-1]

    assert of("3/4") == ["taper neck", "draw tang"]
    assert of("3/8") == ["draw tang"]


def test_neighbours_that_come_to_one_section_are_one_stretch():
    works = told(
        "    bar: 3/8 sq\n    metal: [{as: 1/4 sq, over: 1, name: a}, {keep: 6, name: shank}, {to: point, over: 2}]\n"
    )
    drawn = one(works, "draw")
    assert (drawn.name, drawn.runs) == ("a and shank", (0, 1))
    assert drawn.zone == pytest.approx((0.0, 7 * INCH))
    assert drawn.metal == pytest.approx((INCH / 4) ** 2 * 7 * INCH)
    apart = told("    bar: 3/8 sq\n    metal: [{as: 1/4 sq, over: 1}, {as: 5/16 sq, over: 2}, {as: 1/4 sq, over: 1}]\n")
    assert [w.runs for w in apart if w.does == "draw"] == [(0,), (1,), (2,)]


def test_a_swelling_that_runs_back_to_the_bar_is_upset_and_never_tapered():
    """A head on round bar, and a knob with a long run on each side of it."""
    head = told("    bar: 3/4 rd\n    metal: [{from: 1 1/4 rd, to: 3/4 rd, over: 3/8, name: head}, {keep: 6}]\n")
    assert words(head)[2:-1] == ["upset head"]
    upset = one(head, "upset")
    assert upset.runs == (0,)
    assert upset.after is not None
    assert upset.after.width == pytest.approx(1.25 * INCH)
    knob = told(
        "    bar: 1/2 sq\n"
        "    metal: [{keep: 5}, {to: 3/4 sq, over: 2}, {keep: 1, name: knob}, {to: 1/2 sq, over: 2}, {keep: 5}]\n"
    )
    assert words(knob)[2:-1] == ["upset knob"]
    assert one(knob, "upset").runs == (1, 2, 3)


def test_what_is_spread_later_is_set_down_to_its_thickness_only():
    pad = told("    bar: 3/8 sq\n    metal: [{keep: 6}, {as: 3/4 x 3/16, over: 1, name: pad}]\n")
    tang = told("    bar: 3/8 sq\n    metal: [{keep: 6}, {as: 1/4 sq, over: 1, name: tang}]\n")
    assert one(pad, "shoulder").case == "thick"
    assert "leave the width" in way_of(one(pad, "shoulder")).how.lower()
    assert one(tang, "shoulder").case == ""


@pytest.mark.parametrize(("bar", "tenon", "warned"), [("2 x 1/4", "1/2 x 1/4", 1), ("5/8 x 1/4", "3/8 x 1/4", 0)])
def test_a_broad_flat_worked_on_its_edge_is_warned_of_once(bar: str, tenon: str, warned: int):
    """Common practice: over about three times as wide as thick, flat bar buckles on its edge; it is sawn."""
    works = told(f"    bar: {bar}\n    metal: [{{as: {tenon}, over: 1, name: tenon}}, {{keep: 8}}]\n")
    assert sum("buckles" in w.says for w in works) == warned


@pytest.mark.parametrize(
    ("entry", "case", "says"),
    [
        ("curl: 330, inside radius: 1/8, name: pigtail", "curl", "Tip"),
        ("bend: 90, inside radius: 1/4", "close", "rounded edge"),
        ("bend: 90, inside radius: 2", "wide", "horn"),
        ("corner: 90", "sharp", "true the corner"),
    ],
)
def test_how_a_bend_is_told_hangs_on_its_radius_and_on_how_far_it_turns(entry: str, case: str, says: str):
    path = f"    path: [{{straight: rest}}, {{{entry}, turn: up}}{'' if 'curl' in entry else ', {straight: 3}'}]\n"
    bend = one(told("    bar: 1/2 sq\n    metal: [{keep: 14}]\n" + path), "bend")
    assert bend.case == case
    assert says in way_of(bend).how
    assert case in ("sharp", "wide") or "{inside}" in way_of(bend).check


def test_far_round_in_the_middle_of_a_bar_is_bent_from_both_ends():
    path = "    path: [{straight: 3}, {bend: 300, inside radius: 1 1/2, turn: left}, {straight: rest}]\n"
    bow = one(told("    bar: 5/8 rd\n    metal: [{keep: 16}]\n" + path), "bend")
    assert bow.case == "bow"
    assert "Both ends" in way_of(bow).how


def test_an_eye_to_one_side_has_no_bend_at_its_neck():
    path = "    path: [{eye: 1/2, centred: no, turn: up, name: knuckle}, {straight: rest}]\n"
    side = one(told("    bar: 1 x 1/4\n    metal: [{keep: 14}]\n" + path), "curl")
    centred = one(told("    bar: 1 x 1/4\n    metal: [{keep: 14}]\n" + path.replace(" centred: no,", "")), "curl")
    assert (side.case, centred.case) == ("beside", "")
    assert way_of(side).how.startswith("No bend at the mark")
    assert way_of(centred).how.startswith("Bend it square")


@pytest.mark.parametrize(("bar", "fewest", "most"), [("3/4 sq", 90, 200), ("3/4 x 1/4", 20, 55)])
def test_a_corner_forged_up_square_is_no_work_of_one_short_heat(bar: str, fewest: float, most: float):
    """From memory: 3/4 in square takes four or five heats of some 30 s, 3/4 x 1/4 two of some 20 s; not counted."""
    path = "    path: [{straight: 4}, {corner: 90, turn: up}, {straight: rest}]\n"
    corner = one(told(f"    bar: {bar}\n    metal: [{{keep: 14}}]\n" + path), "bend")
    assert fewest < corner.seconds.value < most
