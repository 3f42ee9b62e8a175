"""Metals by name, and what is on them."""

import pytest

from bickern.iron.coating import CLEAN, COATINGS, coating_finding
from bickern.iron.steel import (
    SCRAP,
    STEELS,
    FireWeld,
    MetalClass,
    Steel,
    density_of,
    families_of,
    find_steel,
    fire_weld_finding,
)
from bickern.measure.finding import Weight


@pytest.mark.parametrize("steel", STEELS.values(), ids=STEELS)
def test_every_row_carries_units_and_sources(steel: Steel) -> None:
    assert steel.density.unit == "kg/m3"
    assert 6800 < steel.density.value < 9000
    assert steel.density.source.title
    assert steel.source.title
    if steel.yield_cold is not None:
        assert steel.yield_cold.unit == "Pa"
        assert 30e6 < steel.yield_cold.value < 1000e6
        assert steel.yield_cold.source.title
    assert 0 <= steel.carbon[0] <= steel.carbon[1] < 0.05


def test_no_name_means_two_metals() -> None:
    names = [n.lower() for s in STEELS.values() for n in (s.name, *s.aliases)]
    assert len(names) == len(set(names))


@pytest.mark.parametrize(
    ("asked", "name"),
    [("mild", "S235JR"), ("Mild Steel", "S235JR"), ("a36", "A36"), (1018, "1018"), ("AISI 1045", "1045"),
    ("spring", "5160"),
     ("wrought iron", "wrought iron"), ("stainless", "304"), ("  W1 ", "W1")],
)  # fmt: skip
def test_metals_are_found_by_trade_names(asked: object, name: str) -> None:
    read = find_steel(asked)
    assert read.value is STEELS[name]
    assert read.findings == ()


def test_an_unknown_name_is_a_finding_with_the_nearest() -> None:
    read = find_steel("S235JX")
    assert read.value is None
    assert read.findings[0].name == "no-such-steel"
    assert "`S235JR`" in read.findings[0].try_this


@pytest.mark.parametrize("was", [*SCRAP, "old truck leaf spring", "Axles", "coil springs", "rail spikes"])
def test_scrap_is_taken_for_a_metal_only_as_a_guess_that_is_told(was: str) -> None:
    read = find_steel(was)
    assert read.value is not None
    assert read.value.family is not MetalClass.MILD or was.startswith("rail")
    assert [(f.name, f.weight) for f in read.findings] == [("scrap-steel", Weight.WARN)]
    assert "guess" in read.findings[0].says
    assert "test piece" in read.findings[0].try_this
    assert "cracks" in read.findings[0].try_this


@pytest.mark.parametrize("was", ["stainless axle", "profile", "spring leaf blower"])
def test_what_is_not_quite_scrap_is_not_guessed(was: str) -> None:
    assert [f.name for f in find_steel(was).findings] == ["no-such-steel"]


def test_scrap_is_no_name_of_a_metal_and_each_guess_is_in_the_table() -> None:
    assert set(SCRAP.values()) <= set(STEELS)
    assert not set(SCRAP) & {n.lower() for s in STEELS.values() for n in (s.name, *s.aliases)}


@pytest.mark.parametrize("asked", [None, "", "unknown", "scrap", "?"])
def test_metal_that_nobody_knows_stops(asked: object) -> None:
    assert [f.name for f in find_steel(asked).findings] == ["steel-unknown"]


def test_cast_iron_is_never_forged_and_leaded_bar_is_warned_of() -> None:
    assert [f.name for f in find_steel("cast iron").findings] == ["not-forgeable"]
    assert [f.name for f in find_steel("leaded").findings] == ["leaded-steel"]


def test_density_falls_back_to_mild_steel() -> None:
    assert density_of("no such metal") == density_of("mild") == 7850
    assert density_of("wrought iron") == pytest.approx(7688.9, abs=0.1)


@pytest.mark.parametrize(
    ("name", "words"),
    [("mild", {"mild"}), ("304", {"stainless"}), ("brass", {"brass"}), ("copper", {"copper"}), ("W1", {"tool"}),
     ("5160", {"spring"}), ("12L14", {"mild", "leaded"}), ("no such metal", {"unknown", "tool"})],
)  # fmt: skip
def test_the_words_that_cautions_go_by(name: str, words: set[str]) -> None:
    assert families_of(name) == words


def test_fire_welding() -> None:
    assert fire_weld_finding(STEELS["S235JR"]) is None
    assert fire_weld_finding(STEELS["wrought iron"]) is None
    care, never = fire_weld_finding(STEELS["W1"]), fire_weld_finding(STEELS["304"])
    assert care is not None
    assert care.weight is Weight.WARN
    assert never is not None
    assert never.stops
    hard = (MetalClass.TOOL, MetalClass.SPRING, MetalClass.STAINLESS, MetalClass.COPPER, MetalClass.CAST)
    assert all(s.fire_weld is not FireWeld.YES for s in STEELS.values() if s.family in hard)


@pytest.mark.parametrize("word", COATINGS)
def test_every_coating_stops(word: str) -> None:
    for text in (word, word.upper(), f"{word} steel bar", f"light {word}"):
        finding = coating_finding(text)
        assert finding is not None
        assert finding.name == "coated-metal"
        assert finding.stops


@pytest.mark.parametrize(
    "word",
    [*sorted(CLEAN), "mill scale", "hot rolled, black", "hot rolled", "hot-rolled", "cold rolled", "bright",
     "bright drawn", "pickled and oiled", "hot rolled, pickled and oiled", "not galvanised", "not hot-dipped",
     "no paint", False],
)  # fmt: skip
def test_bare_metal_passes(word: object) -> None:
    assert coating_finding(word) is None


@pytest.mark.parametrize("word", [None, "", "unknown", "greyish", "who knows", True, "?", "tube", 7])
def test_what_is_not_known_is_warned_of(word: object) -> None:
    finding = coating_finding(word)
    assert finding is not None
    assert finding.weight is Weight.WARN


@pytest.mark.parametrize(
    "word",
    ["sealed tube", "closed cylinder", "shock absorber", "hot-dip galvanised", "chrome plated", "hot dip", "hot-dipped",
     "Hot dipped, clean", "hot dip zinc", "HDG", "(HDG)", "dipped", "zinc plated", "zinc-plated", "bright zinc plated",
     "BZP", "electroplated", "electro-plated", "chromed", "tinned", "galvanised.", "zinc/nickel",
     "not painted, hot-dipped", "hot rolled, dipped"],
)  # fmt: skip
def test_coats_and_scrap_that_must_be_refused(word: str) -> None:
    finding = coating_finding(word)
    assert finding is not None
    assert finding.stops
