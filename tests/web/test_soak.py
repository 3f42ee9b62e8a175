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
"""Parts of the day; between them the other views are looked at, each time with the job in another state."""
WARM = 0.5
"""Share of the day after which everything that is kept on purpose is full: what is kept of a state of the job that was
looked at (solids, packets, pages read) is kept of 32 states at most."""
LEFT = 55.0
"""Seconds after which the server has let go of a window that was closed (30 s), given its memory back (each 20 s), and
a little."""
MORE = 16e6
"""Bytes that may lie about more at the end than half way: packets and solids kept on purpose take turns; a leak of
6 kB an edit, or of 1 MB a visit, shows."""
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
    job = served.job()
    page = opened()
    visit(page, served.at(job)).wait_for_selector(".drawing svg")
    page.wait_for_timeout(1000)
    drawn, held = 0, []
    for part in range(ROUNDS):
        drawn += page.evaluate(TYPE, [KEEP, part * EDITS // ROUNDS, EDITS // ROUNDS])
        elsewhere = opened()
        for way in ("/", "/rack", "/ask", *(f"/job/{job}{end}" for end in ELSEWHERE)):
            visit(elsewhere, served.url + way)
        elsewhere.context.close()
        page.get_by_role("button", name="Undo", exact=True).click()
        time.sleep(LEFT if part in (int(ROUNDS * WARM), ROUNDS - 1) else 0.5)
        held.append(served.memory())
    assert drawn >= 0.9 * EDITS, "the edits were drawn, not skipped"
    warm, end = held[int(ROUNDS * WARM)], held[-1]
    told = " ".join(str(round(one / 1e6)) for one in held)
    warnings.warn(f"MB after each part of the day: {told}", stacklevel=1)
    assert end - warm <= MORE, told
