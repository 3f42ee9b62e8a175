"""A bare machine can test the page: the browser is found, set up without a password, or what to type is said."""

import importlib.util
import os
from pathlib import Path
from types import ModuleType

import pytest

ROOT = Path(__file__).parents[2]
Said = pytest.CaptureFixture[str]


@pytest.fixture
def tool(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> ModuleType:
    """The tool on a machine that has nothing; `runs` are the commands that it would have run."""
    spec = importlib.util.spec_from_file_location("browser_to_set_up", ROOT / "tools" / "browser.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    monkeypatch.delenv("CI", raising=False)
    monkeypatch.delenv("BICKERN_BROWSER", raising=False)
    monkeypatch.setenv("PLAYWRIGHT_BROWSERS_PATH", str(tmp_path / "none"))
    module.there, module.runs = set(), []
    monkeypatch.setattr(module.shutil, "which", lambda name: f"/usr/bin/{name}" if name in module.there else None)
    monkeypatch.setattr(module, "_run", lambda *words, quiet=False: _ran(module, words))
    return module


def _ran(tool: ModuleType, words: tuple[str, ...]) -> bool:
    tool.runs.append(" ".join(words))
    if words == ("sudo", "-n", "true"):
        return bool(tool.passwordless)
    if "install" in words and "apt-get" in words:
        tool.there.add("chromium")
    return True


def test_debians_own_comes_first_and_another_can_be_named(tool: ModuleType, monkeypatch: pytest.MonkeyPatch):
    tool.there |= {"chromium", "google-chrome"}
    assert tool.found() == "/usr/bin/chromium"
    tool.there.discard("chromium")
    assert tool.found() == "/usr/bin/google-chrome"
    monkeypatch.setenv("BICKERN_BROWSER", "mine")
    assert tool.found() is None
    tool.there.add("mine")
    assert tool.found() == "/usr/bin/mine"


def test_one_that_was_downloaded_is_found(tool: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path):
    there = tmp_path / "chromium-1255" / "chrome-linux64" / "chrome"
    there.parent.mkdir(parents=True)
    there.touch()
    monkeypatch.setenv("PLAYWRIGHT_BROWSERS_PATH", str(tmp_path))
    assert tool.found() == str(there)


def test_where_it_is_nothing_is_run(tool: ModuleType):
    tool.there.add("chromium")
    assert tool.main() == 0
    assert tool.runs == []


@pytest.mark.parametrize(
    ("user", "ran"), [(0, "apt-get install -qy chromium"), (7, "sudo -n apt-get install -qy chromium")]
)
def test_debian_installs_its_own(tool: ModuleType, monkeypatch: pytest.MonkeyPatch, user: int, ran: str):
    tool.there |= {"apt-get", "sudo"}
    tool.passwordless = True
    monkeypatch.setattr(os, "geteuid", lambda: user)
    assert tool.main() == 0
    assert tool.runs[-1] == ran


def test_where_a_password_would_be_asked_for_one_line_says_what_to_type(
    tool: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: Said
):
    tool.there |= {"apt-get", "sudo"}
    tool.passwordless = False
    monkeypatch.setattr(os, "geteuid", lambda: 7)
    assert tool.main() == 0
    (line,) = capsys.readouterr().err.splitlines()
    assert line.endswith("sudo apt-get install chromium")
    monkeypatch.setenv("CI", "true")  # where nothing may be missing
    assert tool.main() == 1


def test_without_apt_one_is_downloaded(tool: ModuleType):
    assert tool.main() == 0
    assert tool.runs[-1].endswith("-m playwright install chromium")
