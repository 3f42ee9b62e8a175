"""Short pieces on a longer bar: at which end it goes on, when the piece is cut off, and what waits for that."""

from pathlib import Path

from bickern.desk.reckon import reckon_file, reckon_text
from bickern.making.heats.plan import plan_of
from bickern.making.heats.result import End, Grip, PiecePlan, Plan
from bickern.making.shop import Shop

EXAMPLES = Path(__file__).parents[3] / "examples"
LEAF = """
job: leaf key ring
units: in
pieces:
  leaf:
    bar: 1/4 sq
    metal: [{leaf: 1 1/4, width: 5/8, thick: 1/16, name: leaf}, {to: 1/8 rd, over: 2, name: stem}]
    path: [{straight: rest}, {eye: 1/2, turn: up, name: loop}]
"""
GATE = """
job: gate hook
units: in
pieces:
  hook:
    bar: 3/8 sq
    metal:
      - {as: 1/4 rd, over: 3, name: for the eye}
      - {as: 3/8 sq, over: 1 1/2, name: twisted}
      - {to: 3/16 sq, over: 2, name: tail}
    path:
      - {eye: 1/2, turn: left, name: eye}
      - {straight: rest}
      - {bend: 90, inside radius: 1/4, turn: left, name: hook}
      - {straight: 1/2}
    twist: [{turns: 1, all of: twisted}]
"""


def plan(text: str) -> Plan:
    copy = reckon_text(text, "job.yaml").copy
    assert copy is not None
    return plan_of(copy.pieces, (), "", Shop())


def told(made: PiecePlan) -> list[str]:
    """What is done, in order, with what it is called."""
    return [f"{w.does} {w.name}".rstrip() for s in made.spells for w in s.works]


def test_a_short_hook_is_cut_off_the_bar_then_its_point_is_drawn_then_it_is_bent() -> None:
    """W. L. Ilgen, Forge Work, 1912, the pipe hook (read in page excerpts of the source): shouldered and drawn on the
    bar, cut off, then the point drawn, then bent."""
    text = """
job: pipe hook
units: in
pieces:
  hook:
    bar: 1/2 sq
    metal: [{as: 3/4 x 1/4, over: 1, name: head}, {as: 3/8 sq, over: 2, name: shank}, {to: point, over: 2, name: point}]
    path: [{straight: 3}, {bend: 90, inside radius: 1/4, turn: up, name: hook}, {straight: rest}]
"""
    made = plan(text).pieces[0]
    done = [d for d in told(made) if not d.startswith(("mark", "shoulder"))]
    assert done == ["spread head", "draw shank", "cut off", "taper point", "bend hook", "straighten"]
    cut = next(i for i, s in enumerate(made.spells) if s.works[0].does == "cut off")
    held = [s.hold.grip for s in made.spells if s.hot]
    hot_before = sum(s.hot for s in made.spells[: cut + 1])
    assert set(held[:hot_before]) == {Grip.LONGER}
    assert Grip.LONGER not in held[hot_before:]


def test_an_eye_at_the_end_where_the_longer_bar_goes_on_is_turned_when_it_is_cut_off() -> None:
    done = told(plan(LEAF).pieces[0])
    assert done[1:] == ["taper stem", "spread leaf", "cut off", "curl loop", "straighten"]


def test_a_short_gate_hook_has_its_eye_on_the_bar_and_its_tail_and_twist_when_it_is_cut_off() -> None:
    made = plan(GATE).pieces[0]
    done = [d for d in told(made) if not d.startswith(("mark", "shoulder"))]
    assert done[:6] == ["draw for the eye", "curl eye", "cut off", "taper tail", "twist twisted", "straighten twisted"]
    hot = [s for s in made.spells if s.hot]
    cut = next(i for i, s in enumerate(hot) if any(w.does == "cut off" for w in s.works))
    assert hot[cut].works[-1].does == "cut off"  # it falls: what comes next is another heat
    assert [s.hold.grip is Grip.LONGER for s in hot] == [i <= cut for i in range(len(hot))]


def test_bends_that_are_held_well_by_themselves_are_not_done_in_one_heat_in_small_tongs() -> None:
    text = """
job: drive hook
units: in
pieces:
  hook:
    bar: 3/8 sq
    metal: [{from: point, to: 3/8 sq, over: 1 1/2}, {as: 3/8 sq, over: 1}, {to: 1/8 rd, over: 4}]
    path: [{straight: 1 1/2}, {corner: 90, turn: up, name: corner}, {straight: 1},
           {bend: 180, inside radius: 1/2, turn: up, name: hook}, {straight: rest}]
"""
    made = plan(text).pieces[0]
    bent = [s for s in made.spells if any(w.bends for w in s.works)]
    assert [[w.name for w in s.works] for s in bent] == [["hook"], ["corner"]]
    assert not any(s.hold.small for s in bent)


def test_the_end_with_the_hole_is_free_and_the_bar_goes_on_at_the_tail() -> None:
    copy = reckon_file(EXAMPLES / "ring-pull.yaml").copy
    assert copy is not None
    pieces = plan_of(copy.pieces, copy.joints, copy.job.finish, copy.shop).pieces
    spells = [s for p in pieces for s in p.spells if s.hot and p.piece == "boss"]
    assert {(s.hold.grip, s.hold.end) for s in spells} == {(Grip.LONGER, End.OTHER)}


def test_a_nail_has_its_bar_go_on_at_the_head_since_its_point_is_drawn_in_the_free_end() -> None:
    text = """
job: nail
units: in
pieces:
  nail: {bar: 1/4 sq, metal: [{as: 1/2 x 1/8, over: 1/2, name: head}, {to: point, over: 2 1/2, name: shank}]}
"""
    made = plan(text)
    assert [f.name for f in made.findings] == ["short-piece"]
    spells = [s for s in made.pieces[0].spells if s.hot]
    assert {(s.hold.grip, s.hold.end) for s in spells} == {(Grip.LONGER, End.DATUM)}
    assert told(made.pieces[0])[-2:] == ["cut off", "straighten"]


def test_a_thorn_is_tapered_on_the_longer_bar_then_cut_off_then_scarfed() -> None:
    """The longer bar is the best handle: common practice."""
    text = """
job: thorn
units: in
pieces:
  branch:
    bar: 1/2 rd
    metal: [{keep: 12, name: stem}]
    weld on:
      thorn: {at: middle of stem, bar: 1/4 rd, metal: [{to: 1/16 rd, over: 2, name: spike}]}
"""
    made = plan(text)
    spells = [s for s in made.pieces[0].spells if s.hot and s.works[0].child]
    assert [w.does for s in spells for w in s.works] == ["taper", "cut off", "scarf"]
    assert [s.hold.grip for s in spells] == [Grip.LONGER, Grip.LONGER, Grip.TONGS]
    assert not [f for f in made.findings if f.name == "nothing-to-hold"]


def test_a_toggle_too_short_for_any_tongs_is_made_whole_on_the_bar_and_nicked_off_at_its_point() -> None:
    text = """
job: toggle
units: mm
pieces:
  toggle:
    bar: 8 rd
    metal: [{from: 2 rd, to: 8 rd, over: 15, name: a}, {as: 9 x 5, over: 10, name: eye}, {to: 2 rd, over: 15, name: b}]
"""
    made = plan(text)
    hot = [s for s in made.pieces[0].spells if s.hot]
    assert {s.hold.grip for s in hot} == {Grip.LONGER}
    assert hot[-1].works[-1].does == "cut off"


def test_a_head_that_swells_is_made_in_the_free_end() -> None:
    """What is upset must be struck on its end: common practice."""
    text = """
job: boss
units: in
pieces:
  boss: {bar: 3/4 rd, metal: [{to: 1 1/4 rd, over: 3/8, name: head}, {as: 3/8 rd, over: 1, name: tenon}]}
"""
    spells = [s for s in plan(text).pieces[0].spells if s.hot and s.hold.grip is Grip.LONGER]
    assert {s.hold.end for s in spells} == {End.OTHER}


def test_the_heat_to_cut_off_at_lies_in_the_bar_and_not_in_the_finished_leaf() -> None:
    spells = plan(LEAF).pieces[0].spells
    cut = next(s for s in spells if any(w.does == "cut off" for w in s.works))
    assert cut.zone[0] > 1.25 * 0.0254
