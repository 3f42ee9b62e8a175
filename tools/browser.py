"""The browser that the tests and the pictures of the page drive: found, or set up, or what to type is said.

It is the machine's own Chromium. `BICKERN_BROWSER` names another of its kind.
"""

import os
import shutil
import subprocess
import sys
from pathlib import Path

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")
"""Under which it is known, the one that Debian has first."""
INSTALL = ("apt-get", "install", "-qy", "chromium")
TYPE_THIS = "sudo apt-get install chromium"


def found() -> str | None:
    """The path of the browser, or None."""
    named = os.environ.get("BICKERN_BROWSER")
    return shutil.which(named) if named else next(filter(None, map(shutil.which, NAMES)), None) or _downloaded()


def _downloaded() -> str | None:
    """The one that `playwright install chromium` has put into this user's cache."""
    at = os.environ.get("PLAYWRIGHT_BROWSERS_PATH")
    caches = (Path(at),) if at else (Path.home() / ".cache/ms-playwright", Path.home() / "Library/Caches/ms-playwright")
    ends = ("chrome-linux*/chrome", "chrome-mac*/Chromium.app/Contents/MacOS/Chromium", "chrome-win*/chrome.exe")
    there = (path for cache in caches for end in ends for path in cache.glob(f"chromium-*/{end}") if path.is_file())
    return next((str(path) for path in there), None)


def set_up() -> bool:
    """Whether it is there now; installed by the system's own means where that needs no password."""
    if found() is not None:
        return True
    if shutil.which("apt-get") is None:
        _run(sys.executable, "-m", "playwright", "install", "chromium")
    elif os.geteuid() == 0:
        _installed()
    elif shutil.which("sudo") is not None and _run("sudo", "-n", "true", quiet=True):
        _installed("sudo", "-n")
    return found() is not None


def _installed(*by: str) -> bool:
    return _run(*by, *INSTALL) or (_run(*by, "apt-get", "update", "-q") and _run(*by, *INSTALL))


def _run(*words: str, quiet: bool = False) -> bool:
    if not quiet:
        print("the tests of the page need Chromium:", *words, file=sys.stderr, flush=True)
    return subprocess.run(words, stdout=subprocess.DEVNULL if quiet else sys.stderr, check=False).returncode == 0


def main() -> int:
    """Sets it up; where it cannot, that stops nothing but where everything must be tested."""
    if set_up():
        return 0
    typed = TYPE_THIS if shutil.which("apt-get") else "install Chromium, or set BICKERN_BROWSER to where it is"
    print(f"The page is not tested without Chromium. To test it: {typed}", file=sys.stderr)
    return 1 if os.environ.get("CI") else 0


if __name__ == "__main__":
    sys.exit(main())
