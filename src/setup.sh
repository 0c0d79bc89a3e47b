# Sets up everything under build/, without root. Sourced by examples/run and tests/run.
#
#   needs: Python 3.11 or newer with venv, a C++20 compiler; the rest comes from PyPI
#   gives: $root, $venv, install_package EXTRAS

set -euo pipefail
root=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
venv=$root/build/venv

# Nothing is written outside build/: not even caches.
mkdir -p "$root/build/cache" "$root/build/tmp"
export XDG_CACHE_HOME=$root/build/cache PIP_CACHE_DIR=$root/build/cache/pip
export MPLCONFIGDIR=$root/build/cache/matplotlib TMPDIR=$root/build/tmp
export PIP_DISABLE_PIP_VERSION_CHECK=1 PYTHONDONTWRITEBYTECODE=1

stop() {
  echo "$1" >&2
  exit 1
}

find_python() {
  local candidate
  for candidate in python3 python3.11 python3.12 python3.13 python3.14; do
    if "$candidate" -c 'import sys; sys.exit(sys.version_info < (3, 11))' 2>/dev/null; then
      command -v "$candidate"
      return
    fi
  done
  stop "whimbrel needs Python 3.11 or newer (Debian and Ubuntu: apt install python3 python3-venv)."
}

find_compiler() {
  local candidate
  for candidate in ${CXX:-} c++ g++ clang++; do
    if command -v "$candidate" >/dev/null; then return; fi
  done
  stop "whimbrel needs a C++20 compiler (Debian and Ubuntu: apt install g++)."
}

make_venv() {
  [ -x "$venv/bin/pip" ] && return
  "$(find_python)" -m venv "$venv" ||
    stop "Python could not make a virtual environment (Debian and Ubuntu: apt install python3-venv)."
}

# What the wheel is made of, as one number.
source_hash() {
  (cd "$root" && find CMakeLists.txt pyproject.toml include src python -type f ! -name '*.pyc' -print0 |
    sort -z | xargs -0 sha256sum | sha256sum | cut -c1-16)
}

# Builds the wheel if the sources changed, and installs it with some extras if that is not done yet.
install_package() {
  find_compiler
  make_venv
  local wheels stamp
  wheels=$root/build/wheel/$(source_hash)
  stamp=$venv/.installed-$1
  if [ "$(cat "$stamp" 2>/dev/null)" = "$wheels" ]; then return; fi
  if ! ls "$wheels"/*.whl >/dev/null 2>&1; then
    echo "Building whimbrel (some minutes) …"
    "$venv/bin/pip" wheel --quiet --no-deps --wheel-dir "$wheels" "$root"
  fi
  echo "Installing whimbrel[$1] into build/venv …"
  "$venv/bin/pip" install --quiet --force-reinstall --no-deps "$wheels"/*.whl
  "$venv/bin/pip" install --quiet "$(echo "$wheels"/*.whl)[$1]"
  rm -f "$venv"/.installed-*
  echo "$wheels" >"$stamp"
}
