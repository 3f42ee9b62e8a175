"""What leaves the skin of hot iron, and what enters it in a fire [W/m2]."""

from bickern.iron.heat.air import cylinder_in_air, sheet_in_air
from bickern.iron.heat.body import Body, Chamber, Form, Surround
from bickern.measure.known import Known
from bickern.measure.source import Kind, Source

STEFAN_BOLTZMANN = 5.670374e-8
"""W/m2K4: exact by definition of the units, to the places given."""
LYING = Known(
    1000.0, "W/m2K", Source("", "hot steel lying on steel with scale between", None, "300 to 1000", Kind.MEMORY)
)
"""How well iron conducts where it lies: with it, what `Surround.contact` says becomes a share of the skin."""
MOST_HIDDEN: dict[Form, float] = {Form.BAR: 0.25, Form.SHEET: 0.5}
"""The greatest share of the skin that can lie: one face of a square bar, one of the two of a sheet (exact)."""


def hidden(form: Form, contact: float) -> float:
    """Share of the skin that lies on the anvil, for a lumped contact [W/m2K]: contact over `LYING`, to a greatest."""
    return min(contact / LYING.value, MOST_HIDDEN[form])


def air_takes(body: Body, skin: float, surround: Surround) -> float:
    """Convection [W/m2K] off a skin at that temperature [K], moved air counted."""
    if surround.moving == 0 or abs(skin - surround.air) < 1e-6:
        return 0.0
    if body.form is Form.SHEET:
        return surround.moving * sheet_in_air(skin, surround.air)
    return surround.moving * cylinder_in_air(body.in_air, skin, surround.air)


def skin_loss(body: Body, skin: float, surround: Surround) -> float:
    """All that leaves a skin at a temperature [K], averaged round the girth [W/m2].

    What lies on the anvil neither shines nor meets the air. The anvil stays as cold as it is: it is far heavier, and
    for such contacts its own resistance is under a fifth of that of the scale.
    """
    open_share = 1 - hidden(body.form, surround.contact)
    shines = surround.emissivity * STEFAN_BOLTZMANN * (skin**4 - surround.air**4)
    air = air_takes(body, skin, surround) * (skin - surround.air)
    return open_share * (shines + air) + surround.contact * (skin - surround.anvil)


def skin_gain(skin: float, chamber: Chamber) -> float:
    """All that enters a skin at a temperature [K] in a hot room that sees it from all sides [W/m2]."""
    shines = chamber.emissivity * STEFAN_BOLTZMANN * (chamber.temperature**4 - skin**4)
    return shines + chamber.convection * (chamber.temperature - skin)
