"""`make bench`: the figures, measured and printed, never asserted."""

import resource
import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from functools import partial
from pathlib import Path

from bickern.desk.reckon import Reckoning, reckon_file, reckon_text
from bickern.desk.sheets.sheets import packet_of
from bickern.desk.whole import assemble
from bickern.desk.work.heats import planned
from bickern.geometry.pose import Pose
from bickern.geometry.solid.solid import Fineness, Solid
from bickern.iron.heat.body import Body, Surround
from bickern.iron.heat.cooling import cooling_curve
from bickern.measure.units.words import ZERO_C
from bickern.paper.copy import Copy
from bickern.paper.sheets.heat_pictures import drawing_of
from bickern.paper.sheets.heats import PICTURE
from bickern.parts.fit.result import Swing
from bickern.parts.fit.swing.hinges import Hinge, hinges
from bickern.parts.fit.swing.swing import lumps_of, swing_of, swings
from bickern.parts.fit.swing.turning import Lump, meetings
from bickern.parts.hang.hang import hang
from bickern.parts.hang.held import wall_face
from bickern.parts.set.result import SetResult
from bickern.parts.set.solids import piece_solid

ROOT = Path(__file__).parents[1]
LANTERN = ROOT / "examples" / "porch-lantern.yaml"


def best_of(times: int, work: Callable[[], object]) -> float:
    """Median seconds of several runs."""
    spent = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        spent.append(time.perf_counter() - start)
    return statistics.median(spent)


def cold(*words: str) -> float:
    """Median seconds of a fresh process."""
    return best_of(5, lambda: subprocess.run([sys.executable, *words], check=False, capture_output=True))


def many(count: int) -> str:
    """A job of `count` plain bars."""
    piece = "\n  p{}:\n    bar: 1/2 sq\n    metal: [{{from: 1/8 rd, to: 1/2 sq, over: 4}}, {{keep: 9}}]"
    return "job: Many\nunits: in\npieces:" + "".join(piece.format(i) for i in range(count)) + "\n"


def say(what: str, seconds: float, goal: str) -> None:
    """One line of the table."""
    print(f"{what:<46}{seconds * 1000:>10.1f} ms   goal: {goal}")


def meshed(copy: Copy) -> dict[str, Solid]:
    """Every piece of a job as a mesh of preview quality."""
    return {p.spec.name: piece_solid(p, Fineness.PREVIEW, copy.shop.sheet) for p in copy.pieces}


def together(copy: Copy) -> None:
    """What it takes to see a set in space: its meshes, how it hangs, how far its joints swing."""
    arm = next(p for p in copy.pieces if p.spec.name == "arm")
    meshed(copy)
    say("a bar meshed at preview: arm", best_of(40, lambda: piece_solid(arm, Fineness.PREVIEW)), "10 ms")
    say("the whole set meshed at preview", best_of(5, lambda: meshed(copy)), "150 ms")
    whole = assemble.hung(reckon_file(LANTERN)).copy
    assert whole is not None
    put, rest = whole.set, whole.hang
    assert put is not None
    assert rest is not None
    say("the lantern put together and hung", best_of(5, lambda: assemble.hung(reckon_file(LANTERN))), "quick")
    say("the lantern hung", best_of(5, lambda: hang(put)), "200 ms")
    lumps = lumps_of(*hanging(LANTERN))
    for one in hinges(put, rest.poses):
        spent = best_of(3, partial(swung, one, lumps))
        say(f"swing: {one.what}, {one.way}"[:46], spent, "300 ms a joint")
    for job in (LANTERN, LANTERN.with_name("crane-chain.yaml")):
        say(f"all swings: {job.stem}", best_of(3, partial(swings, *hanging(job))), "800 ms")


def hanging(job: Path) -> tuple[SetResult, tuple[Pose, ...], list[Solid], float | None]:
    """A set, how it hangs, its solids and where its wall is: what its swings are found from."""
    copy = assemble.hung(reckon_file(job)).copy
    assert copy is not None
    assert copy.set is not None
    assert copy.set.held is not None
    assert copy.hang is not None
    made, held, poses = meshed(copy), copy.set.held, copy.hang.poses
    solids = [made[part.piece.spec.name] for part in copy.set.parts]
    return copy.set, poses, solids, wall_face(copy.set, held, poses[held.body])


def heats(done: Reckoning) -> None:
    """What the order of work takes: one cooling curve, and the whole plan with what its heats take of the stock."""
    bar, start, stop = Body(0.009525 / 4), 1150 + ZERO_C, 800 + ZERO_C
    say("a cooling curve, 3/8 sq", best_of(200, lambda: cooling_curve(bar, start, stop, Surround())), "0.3 ms")
    first = best_of(1, lambda: planned(done))
    say("the lantern planned, the first time", first, "quick")
    say("the lantern planned, warm", best_of(10, lambda: planned(done)), "100 ms")
    whole = planned(done).copy
    assert whole is not None
    heat_pictures(whole)
    say("pictures of its heats, before and after", best_of(5, lambda: heat_pictures(whole)), "150 ms")


def heat_pictures(copy: Copy) -> None:
    """Every heat of a job that is drawn, as the shop sheet draws it."""
    assert copy.plan is not None
    for one in copy.plan.pieces:
        for spell in one.spells:
            if spell.hot:
                drawing_of(spell, one, copy, PICTURE)


def whole_packet(done: Reckoning) -> object:
    """The set put together, swung and hung, and everything printed."""
    return packet_of(assemble.for_packet(done, "shop"), "letter", "shop")


def swung(hinge: Hinge, lumps: tuple[Lump, ...]) -> Swing:
    """One way of one joint."""
    return swing_of(hinge, meetings(hinge, lumps), lumps)


def main() -> None:
    """Prints every figure with its goal."""
    reckon_file(LANTERN)
    say("lantern reckoned, warm", best_of(20, lambda: reckon_file(LANTERN)), "20 ms")
    numpy = cold("-c", "import numpy")
    shell = cold("-m", "bickern.cli", "reckon", str(LANTERN))
    say("bickern reckon from cold", shell, f"600 ms, or 3 x numpy's import of {numpy * 1000:.0f} ms")
    say("bickern heats from cold", cold("-m", "bickern.cli", "heats", str(LANTERN)), "quick")
    say("bickern ask gauge from cold", cold("-m", "bickern.cli", "ask", "gauge", "16"), "quick")
    done = reckon_file(LANTERN)
    assert done.copy is not None
    heats(done)
    together(done.copy)
    say("lantern's whole packet, letter", best_of(3, lambda: whole_packet(done)), "3000 ms")
    for count in (50, 500):
        text = many(count)
        whole = reckon_text(text, "many.yaml").copy
        assert whole is not None
        assert len(whole.pieces) == count
        spent = best_of(3, partial(reckon_text, text, "many.yaml"))
        say(f"{count} pieces in one job", spent, f"linear: {spent / count * 1000:.2f} ms a piece")
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    print(f"{'peak memory of this process':<46}{peak:>10.0f} MB   goal: 250 MB")


if __name__ == "__main__":
    main()
