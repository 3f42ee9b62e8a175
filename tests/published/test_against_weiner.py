"""Against M. Weiner et al., Rolling Process Variation Estimation Using a Monte-Carlo Method, 2024, supplement.

Kind: paper. Read in the source (DOI 10.5281/zenodo.13960836): 68 bars of C15 and C45 rolled from 50 to 11 mm, their
skin measured by pyrometer before and after each pass, and the authors' own reckoning of the nominal bar. Ten pauses of
that reckoning come out within 0.25 % by their constants; that is a check of arithmetic. What was measured is a
comparison: from 1156 C after the second pass to 965 C before the tenth (44 s in all, medians) the bars lost 1.06 times
what is reckoned here for still air; three sevenths of that loss is heat that the rolls put in, reckoned by the authors
and measured by nobody. Bar by bar, worked out once from the files, it is 1.04 (0.98 to 1.10). In the next pause, 7.3 s
in a 12 mm bar, they lost 1.5 times as much (half of the bars 1.3 to 1.6): no cause is known, and **here print and
reckoning disagree**. Single earlier pauses scatter from none to twice, since rolling chills the skin and its heat comes
back from within. So still air is the longest that a smith can hope
for. No measured curve of a small bar or sheet in still air was found, nor any on an anvil. Of nine specific heats
measured in those steels, six lie within 5 % of the standard's; at 697, 760 and 826 C they are 8, 20 and 7 % off, for
the change inside comes 25 C higher.
"""

import pytest
from beside import Beside

from bickern.iron.heat import balance
from bickern.iron.heat.balance import nodes, seconds_at
from bickern.iron.heat.body import ROOM, Body, Surround
from bickern.iron.heat.cooling import cooling_curve
from bickern.iron.heat.loss import STEFAN_BOLTZMANN
from bickern.iron.heat.steel_heat import heat_capacity
from bickern.measure.known import Known
from bickern.measure.source import MATHEMATICS
from bickern.measure.units.words import ZERO_C

RECKONED = [
    (9.6697, 1156.69, 1133.37, 6), (9.0639, 1143.03, 1119.09, 6), (6.0801, 1136.35, 1101.81, 6),
    (6.4471, 1118.70, 1087.54, 6), (4.4918, 1106.24, 1063.74, 6), (4.9000, 1078.49, 1042.17, 6),
    (3.0618, 1070.43, 1015.17, 6), (3.6322, 1036.35, 993.43, 6), (2.8119, 1012.85, 961.79, 6),
    (2.9646, 980.99, 916.43, 9),
]  # fmt: skip
"""Area over girth [mm], heat before and after a pause [C], seconds: by emissivity 0.8, 10 W/m2K, 7500 kg/m3, 690."""
CHAIN = [
    (9.0639, 114.70, 3.92, 17.26), (6.0801, 116.17, 5.61, 16.88), (6.4471, 82.12, 5.66, 18.70),
    (4.4918, 81.64, 5.02, 14.75), (4.9000, 62.11, 5.08, 28.27), (3.0618, 64.94, 6.11, 21.18),
    (3.6322, 46.34, 5.88, 19.43), (2.8119, 47.58, 5.52, 0.0),
]  # fmt: skip
"""Pauses after passes 2 to 9: area over girth and girth [mm], seconds from mid pass to mid pass (median of 68 bars),
and the net heat of the pass that ends it [K] as the authors reckon it."""
AFTER_SECOND, BEFORE_TENTH = 1156.14, 965.42
"""Measured medians of 68 bars [C]."""
LAST_PAUSE = [(954.19, 79.3, 7.28), (944.88, 71.1, 7.32)]
"""Pause between tenth and eleventh pass: start [C], median fall [K], seconds; 31 bars of C15, 36 of C45."""
SPECIFIC_HEATS = [
    (336, 591.884), (431, 612.896), (606, 756.612), (697, 907.052), (760, 1412.16), (826, 786.028), (900, 623.821),
    (987, 633.066), (1167, 657.439),
]  # fmt: skip


@pytest.mark.parametrize(("millimetres", "start", "stop", "seconds"), RECKONED)
def test_by_their_constants_their_pauses_come_out(monkeypatch, millimetres, start, stop, seconds):
    monkeypatch.setattr(balance, "enthalpy", lambda t: 690.0 * t)
    monkeypatch.setattr(balance, "conductivity", lambda _: 1e9)
    monkeypatch.setattr(balance, "DENSITY", Known(7500.0, "kg/m3", MATHEMATICS))
    body = Body(millimetres * 1e-3)
    through = nodes(
        body, start + ZERO_C, stop + ZERO_C,
        lambda t: 0.8 * STEFAN_BOLTZMANN * (t**4 - ROOM**4) + 10 * (t - ROOM),
    )  # fmt: skip
    assert seconds_at(body, through)[-1] == pytest.approx(seconds, rel=0.0025)


def after(body: Body, start: float, seconds: float) -> float:
    """Heat [C] after some seconds in still air."""
    curve = cooling_curve(body, start + ZERO_C, start - 200 + ZERO_C, Surround())
    i = next(i for i, s in enumerate(curve.seconds) if s > seconds)
    share = (seconds - curve.seconds[i - 1]) / (curve.seconds[i] - curve.seconds[i - 1])
    return curve.temperatures[i - 1] + share * (curve.temperatures[i] - curve.temperatures[i - 1]) - ZERO_C


def chain_lost() -> tuple[float, float]:
    """What the bars lost in the pauses of the chain [K]: measured, with the heat the rolls put in, and ours."""
    heat, lost = AFTER_SECOND, 0.0
    for millimetres, girth, seconds, warms in CHAIN:
        cooled = after(Body(millimetres * 1e-3, girth=girth * 1e-3), heat, seconds)
        lost += heat - cooled
        heat = cooled + warms
    return AFTER_SECOND - BEFORE_TENTH + sum(warms for *_, warms in CHAIN), lost


def last_lost(start: float, seconds: float) -> float:
    """What ours loses in the last pause [K]."""
    return start - after(Body(2.9646e-3, girth=38.08e-3), start, seconds)


def beside() -> list[Beside]:
    """Measured falls of temperature and specific heats, and ours."""
    chain = "part of it is heat that the rolls put in, which nobody measured"
    pauses = [
        Beside(f"heat lost by a 12 mm bar of {steel} in {seconds} s from {start:.0f} C", "K", fall,
               last_lost(start, seconds), "**disagrees**; no cause is known")
        for steel, (start, fall, seconds) in zip(("C15", "C45"), LAST_PAUSE, strict=True)
    ]  # fmt: skip
    heats = [
        Beside(f"specific heat at {celsius} C", "J/kgK", measured, heat_capacity(celsius + ZERO_C),
               "the change inside comes 25 C higher than in the standard" if 690 < celsius < 830 else "")
        for celsius, measured in SPECIFIC_HEATS
    ]  # fmt: skip
    return [Beside("heat lost by bars rolled from 50 to 11 mm, all pauses", "K", *chain_lost(), chain), *pauses, *heats]


def test_a_chain_of_pauses_lost_a_little_more_than_still_air():
    measured, lost = chain_lost()
    assert measured / lost == pytest.approx(1.06, abs=0.02)


@pytest.mark.parametrize(("start", "fall", "seconds"), LAST_PAUSE)
def test_the_last_pause_lost_half_as_much_again_and_so_disagrees(start: float, fall: float, seconds: float):
    assert fall / last_lost(start, seconds) == pytest.approx(1.5, abs=0.1)


@pytest.mark.parametrize(("celsius", "measured"), SPECIFIC_HEATS)
def test_specific_heat_as_measured(celsius: float, measured: float):
    far = {697: 0.09, 760: 0.21, 826: 0.08}.get(celsius, 0.05)
    assert heat_capacity(celsius + ZERO_C) == pytest.approx(measured, rel=far)
