"""Runs the terminal examples of README and docs: `$ bickern ...` lines, and what must stand under them.

`python tools/console.py` writes the answers anew; a block with a line `...` is cut short by hand and is left alone.
A YAML block that begins with `# NAME.yaml` is there as that file while the page's examples run.
"""

import os
import re
import shlex
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).parents[1]
PAGES = (ROOT / "README.md", *sorted((ROOT / "docs").glob("*.md")))
BLOCK = re.compile(r"(?<=```console\n).*?(?=```)", re.DOTALL)
FILE = re.compile(r"```yaml\n# (\w[\w-]*\.yaml)\n(.*?)```", re.DOTALL)
CUT = "..."


def blocks(text: str) -> list[str]:
    """The console blocks of a page."""
    return BLOCK.findall(text)


def commands(block: str) -> list[str]:
    """The lines typed in a block."""
    return [line[2:] for line in block.splitlines() if line.startswith("$ ")]


def answer(command: str, folder: str) -> str:
    """What `bickern ...` prints when typed in a folder; every line without its trailing blanks."""
    name, *words = shlex.split(command)
    if name != "bickern":
        raise ValueError(f"only bickern is run here, not {name}")
    settings = {k: v for k, v in os.environ.items() if k != "COLUMNS"} | {"PYTHONPATH": str(ROOT / "src")}
    done = subprocess.run(
        [sys.executable, "-m", "bickern.cli", *words],
        cwd=folder,
        env=settings,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        check=False,
    )
    return "".join(line.rstrip() + "\n" for line in done.stdout.splitlines())


def played(block: str, page: str) -> str:
    """The block with every answer as it really comes; later commands see the files of earlier ones and of the page."""
    with tempfile.TemporaryDirectory() as folder:
        for name, text in FILE.findall(page):
            (Path(folder) / name).write_text(text)
        return "".join(f"$ {command}\n{answer(command, folder)}" for command in commands(block))


def same(written: str, real: str) -> bool:
    """Whether the block as written is the real one; a line `...` stands for any lines."""
    parts = re.split(rf"^{re.escape(CUT)}\n", written, flags=re.MULTILINE)
    return re.fullmatch(r"(?:.*\n)*?".join(re.escape(part) for part in parts), real) is not None


def rewritten(page: str) -> str:
    """The page with real answers in its blocks, but for those cut short by hand."""

    def real(block: re.Match[str]) -> str:
        return block.group() if f"\n{CUT}\n" in block.group() else played(block.group(), page)

    return BLOCK.sub(real, page)


def main() -> None:
    """Writes the answers anew on every page."""
    for page in PAGES:
        text = page.read_text()
        new = rewritten(text)
        if new != text:
            page.write_text(new)
            sys.stdout.write(f"{page.relative_to(ROOT)}\n")


if __name__ == "__main__":
    main()
