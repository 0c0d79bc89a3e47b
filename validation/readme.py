"""Runs the README: its Python and console blocks, in order, in an empty folder.

``python validation/readme.py`` writes what they print into the blocks that follow them and the pictures they
make into ``examples/pictures``; with ``--check`` it fails where the README says something else.
"""

from __future__ import annotations

import contextlib
import io
import os
import re
import runpy
import shlex
import shutil
import subprocess
import sys
import sysconfig
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
BLOCK = re.compile(
    r"```python\n(?P<code>.*?)```\n\n```text\n.*?```|```console\n\$ (?P<command>[^\n]*)\n.*?```", re.DOTALL
)
PICTURES = {"shot.png": None, "impact.png": None, "arc.png": None, "stopping.png": None, "conditions_air.png": None,
            "course.png": None, "explained.png": None, "dispersion.png": None, "sweep.png": None,
            "slopes.png": None, "attack_and_loft.png": "researcher.py"}  # fmt: skip


def run_blocks(text: str, folder: Path) -> str:
    """The README with every block's output as it is now."""
    names: dict[str, object] = {}
    (folder / "examples").symlink_to(ROOT / "examples")

    def answered(block: re.Match[str]) -> str:
        if block["command"] is not None:
            return f"```console\n$ {block['command']}\n{_console(block['command'], folder)}```"
        printed = io.StringIO()
        with contextlib.redirect_stdout(printed), contextlib.chdir(folder):
            exec(compile(block["code"], "README.md", "exec"), names)
        return f"```python\n{block['code']}```\n\n```text\n{printed.getvalue()}```"

    return BLOCK.sub(answered, text)


def _console(command: str, folder: Path) -> str:
    program, *arguments = shlex.split(command)
    installed = Path(sysconfig.get_path("scripts")) / program
    environment = {**os.environ, "COLUMNS": "100", "NO_COLOR": "1", "MPLBACKEND": "Agg"}
    done = subprocess.run(
        [installed, *arguments], cwd=folder, env=environment, text=True, capture_output=True, check=True
    )
    return "\n".join(line.rstrip() for line in done.stdout.splitlines()) + "\n"


def draw(folder: Path) -> None:
    """The README's pictures, into the folder."""
    for name, script in PICTURES.items():
        if script is not None:
            sys.argv = [script, str(folder / name)]
            runpy.run_path(str(ROOT / "examples" / script))


def main(check: bool) -> int:
    readme = ROOT / "README.md"
    text = readme.read_text(encoding="utf-8")
    with tempfile.TemporaryDirectory() as folder:
        now = run_blocks(text, Path(folder))
        draw(Path(folder))
        missing = [name for name in PICTURES if not (Path(folder) / name).is_file()]
        if check:
            if now != text:
                print("README.md does not say what its code prints: python validation/readme.py")
            return int(now != text or bool(missing))
        readme.write_text(now, encoding="utf-8")
        for name in PICTURES:
            shutil.copy(Path(folder) / name, ROOT / "examples" / "pictures" / name)
    return 0


if __name__ == "__main__":
    sys.exit(main("--check" in sys.argv[1:]))
