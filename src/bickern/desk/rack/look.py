"""The rack looked at a page at a time: what a few words find in it, and how much there is in all."""

from dataclasses import dataclass

from bickern.desk.page_ways import NO_RACK, on_page
from bickern.desk.rack.find import found_in
from bickern.desk.rack.rack import Keeper, rack_at
from bickern.desk.rack.rows import in_order, of_kinds
from bickern.making.stock.rack import Stock
from bickern.measure.finding import Finding


@dataclass(frozen=True, slots=True)
class RackLook:
    """What was found, in the order in which a smith looks for it; how many pieces lie there in all; findings."""

    pieces: tuple[Stock, ...] = ()
    lie: int = 0
    findings: tuple[Finding, ...] = ()

    def says(self) -> str:
        """`12 pieces: 9 bars, 3 sheets`, and of how many where not all were asked for."""
        bars, sheets = of_kinds(self.pieces)
        kinds = ((bars, "bar"), (sheets, "sheet"))
        told = [f"{len(some)} {name}{'s' * (len(some) != 1)}" for some, name in kinds if some]
        if len(self.pieces) == self.lie:
            return ", ".join(told) or NO_RACK
        return f"{', '.join(told) or 'nothing'} of the {self.lie} pieces in the rack"


def looked(by: Keeper, words: str = "") -> RackLook:
    """What these words find ("": all that lies there)."""
    rack, found = rack_at(by.where)
    every = in_order(rack)
    some = found_in(every, words.split(), by) if words.split() else every
    told = (one for one in (*by.findings, *found) if one.name != "no-rack")  # the first piece put in makes it
    return RackLook(some, len(every), on_page(told))
