"""The main job on the demo: `make demo`. Writes the lantern's packet into `out/` and says where everything is."""

import sys
from pathlib import Path

from bickern.cli.table import fit_sections, hang_sections, show_reckoning
from bickern.desk.assemble import for_packet
from bickern.desk.reckon import reckon_file
from bickern.desk.sheets import packet_of, write_packet

ROOT = Path(__file__).parents[1]
JOB = ROOT / "examples" / "porch-lantern.yaml"
OUT = ROOT / "out" / "porch-lantern"

SAYS = {
    "shop-sheet.pdf": "the shop sheet: cut lengths, mark-out, patterns small, fit, how it hangs, cautions",
    "patterns.pdf": "the patterns at 1:1, tiled, with a check rule on every page",
    "mark-out.pdf": "paper rules at 1:1 to lay on the bars",
    "templates.pdf": "full-size outlines and bending templates at 1:1",
    "set.glb": "the lantern as it hangs, as a solid, in metres",
}


def main() -> int:
    """Reckons, prints, and points at the files."""
    done = for_packet(reckon_file(JOB), "shop")
    show_reckoning(done)
    fit_sections(done)
    hang_sections(done)
    files = packet_of(done, "letter", "shop")
    if not isinstance(files, dict):
        print(files.says, files.try_this)
        return 1
    paths = write_packet(files, OUT)
    print(f"\nThe lantern's packet is in {OUT.relative_to(ROOT)}/ ({len(paths)} files):")
    for path in paths:
        name = str(path.relative_to(OUT))
        print(f"  {path.relative_to(ROOT)}" + (f"   {SAYS[name]}" if name in SAYS else ""))
    print("\nNext: .venv/bin/bickern new my-job.yaml, then .venv/bin/bickern reckon my-job.yaml")
    return 1 if done.stops else 0


if __name__ == "__main__":
    sys.exit(main())
