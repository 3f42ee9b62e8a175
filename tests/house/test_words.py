"""Words: the trade's own, and nothing of this machine or of anybody's recordings."""

import re
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
AVOID = re.compile(r"\b(BOM|workflow|dashboard|wizard|part tree|feature tree)\b", re.IGNORECASE)
NEVER = re.compile("trans" + "cript|you" + r"tube|\bTO" + r"DO\b|FIX" + "ME|index" + "-url", re.IGNORECASE)


def tracked() -> list[Path]:
    out = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
    ends = {".py", ".md", ".yaml", ".toml", ".typ", ".cfg", ".sh", ""}
    return [p for line in out.splitlines() if (p := ROOT / line).suffix in ends and p.is_file()]


@pytest.mark.parametrize("pattern", [AVOID, NEVER], ids=["words to avoid", "words that never stand here"])
def test_words(pattern: re.Pattern[str]):
    here = Path(__file__).name
    files = [p for p in tracked() if p.name not in (here, "words.md")]
    texts = {p.relative_to(ROOT): p.read_text(errors="ignore") for p in files}
    found = [f"{name}: {m.group()}" for name, text in texts.items() if (m := pattern.search(text))]
    assert not found
