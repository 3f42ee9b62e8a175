#!/bin/sh
# Sets up the virtual environment: set_up.sh PYTHON VENV WHAT. Names the exact line to type for whatever is missing.
set -eu
python=$1 venv=$2 what=$3

command -v "$python" >/dev/null 2>&1 || {
  echo "bickern needs Python 3.11 or newer, and '$python' is not here. On Debian: sudo apt-get install python3 python3-venv" >&2
  exit 1
}
"$python" -c 'import sys; sys.exit(sys.version_info < (3, 11))' || {
  echo "bickern needs Python 3.11 or newer; '$python' is $("$python" -V 2>&1). Try: make PYTHON=python3.11 (Debian: sudo apt-get install python3.11 python3.11-venv)" >&2
  exit 1
}
[ -x "$venv/bin/python" ] || "$python" -m venv "$venv" || {
  echo "The venv module is missing. On Debian: sudo apt-get install python3-venv" >&2
  exit 1
}
"$venv/bin/python" -m pip --version >/dev/null 2>&1 || {
  rm -rf "$venv"
  echo "pip is missing from the new environment. On Debian: sudo apt-get install python3-venv, then run make again" >&2
  exit 1
}
echo "setting up $venv ..." >&2
"$venv/bin/python" -m pip install --quiet --disable-pip-version-check --editable "$what"
# Compiled once here, so that the first command is as quick as the next.
"$venv/bin/python" -m compileall -q src
