"""What lies on the emptiest sheet is drawn to its left, so that what is left of it is of use."""

from collections.abc import Callable, Sequence

from bickern.geometry.pack.shapes.board import Board
from bickern.geometry.pack.shapes.lay import Lying, Spot, best_spot, empty, lift, put, relax, spot_of
from bickern.geometry.pack.shapes.search import Settled

PUSHES = 120


def gathered(board: Board, kinds: Sequence[int], found: Settled, keep_going: Callable[[], bool]) -> Settled:
    """The same nest, with the copies on its emptiest sheet as far to the left as one move of each brings them."""
    lying = empty(board, kinds, keep_going)
    for copy, spot, x, y in found.places:
        put(lying, copy, spot)
        lying.at[copy] = x, y
    used = [s for s, on in enumerate(lying.on) if on]
    if not used:
        return found
    last = min(used, key=lambda s: sum(board.kinds[kinds[c]].area for c in lying.on[s]) / board.sheets[s].area)
    for copy in sorted(lying.on[last], key=lambda c: (lying.at[c][0], c)):
        _leftward(lying, copy, last)
    places = tuple((c, spot_of(lying, c), float(lying.at[c][0]), float(lying.at[c][1])) for c, *_ in found.places)
    return Settled(found.area, places, found.through)


def _leftward(lying: Lying, copy: int, sheet: int) -> None:
    """Moves one copy to where its right side lies farthest left, if that clears and nothing else is pushed right."""
    before = (list(lying.spots), lying.at.copy(), list(lying.on[sheet]))
    edge = _edges(lying, sheet)
    lies = spot_of(lying, copy)
    lift(lying, copy)
    every = lying.board.kinds[lying.kinds[copy]].turned if lying.board.raster is None else [lies.turned]
    spots = [best_spot(lying, copy, [t], [sheet], 1e-12, leftward=True) for t in every]
    clear = [spot for spot in spots if spot is not None]
    if clear:
        put(lying, copy, min(clear, key=lambda spot: _right(lying, spot)))
        relax(lying, sheet, PUSHES)
    if not clear or lying.hits[sheet] or _edges(lying, sheet) >= edge:
        lying.spots[:], lying.at[:], lying.on[sheet] = before


def _right(lying: Lying, spot: Spot) -> float:
    return spot.i * lying.board.cell + spot.turned.size[0]


def _edges(lying: Lying, sheet: int) -> tuple[float, float]:
    """Where the farthest right side lies, and the sum of all [m]."""
    sides = [float(lying.at[c][0]) + spot_of(lying, c).turned.size[0] for c in lying.on[sheet]]
    return round(max(sides), 5), round(sum(sides), 5)
