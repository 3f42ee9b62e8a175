"""The front door: `bickern COMMAND`. Exit codes: 0 fine, 1 a finding that stops, 2 wrong use, 3 our fault."""

import os
import sys
from collections.abc import Sequence

FINE, STOPPED, WRONG_USE, OUR_FAULT = 0, 1, 2, 3
"""Exit codes."""


def main() -> None:
    """Entry point. Nobody at an anvil is shown a stack trace."""
    for stream in (sys.stdout, sys.stderr):
        # a terminal that cannot show a sign shows a question mark instead of failing
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="replace")
    sys.exit(run(sys.argv[1:]))


def run(words: Sequence[str]) -> int:
    """Does what the words say and returns the exit code."""
    from bickern.cli.commands import parser

    try:
        asked = parser(asking="ask" in words[:1]).parse_args(list(words))
    except SystemExit as told:  # after --help, or words that are not understood: both have been said
        return told.code if isinstance(told.code, int) else WRONG_USE
    try:
        code: int = asked.does(asked)
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FINE
    except KeyboardInterrupt:
        return WRONG_USE
    except OSError as fault:
        return _said(f"{fault.strerror or fault}: {fault.filename or ''}", WRONG_USE)
    except Exception as fault:
        if "BICKERN_TRACE" in os.environ:
            raise
        return _said(f"a fault in bickern itself ({type(fault).__name__}: {fault}). Please report it.", OUR_FAULT)
    return code


def _said(text: str, code: int) -> int:
    print(f"bickern: {text}", file=sys.stderr)
    return code
