"""The main job on the demo: `make demo`. Writes the lantern's packet into `out/` and says where everything is.

The rack, the shop and its prices are invented, and lie under `out/` too: a smith's own rack is not touched.
"""

import sys
from pathlib import Path

from bickern.cli.show import show_findings, show_rows
from bickern.cli.table import fit_sections, hang_sections, show_reckoning
from bickern.desk.cut.cut import cut_plan
from bickern.desk.cut.files import files_of as cut_files
from bickern.desk.cut.rows import tables as cut_tables
from bickern.desk.price.price import priced_file
from bickern.desk.price.rows import files_of as price_files
from bickern.desk.price.rows import tables as price_tables
from bickern.desk.rack.rack import import_list, keeper
from bickern.desk.reckon import reckon_file
from bickern.desk.sheets.sheets import packet_of, write_packet
from bickern.desk.whole.assemble import for_packet

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "examples"
JOB = EXAMPLES / "porch-lantern.yaml"
SHOP = EXAMPLES / "shop" / "bridge-forge.yaml"
LIST = EXAMPLES / "rack.csv"
OUT = ROOT / "out" / "porch-lantern"
RACK = OUT / "rack.sqlite"
YOURS = ROOT / "out" / "jobs" / JOB.name
"""The lantern once more, to change in the page: the example stays as it is."""

SAYS = {
    "shop-sheet.pdf": "the shop sheet: cut lengths, mark-out, patterns small, fit, how it hangs, cautions",
    "patterns.pdf": "the patterns at 1:1, tiled, with a check rule on every page",
    "mark-out.pdf": "paper rules at 1:1 to lay on the bars",
    "templates.pdf": "full-size outlines and bending templates at 1:1",
    "set.glb": "the lantern as it hangs, as a solid, in metres",
    "cut-list.pdf": "which bar and sheet of the rack each length and pattern comes from",
    "price-sheet.pdf": "what it costs, line by line: for the shop alone",
    "customer-sheet.pdf": "what it is, its care and its price: for the customer",
}


def main() -> int:
    """Reckons, plans from an invented rack, prices, prints, and points at the files."""
    done = for_packet(reckon_file(JOB, SHOP), "shop")
    show_reckoning(done)
    fit_sections(done)
    hang_sections(done)
    files = packet_of(done, "letter", "shop")
    if not isinstance(files, dict):
        print(files.says, files.try_this)
        return 1
    paths = [*write_packet(files, OUT), *_from_the_rack(), *_priced()]
    print(f"\nThe lantern's packet is in {_short(OUT)}/ ({len(paths)} files):")
    for path in paths:
        print(f"  {_short(path)}" + (f"   {SAYS[path.name]}" if path.name in SAYS else ""))
    _show_next()
    return 1 if done.stops else 0


def _from_the_rack() -> tuple[Path, ...]:
    """What is cut from which bar and sheet of the invented rack, told and printed."""
    for old in OUT.glob(f"{RACK.name}*"):  # the demo's own: begun anew each time, so that the ids are the same
        old.unlink()
    put_in = import_list(keeper(RACK, SHOP), LIST)
    plan = cut_plan([JOB], RACK, SHOP)
    print(f"\nFrom the rack ({_short(LIST)}: {len(put_in.pieces)} pieces, invented)\n")
    for title, rows in cut_tables(plan.copy) if plan.copy is not None else ():
        show_rows(title, rows)
        print()
    show_findings(plan.findings)
    return write_packet(cut_files(plan, "letter"), OUT / "cut")


def _priced() -> tuple[Path, ...]:
    """What it costs by the invented shop's prices, told and printed."""
    price = priced_file(JOB, (), SHOP, RACK)
    for title, heads, rows in price_tables(price):
        print()
        show_rows(title, rows, heads)
    return write_packet(price_files(price, "letter"), OUT / "price")


def _to_change() -> Path:
    """The lantern to change; what has been changed in it stays when the demo is run again."""
    YOURS.parent.mkdir(parents=True, exist_ok=True)
    if not YOURS.exists():
        YOURS.write_bytes(JOB.read_bytes())
    return _short(YOURS)


def _show_next() -> None:
    bickern, job, rack = ".venv/bin/bickern", _short(JOB), f"--rack {_short(RACK)}"
    shop = f"--shop {_short(SHOP)}"
    rows = (
        ("see and change it in a browser", f"{bickern} open {_to_change()} {rack} {shop}"),
        ("a job of your own", f"{bickern} new my-job.yaml"),
        ("", f"{bickern} reckon my-job.yaml"),
        ("what lies in the rack", f"{bickern} rack list {rack}"),
        ("what a piece is made of", f"{bickern} stock {job} post {rack} {shop}"),
        ("take what is planned", f"{bickern} cut {job} {rack} {shop} --take"),
        ("what really happened", f"{bickern} record {job} arm {rack} {shop}"),
    )
    print()
    show_rows("Next", rows)
    print(f"\nThe day book lies in the rack's own file, {_short(RACK)}: `record` writes in it, `learned` reads it.")
    print("It is the demo's own, begun anew with each `make demo`. Yours lies in your data folder: leave --rack out.")


def _short(path: Path) -> Path:
    return path.relative_to(ROOT)


if __name__ == "__main__":
    sys.exit(main())
