"""A working day at the bench, pressed into minutes: thousands of edits and visits leave the server no larger."""

import os
import time
import warnings
from collections.abc import Callable
from typing import Any

import pytest
from served import Served

EDITS = int(os.environ.get("BICKERN_SOAK_EDITS", "5000"))
ROUNDS = 64
"""Parts of the day: after each the memory is looked at, and what was edited is undone once."""
WARM = 0.5
"""Share of the day after which everything that is kept on purpose is full: what is kept of a state of the job that was
looked at (solids, packets, pages read) is kept of 32 states at most."""
LEFT = 55.0
"""Seconds after which the server has let go of a window that was closed (30 s), given its memory back (each 20 s), and
a little."""
MORE = 16e6
"""Bytes that may lie about more at the end of the edits than half way: a leak of 7 kB an edit shows."""
MORE_VISITED = 40e6
"""The same where all views were visited 256 times since: a leak of 160 kB a visit shows, which is less than any view
holds. 17 and 22 MB were measured. Python's objects were counted and did not grow: probably room lost between them."""
TYPE = """async ([name, first, many]) => {
  const setter = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, "value").set;
  let drawn = 0;
  const seen = new MutationObserver(() => { drawn++; });
  seen.observe(document.querySelector(".drawing"), { childList: true, subtree: true });
  for (let n = first; n < first + many; n++) {
    const before = drawn, field = document.querySelector(`input[name="${name}"]`);
    setter.call(field, "1" + (n % 9) + "." + String(n % 997).padStart(3, "0"));
    field.dispatchEvent(new Event("input", { bubbles: true }));
    for (let waited = 0; drawn === before && waited < 3000; waited += 5) await new Promise((on) => setTimeout(on, 5));
  }
  seen.disconnect();
  return drawn;
}"""
KEEP = "pieces.arm.metal[2].keep"
ELSEWHERE = ("/round", "/heats", "/stock", "/price", "/paper")


@pytest.mark.soak
def test_a_day_of_edits_leaves_the_memory_flat(
    served: Served, opened: Callable[..., Any], visit: Callable[[Any, str], Any]
) -> None:
    day(served, opened(), EDITS, lambda: None, MORE, visit)


@pytest.mark.soak
def test_visiting_every_view_all_day_leaves_the_memory_level(
    served: Served, opened: Callable[..., Any], visit: Callable[[Any, str], Any]
) -> None:
    def elsewhere() -> None:
        window = opened()
        for way in ("/", "/rack", "/ask", *(f"/job/porch-lantern.yaml{end}" for end in ELSEWHERE)):
            visit(window, served.url + way)
        window.context.close()

    day(served, opened(), 10 * ROUNDS, elsewhere, MORE_VISITED, visit)


def day(
    served: Served,
    page: Any,
    edits: int,
    between: Callable[[], None],
    more: float,
    visit: Callable[[Any, str], Any],
) -> None:
    """Edits at the bench, something else between them, and the memory half way and at the end."""
    visit(page, served.at(served.job())).wait_for_selector(".drawing svg")
    page.wait_for_timeout(1000)
    drawn, held = 0, []
    for part in range(ROUNDS):
        first, after = (n * edits // ROUNDS for n in (part, part + 1))
        drawn += page.evaluate(TYPE, [KEEP, first, after - first])
        between()
        page.get_by_role("button", name="Undo", exact=True).click()
        time.sleep(LEFT if part in (int(ROUNDS * WARM), ROUNDS - 1) else 0.5)
        held.append(served.memory())
    assert drawn >= 0.9 * edits, "the edits were drawn, not skipped"
    warm, end = held[int(ROUNDS * WARM)], held[-1]
    told = " ".join(str(round(one / 1e6)) for one in held)
    warnings.warn(f"MB after each part of the day: {told}", stacklevel=1)
    assert end - warm <= more, told
