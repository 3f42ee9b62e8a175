"""The order of work as cards: all of the plan and no more, in the sheet's words; ticks that stay with their work."""

import time
from functools import cache
from pathlib import Path

import pytest

import bickern.book
from bickern.desk.daybook.fields import at_field, day_fields, recorded_before, words_of
from bickern.desk.daybook.page import filled, page_of
from bickern.desk.reckon import reckon_text
from bickern.desk.seen import AS_SHOP, Seen
from bickern.desk.work import ticks
from bickern.desk.work.cards import Card, Cards, Kind, Turn, heat_cards, picture
from bickern.desk.work.heats import planned
from bickern.making.work.cautions import CAUTIONS
from bickern.paper.sheets.heat_pictures import drawing_of
from bickern.paper.sheets.heat_words import groups

EXAMPLES = Path(bickern.book.__file__).parent / "examples"
NAMES = sorted(path.stem for path in EXAMPLES.glob("*.yaml"))
LANTERN = (EXAMPLES / "porch-lantern.yaml").read_text()


def reckoned(text, seen=AS_SHOP):
    return planned(reckon_text(text, "job.yaml", folder=EXAMPLES, seen=seen))


@cache
def done_of(name):
    return reckoned((EXAMPLES / f"{name}.yaml").read_text())


@cache
def cards_of(name):
    return heat_cards(done_of(name))


def spells_of(plan):
    return [*(s for piece in plan.pieces if not piece.refused for s in piece.spells), *plan.joining, *plan.finish]


@pytest.mark.parametrize("name", NAMES)
def test_every_work_of_the_plan_stands_on_one_card(name):
    plan = done_of(name).copy.plan
    steps = [
        step.title for card in cards_of(name).cards for step in card.steps if not step.title.startswith("Mark again")
    ]
    assert len(steps) == sum(len(spell.works) for spell in spells_of(plan))
    heats = [card for card in cards_of(name).cards if card.kind is Kind.HEAT]
    assert len(heats) == sum(spell.hot for spell in spells_of(plan))
    tools = [card for card in cards_of(name).cards if card.kind is Kind.TOOL]
    assert len(tools) == len(plan.tools)


@pytest.mark.parametrize("name", NAMES)
def test_heats_are_counted_and_timed_as_in_the_plan(name):
    hot = [spell for spell in spells_of(done_of(name).copy.plan) if spell.hot]
    heats = [card for card in cards_of(name).cards if card.kind is Kind.HEAT]
    for spell, card in zip(hot, heats, strict=True):
        assert (card.gives, card.wants, card.start_at, card.stop_at) == (
            spell.gives,
            spell.wants,
            spell.start,
            spell.stop,
        )
        assert card.carry == done_of(name).copy.shop.hand.carry
        assert str(spell.number) in card.number.split()
        assert "°C" in card.pull
        assert "°C" in card.stop


@pytest.mark.parametrize("name", NAMES)
def test_the_words_are_those_of_the_sheet(name):
    """A card tells in full what the sheet tells in full there or at an earlier step; it never points elsewhere."""
    copy, cards = done_of(name).copy, cards_of(name)
    sheet = [
        (group.title, work, said.like)
        for group in groups(copy, copy.plan)
        for said in group.spells
        for work in said.works
    ]
    steps = [(card.group, step) for card in cards.cards for step in card.steps]
    told_in_full = {f"{work.tools} {work.how}".strip() for _, work, _ in sheet}
    for (group, work, like), (of, step) in zip(sheet, steps, strict=True):
        assert (of, step.title, step.at) == (group, work.title, work.at)
        own = f"{work.tools} {work.how}".strip()
        shortened = bool(like) or work.how.startswith("As ")
        assert step.how == own or shortened
        assert step.how in told_in_full or shortened
        assert not step.how.startswith("As at ")
        assert "above" not in step.how or step.how == own
        assert work.check in ("", step.check)
        assert work.caution in step.caution


@pytest.mark.parametrize("name", NAMES)
def test_each_card_has_the_cautions_of_its_own_operations_and_no_others(name):
    """Looked up here in the table itself; those that go for every heat are read before the fire is lit."""
    copy, cards = done_of(name).copy, cards_of(name)
    does = [
        [work.does for work in said.spell.works]
        for group in groups(copy, copy.plan, whole=True)
        for said in group.spells
    ]
    on_cards = [card for card in cards.cards if card.kind in (Kind.HEAT, Kind.BENCH)]
    applied = {one.key for one in copy.cautions}
    for card, operations in zip(on_cards, does, strict=True):
        told = {
            row.key
            for row in CAUTIONS
            if row.key in applied and "heat" not in row.operations and set(operations) & set(row.operations)
        }
        said = " ".join(card.cautions)
        assert {row.key for row in copy.cautions if row.says in said} == told
    assert len(cards.cautions) == len(copy.cautions)


def test_every_card_has_a_key_and_a_place_of_its_own():
    for name in NAMES:
        cards = cards_of(name).cards
        assert len({card.key for card in cards}) == len(cards)
        assert [card.place for card in cards] == list(range(1, len(cards) + 1))


@pytest.mark.parametrize("name", ["porch-lantern", "fire-set"])
def test_pictures_are_those_of_the_sheet(name):
    copy, cards = done_of(name).copy, cards_of(name)
    spells = [(s, p) for p in copy.plan.pieces for s in p.spells if s.hot] + [
        (s, None) for s in copy.plan.joining if s.hot
    ]
    heats = [card for card in cards.cards if card.kind is Kind.HEAT]
    for (spell, plan), card in zip(spells, heats, strict=True):
        drawn = picture(cards, card)
        assert bool(drawn) == (drawing_of(spell, plan, copy, 0.07) is not None)
        assert not drawn or (drawn.startswith("<svg") and "#000" not in drawn)
    assert not any(picture(cards, card) for card in cards.cards if card.kind is not Kind.HEAT)


def test_the_cards_of_the_lantern_come_within_fifty_milliseconds():
    done = done_of("porch-lantern")
    heat_cards(done)
    times = []
    for _ in range(5):
        began = time.perf_counter()
        heat_cards(done)
        times.append(time.perf_counter() - began)
    assert min(times) < 0.05


def test_what_is_not_validated_is_said_once_each():
    copy, told = done_of("porch-lantern").copy, cards_of("porch-lantern").not_validated
    assert set(told) == set(copy.not_validated)
    assert len(told) == len(set(told))
    assert any("not validated" in says for says in told)


# ---- the order of the turns


def lot(place, group, make, together):
    return Card(f"{place}", Kind.HEAT, place, group, "", "post", make=make, together=together)


def test_several_alike_go_card_by_card_where_they_lie_in_the_fire_together():
    cards = Cards((lot(1, "1", 3, True), lot(2, "1", 3, True), lot(3, "Joining", 1, False)))
    assert [(t.place, t.copy) for t in cards.turns] == [(1, 1), (1, 2), (1, 3), (2, 1), (2, 2), (2, 3), (3, 1)]


def test_they_go_piece_by_piece_otherwise():
    cards = Cards((lot(1, "1", 2, False), lot(2, "1", 2, False)))
    assert [(t.place, t.copy) for t in cards.turns] == [(1, 1), (2, 1), (1, 2), (2, 2)]


def test_every_turn_comes_once():
    for name in NAMES:
        cards = cards_of(name)
        told = [(t.place, t.copy) for t in cards.turns]
        assert len(set(told)) == len(told) == sum(card.make for card in cards.cards if card.ticks)


def test_a_piece_that_nothing_is_offered_for_says_why():
    text = LANTERN.replace("steel: S235JR\n", "steel: S235JR\n    coating: zinc plated\n")
    done = reckoned(text)
    cards = heat_cards(done)
    refused = [card for card in cards.cards if card.kind is Kind.REFUSED]
    assert [card.piece for card in refused] == [one.piece for one in done.copy.plan.pieces if one.refused]
    assert "arm" in {card.piece for card in refused}
    assert all(dict(card.facts)["Why"] and not card.ticks for card in refused)
    assert not {card.place for card in refused} & {turn.place for turn in cards.turns}


def test_a_job_without_a_plan_has_no_cards():
    assert heat_cards(reckon_text("job: Nothing\n", "job.yaml")).cards == ()


# ---- by what a card is known


def keys(text, seen=AS_SHOP):
    return {card.key: card for card in heat_cards(reckoned(text, seen)).cards}


def test_keys_stay_when_the_job_is_seen_otherwise_or_told_otherwise():
    before = keys(LANTERN)
    assert keys(LANTERN, Seen("mm", "UK")).keys() == before.keys()
    assert (
        keys(LANTERN.replace("job: Porch lantern", "job: Another").replace("make: 1\n", "make: 2\n")).keys()
        == before.keys()
    )


def test_only_what_is_done_otherwise_has_another_key():
    """A longer palm: the palm's own heat, the cut and the marks are others; the hood's and the rings' work is not."""
    before, after = keys(LANTERN), keys(LANTERN.replace("{keep: 2, name: palm}", "{keep: 2 1/2, name: palm}"))
    gone = {card.title for key, card in before.items() if key not in after}
    assert all(card.piece in ("arm", "") for key, card in before.items() if key not in after)
    assert any(title.startswith("Spread palm") for title in gone)
    assert "Cut the stock" in gone
    assert not any(title.startswith("Taper tip") for title in gone)


def test_another_size_of_one_hole_is_another_work():
    before, after = (
        keys(LANTERN),
        keys(LANTERN.replace("{size: 1/4, by: drill, at: start of palm", "{size: 3/16, by: drill, at: start of palm")),
    )
    assert {card.title.partition(",")[0] for key, card in before.items() if key not in after} == {"Drill upper screw"}


# ---- ticks


@pytest.fixture
def job(tmp_path, monkeypatch):
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
    file = tmp_path / "lantern.yaml"
    file.write_text(LANTERN)
    return file


def card_of(cards, piece, title):
    return next(card for card in cards.cards if card.piece == piece and card.title.startswith(title))


def test_of_four_posts_two_are_done(job):
    cards = cards_of("porch-lantern")
    twist = card_of(cards, "post", "Twist")
    for copy in (1, 2, 3):
        assert ticks.tick(job, twist, copy) is None
    ticks.untick(job, twist, 3)
    stands = ticks.ticked(job)
    assert stands.done(twist) == 2
    far = ticks.progress(cards, stands, Turn(twist.place, 2))
    assert (far.done, far.of) == (2, len(cards.turns))
    assert far.next == Turn(twist.place, 3)
    assert ticks.progress(cards, stands).next == Turn(1, 1)


def test_when_all_is_ticked_off_nothing_is_next_and_each_piece_is_made(job):
    cards = cards_of("ring-pull")
    for turn in cards.turns:
        ticks.tick(job, cards.cards[turn.place - 1], turn.copy)
    stands = ticks.ticked(job)
    assert ticks.progress(cards, stands).next is None
    assert {card.piece: ticks.made_so_far(cards, stands, card.piece) for card in cards.cards if card.piece} == {
        card.piece: card.make for card in cards.cards if card.piece
    }


def test_what_was_ticked_off_of_an_earlier_plan_is_told_and_counts_for_nothing(job):
    before = cards_of("porch-lantern")
    palm = card_of(before, "arm", "Spread palm")
    ticks.tick(job, palm)
    ticks.write_note(job, palm, "came out wide")
    after = heat_cards(reckoned(LANTERN.replace("{keep: 2, name: palm}", "{keep: 2 1/2, name: palm}")))
    stands = ticks.ticked(job)
    assert ticks.earlier(before, stands) == ()
    told = ticks.earlier(after, stands)
    assert [says for _, says in told][1] == "came out wide"
    assert all("Spread palm" in name for name, _ in told)
    assert ticks.progress(after, stands).done == 0
    assert ticks.progress(before, stands).done == 1, "the plan as it was finds its ticks again"


def test_notes_are_kept_and_stand_as_a_remark_and_a_new_making_begins_without_them(job):
    cards = cards_of("porch-lantern")
    for title, says in (("Spread palm", "wide\n by a hair"), ("Taper tip", "two heats")):
        ticks.write_note(job, card_of(cards, "arm", title), says)
    ticks.pull(job, card_of(cards, "arm", "Taper tip"))
    stands = ticks.ticked(job)
    assert ticks.noted(cards, stands, "arm") == "Heats 1 and 2: wide by a hair; Heats 3 and 4: two heats"
    assert (ticks.pulled(cards, stands, "arm"), ticks.pulled(cards, stands, "post")) == (1, 0)
    ticks.begin_anew(job)
    now = ticks.ticked(job)
    assert (now.ticks, now.notes, now.pulls) == ({}, {}, {})


def test_what_is_filled_in_is_kept_until_it_is_written(job):
    ticks.write_draft(job, "post", {"heats": "9", "remark": "ü" * 2000})
    assert ticks.ticked(job).drafts == {"post": {"heats": "9", "remark": "ü" * 2000}}
    ticks.write_draft(job, "post", {})
    assert not ticks.ticked(job).drafts["post"]
    ticks.write_draft(job, "", {"remark": "x" * 20_000})
    assert not ticks.ticked(job).drafts[""], "what is cut short is not shown as if it were whole"


def test_other_windows_are_told_until_they_go(job):
    cards, heard = cards_of("porch-lantern"), []
    stop = ticks.listen(job, lambda: heard.append("one"))
    other = ticks.listen(job, lambda: heard.append("other"))
    ticks.tick(job, cards.cards[0])
    stop()
    ticks.tick(job, cards.cards[1])
    other()
    ticks.tick(job, cards.cards[2])
    assert heard == ["one", "other", "other"]


# ---- what really happened, as fields


def test_the_fields_of_the_day_book_hold_what_was_foreseen_and_find_their_faults(job, tmp_path):
    page = page_of(job, None, str(tmp_path / "rack.sqlite"), write=True).value
    fields = day_fields(page, "post").value
    names = [one.name for one in fields]
    assert names[:6] == ["made", "stock", "left", "heats", "seconds", "remark"]
    assert len(set(names)) == len(names)
    assert "foreseen 6" in next(one.says for one in fields if one.name == "heats")
    wrong = {"stock": "long", "weighed_before": "3", "minutes of twist": "q", "reached foot": "z", "made": "1"}
    found = filled(page, "post", words_of(wrong)).findings
    assert {at_field(one, fields)[0] for one in found} == set(wrong) - {"made"}
    assert not any("--" in at_field(one, fields)[1] for one in found)
    (bad,) = filled(page, "post", words_of({"made": "some"})).findings
    assert at_field(bad, fields)[0] == "made"
    assert recorded_before(page, "post") == 0, "nothing of it was kept"


def test_figures_filled_in_are_kept_in_the_day_book(job, tmp_path):
    page = page_of(job, None, str(tmp_path / "rack.sqlite"), write=True).value
    told = {
        "made": "2",
        "heats": "7",
        "seconds": "30",
        "reached foot": "3/4",
        "minutes of fire": "5",
        "remark": " thin  ",
        "left": " ",
    }
    done = filled(page, "post", words_of(told)).value
    assert done.says[0] == "Record 1 is kept: “post”, 2 made, Porch lantern."
    assert recorded_before(page, "post") == 2
    assert recorded_before(page, "arm") == 0
