"""Questions about gauge numbers."""

from bickern.desk.answer import Answer, gathered, unread
from bickern.desk.ask.question import Asked, Question, Word
from bickern.desk.thickness import said_thickness
from bickern.iron.gauge import GAUGES, OF_STEEL, gauge_called, standard_weight, thickness
from bickern.iron.steel import density_of
from bickern.measure.figure import Figure
from bickern.measure.finding import Finding, stop
from bickern.measure.units.read import read_thickness
from bickern.measure.units.words import GaugeSystem, GaugeWords, Read


def gauge(asked: Asked) -> Answer:
    """What a gauge number means in each system, the named one first: `16`, `16 ga`, `16 SWG`, `4/0`, `0000`."""
    told = _number(asked.text("number"))
    if told.value is None:
        return unread("Gauge", gathered(told))
    number, named = told.value.number, told.value.system
    order = sorted(GaugeSystem, key=lambda s: s is not named)
    known = [(s, t) for s in order if (t := thickness(number, s)) is not None]
    if not known or (named and thickness(number, named) is None):
        return Answer("Gauge", (), (_no_such(gauge_called(number), named),))
    called = gauge_called(number)
    rows = tuple((f"{called} ga, {s}", said_thickness(t, asked.shop.style)) for s, t in known)
    return Answer(f"{called} gauge", rows, figures=(*(Figure(str(s), t, "m") for s, t in known), *_weights(number)))


def _number(text: str) -> Read[GaugeWords]:
    """The number, and the system where one is named; `ga` may be left out."""
    for words in (text, f"{text} ga"):
        read = read_thickness(words, None)
        if isinstance(read.value, GaugeWords):
            return Read(read.value)
    return Read(None, (stop("no-such-gauge", f"“{text}” is not a gauge number.", _known()),))


def _no_such(called: str, named: GaugeSystem | None) -> Finding:
    says = f"The {named} table has no gauge {called}." if named else f"No table has a gauge {called}."
    return stop("no-such-gauge", says, _known())


def _known() -> str:
    """From which number to which each table runs."""
    runs = ((system, table.metres) for system, table in GAUGES.items())
    each = ", ".join(f"{system} {gauge_called(min(m))} to {gauge_called(max(m))}" for system, m in runs)
    return f"Known are {each}."


def _weights(number: int) -> tuple[Figure, ...]:
    """What steel of that number weighs by its area: by its thickness, and as its standard has it."""
    steel = density_of("mild")
    by_size = ((s, "weight an area", t * steel) for s in OF_STEEL if (t := thickness(number, s)) is not None)
    by_law = ((s, "weight by its standard", w) for s in OF_STEEL if (w := standard_weight(number, s)) is not None)
    return tuple(Figure(f"{s}, {what}", value, "kg/m2") for s, what, value in (*by_size, *by_law))


QUESTIONS = (
    Question(
        "gauge",
        "What a gauge number means in each system.",
        (Word("number", "the number: 16, '16 SWG', 4/0, 0000"),),
        gauge,
        "16",
    ),
)
