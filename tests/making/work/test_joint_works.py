"""Works of joints: hot where the trade heads them hot, closed round what they hold, threaded before they are closed."""

import pytest

from bickern.desk.reckon import reckon_text
from bickern.making.shop import Shop
from bickern.making.work.joint_works import works_of_joint
from bickern.making.work.ways import way_of

SHOP = Shop()
PIECES = """job: Trial
units: in
pieces:
  arm:
    bar: 1/2 sq
    metal: [{keep: 9, name: stem}]
    holes: [{size: 9/16, by: slit and drift, at: 3, face: front, name: hole}]
  stem:
    bar: 1/2 sq
    metal: [{keep: 9}, {as: 3/8 rd, over: 1, name: tenon}]
  bowl:
    sheet: 16 ga
    surface: {bowl: {rim: 4, depth: 1, sizes: mean}}
  link:
    ring: 1/4 rd
    inside across: 2
    closed: welded
"""


def works(joint: str):
    done = reckon_text(f"{PIECES}joins:\n  - {joint}\n", "trial.yaml")
    assert done.copy is not None, done.findings
    assert done.copy.joints, done.findings
    return works_of_joint(done.copy.joints[0], {p.spec.name: p for p in done.copy.pieces}, SHOP)


@pytest.mark.parametrize(("size", "does"), [("3/16", "rivet"), ("7/16", "rivet"), ("1/2", "rivet hot")])
def test_a_rivet_is_driven_hot_from_twelve_millimetres(size: str, does: str):
    # Roloff/Matek, rivets, hot: d + 1 mm from 12 mm, quoted by a secondary page
    (head,) = works(f"{{rivet: {size}, through: [arm, stem], grip: 1}}")
    assert head.does == does
    assert head.hot is head.whole is (does == "rivet hot")
    assert head.piece == "arm"
    assert head.with_pieces == ("stem",)


def test_more_rivets_take_as_many_times_longer():
    (one,) = works("{rivet: 3/16, through: [arm, stem], grip: 1}")
    (four,) = works("{rivet: 3/16, through: [arm, stem], grip: 1, number: 4}")
    assert four.seconds.value == pytest.approx(4 * one.seconds.value)
    assert four.says == "4 of them"


def test_sheet_without_a_hole_of_its_own_is_drilled_through_what_lies_on_it():
    drill, rivet = works("{rivet: 3/16, through: [arm.hole, bowl], number: 2}")
    assert (drill.does, drill.name, rivet.does) == ("drill", "bowl", "rivet")


def test_a_tenon_has_its_shoulder_trued_and_is_headed():
    shoulder, head = works("{tenon: 3/8, through: [stem.tenon, arm.hole]}")
    assert (shoulder.does, shoulder.hot, head.does) == ("shoulder", True, "rivet")


def test_a_collar_is_bent_hot_and_closed_hot_in_one_heat():
    cut, bend, close = works("{collar: 1/8 x 1/2, round: [arm, stem]}")
    assert (cut.does, bend.does, close.does) == ("cut bar", "bend", "collar")
    assert not cut.hot
    assert bend.hot
    assert close.hot
    assert close.whole


def test_a_wrap_is_made_in_one_heat():
    *_, wrap = works("{wrap: 1/8 rd, round: [arm, stem], turns: 5}")
    assert (wrap.does, wrap.case, wrap.whole, wrap.says) == ("bend", "wrap", True, "5 turns")


def test_a_weld_has_a_scarf_on_each_bar_and_a_hotter_heat():
    *scarfs, weld = works("{weld: [arm, stem]}")
    assert [w.does for w in scarfs] == ["scarf", "scarf"]
    assert weld.does == "weld"
    assert weld.whole
    assert weld.start > scarfs[0].start


def test_a_ring_is_threaded_and_not_closed_here():
    (thread,) = works("{ring: link, through: [arm.hole]}")
    assert (thread.does, thread.piece, thread.hot, thread.with_pieces) == ("thread", "link", False, ("arm",))
    assert thread.says == "through arm.hole"


@pytest.mark.parametrize(("joint", "does"), [("{screw: 5 mm, through: [arm.hole]}", "screw"),
                                             ("{pin: 1/4, through: [arm.hole], grip: 1}", "pin")])  # fmt: skip
def test_screws_and_pins_are_cold(joint: str, does: str):
    made = works(joint)
    assert [w.does for w in made] == [does]
    assert not made[0].hot


def test_keys_are_single():
    made = works("{weld: [arm, arm]}")
    assert len({w.key for w in made}) == len(made)


def test_two_copies_of_one_piece_are_told_apart_by_their_numbers() -> None:
    text = (
        "job: it\nunits: in\npieces:\n  half:\n    bar: 1/2 sq\n    make: 2\n    metal: [{keep: 6, name: boss}]\n"
        "    holes: [{size: 1/4, by: drill, at: middle of boss, face: front, name: hole}]\n"
        "joins:\n  - {rivet: 1/4, through: [half 1.hole, half 2.hole], grip: 1}\n"
    )
    copy = reckon_text(text, "job.yaml").copy
    assert copy is not None
    (head,) = works_of_joint(copy.joints[0], {p.spec.name: p for p in copy.pieces}, copy.shop)
    assert (head.piece, head.name, head.with_pieces) == ("half", "half 1", ("half 2",))


TENON = "{tenon: 3/8, through: [stem.tenon, %s]}"


def test_a_tenon_is_put_together_between_the_heat_of_its_shoulder_and_that_of_its_head():
    text = PIECES.replace("3/8 rd, over: 1, name: tenon", "1/2 rd, over: 1, name: tenon").replace("1/2 sq", "3/4 sq")
    done = reckon_text(f"{text}joins:\n  - {TENON % 'arm.hole'}\n".replace("tenon: 3/8", "tenon: 1/2"), "trial.yaml")
    assert done.copy is not None, done.findings
    shoulder, head = works_of_joint(done.copy.joints[0], {p.spec.name: p for p in done.copy.pieces}, SHOP)
    assert head.does == "rivet hot"
    assert shoulder.whole  # its heat is over before the next begins
    assert "together first" in head.says


@pytest.mark.parametrize(("place", "name"), [("arm", "arm for the tenon"), ("bowl", "bowl for the tenon")])
def test_what_a_tenon_goes_through_without_a_hole_is_drilled(place: str, name: str):
    drill, shoulder, head = works(TENON % place)
    assert (drill.does, drill.name, drill.amount) == ("drill", name, pytest.approx(3 / 8 * 0.0254))
    assert "no hole is told" in drill.says
    assert "filed" not in drill.says
    assert drill.seconds.value > 0
    assert (shoulder.does, head.does) == ("shoulder", "rivet")


def test_a_hole_for_a_flat_tenon_is_filed_out():
    text = PIECES.replace("3/8 rd, over: 1, name: tenon", "3/8 x 3/16, over: 1, name: tenon")
    done = reckon_text(f"{text}joins:\n  - {TENON % 'bowl'}\n".replace("3/8, t", "3/16, t"), "trial.yaml")
    assert done.copy is not None, done.findings
    drill = works_of_joint(done.copy.joints[0], {p.spec.name: p for p in done.copy.pieces}, SHOP)[0]
    assert "filed out" in drill.says


def test_what_is_riveted_by_a_pivot_is_told_how_to_stay_free():
    text = PIECES.replace("name: hole}", "name: pivot}")
    for size, does, free in (("3/16", "rivet", "every few blows"), ("1/2", "rivet hot", "while it cools")):
        joint = f"{{rivet: {size}, through: [arm.pivot, stem], grip: 1}}"
        done = reckon_text(f"{text}joins:\n  - {joint}\n", "trial.yaml")
        assert done.copy is not None, done.findings
        (head,) = works_of_joint(done.copy.joints[0], {p.spec.name: p for p in done.copy.pieces}, SHOP)
        assert (head.does, head.case) == (does, "pivot")
        assert free in way_of(head).how


def test_one_rivet_alone_may_be_a_pivot_and_several_never_are():
    (one,) = works("{rivet: 3/16, through: [arm, stem], grip: 1}")
    assert one.says.startswith("if it is to turn")
    (two,) = works("{rivet: 3/16, through: [arm, stem], grip: 1, number: 2}")
    assert "turn" not in two.says


def test_bar_is_fitted_to_a_round_sheet_before_it_is_riveted_to_it():
    drill, rivet = works("{rivet: 3/16, through: [arm.hole, bowl], number: 2}")
    assert drill.says.startswith("the arm is fitted to the curve of the bowl first")
    assert "curve" not in rivet.says


def test_a_pin_that_is_drawn_on_a_bar_is_hung_on_and_not_headed():
    (hung,) = works("{pin: 3/8, through: [stem.tenon, arm.hole]}")
    assert hung.case == "drawn"
    assert "not headed" in way_of(hung).how
    (driven,) = works("{pin: 1/4, through: [arm.hole], grip: 1}")
    assert driven.case == ""
    assert "peen" in way_of(driven).how


def test_the_thicker_of_two_irons_that_are_welded_goes_in_first():
    alike = works("{weld: [arm, stem]}")[-1]
    assert "thicker" not in alike.says
    text = PIECES.replace("  stem:\n    bar: 1/2 sq", "  stem:\n    bar: 3/4 sq")
    done = reckon_text(f"{text}joins:\n  - {{weld: [arm, stem]}}\n", "trial.yaml")
    assert done.copy is not None, done.findings
    weld = works_of_joint(done.copy.joints[0], {p.spec.name: p for p in done.copy.pieces}, SHOP)[-1]
    assert weld.says.startswith("stem is the thicker")
