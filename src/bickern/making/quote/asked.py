"""What a price is made of: it comes down from the desk, which knows the bars and the order of work."""

from dataclasses import dataclass

from bickern.making.shop import Shop
from bickern.measure.money import Money
from bickern.measure.spread import Spread


@dataclass(frozen=True, slots=True)
class Metal:
    """Metal of one kind for all the sets: `name` says what of, `mass` [kg] as it is cut.

    `cost`: what it is worth, at what it costs to replace; None where the shop tells no price for it. `whole`: nothing
    more is lost on the way, since drops and saw are counted in it (a rectangle of sheet, a planned bar). `price`: by
    which price, as it is written. `of`: what must be priced, in words ("metal": plain bar and sheet).
    """

    name: str
    mass: float
    cost: Money | None
    whole: bool = False
    price: str = ""
    of: str = "metal"


@dataclass(frozen=True, slots=True)
class Hours:
    """Time for all the sets, in seconds: of the hand (`work`), and in which the fire burns (`fire`: 0, none is lit).

    `irons`: most that lie in the fire at once.
    """

    work: Spread
    fire: Spread
    irons: int = 1


@dataclass(frozen=True, slots=True)
class Asked:
    """One count of sets to price. `without`: pieces that no order of work is known for, so that their time lacks."""

    count: int
    metal: tuple[Metal, ...]
    hours: Hours
    shop: Shop
    without: tuple[str, ...] = ()
