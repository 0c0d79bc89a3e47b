"""Runs the code on the pages: on README.md and on every page of the guide.

The Python and console blocks of a page run in order, in an empty folder of the page's own; a TOML block whose first
line is a comment with a name is that file there. Where a page ends an output with ``…``, it shows its first lines.

``python validation/pages.py [PAGE …]`` writes what the blocks print under them, and the README's picture into
``examples/pictures``; with ``--check`` it fails where a page says something else. ``--into FOLDER`` leaves the
pages as they are and writes the guide there, with the pictures that its code draws.
"""

from __future__ import annotations

import argparse
import contextlib
import io
import multiprocessing
import os
import re
import shlex
import shutil
import subprocess
import sys
import tempfile
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
README, GUIDE = ROOT / "README.md", ROOT / "examples" / "guide"
BLOCK = re.compile(
    r"^```python\n(?P<code>.*?)^```(?:\n\n```text\n(?P<printed>.*?)^```)?$"
    r"|^```console\n\$ (?P<command>[^\n]*)\n(?P<answer>.*?)^```$"
    r"|^```toml\n# (?P<file>\S+)\n(?P<content>.*?)^```$",
    re.DOTALL | re.MULTILINE,
)
WHIMBREL = "import runpy, sys; sys.argv[0] = 'whimbrel'; runpy.run_module('whimbrel.cli', run_name='__main__')"
LINK = re.compile(r"(?P<picture>!?)\[[^\]]*\]\((?P<target>[^)\s:#]+)\)")


def guide_pages() -> list[Path]:
    """The pages of the guide."""
    return sorted(GUIDE.rglob("*.md"))


def run_blocks(page: Path, folder: Path) -> str:
    """A page with the output of its blocks as it is now; what they write is left in the folder."""
    text = page.read_text(encoding="utf-8")
    names: dict[str, object] = {}
    (folder / "examples").symlink_to(ROOT / "examples")

    def answered(block: re.Match[str]) -> str:
        if block["file"] is not None:
            (folder / block["file"]).write_text(block["content"], encoding="utf-8")
            return block[0]
        if block["command"] is not None:
            answer = _shown(_console(block["command"], folder), block["answer"])
            return f"```console\n$ {block['command']}\n{answer}```"
        lines_before = text.count("\n", 0, block.start()) + 1
        printed = io.StringIO()
        with contextlib.redirect_stdout(printed), contextlib.chdir(folder):
            exec(compile("\n" * lines_before + block["code"], page, "exec"), names)
        answer = _shown(printed.getvalue(), block["printed"] or "")
        return f"```python\n{block['code']}```" + (f"\n\n```text\n{answer}```" if answer else "")

    return BLOCK.sub(answered, text)


def _shown(printed: str, before: str) -> str:
    lines = [line.rstrip() for line in printed.splitlines()]
    if before.endswith("\n…\n"):  # the page shows the first lines alone: as many as before
        lines = [*lines[: before.count("\n") - 1], "…"]
    return "".join(line + "\n" for line in lines)


def _console(command: str, folder: Path) -> str:
    program, *arguments = shlex.split(command)
    if program != "whimbrel":
        raise ValueError(f"{command}: a page runs no other command than whimbrel")
    environment = {**os.environ, "COLUMNS": "100", "NO_COLOR": "1", "MPLBACKEND": "Agg"}
    python = [sys.executable, "-c", WHIMBREL]  # the package that the page's Python has
    done = subprocess.run([*python, *arguments], cwd=folder, env=environment, text=True, capture_output=True)
    if done.returncode != 0:
        raise RuntimeError(f"{command}\n{done.stdout}{done.stderr}")
    return done.stdout


def run_page(page: Path, into: Path) -> str:
    """A page as it is now; the pictures and files that it shows, made by its code, go into a folder."""
    os.environ["MPLBACKEND"] = "Agg"
    with tempfile.TemporaryDirectory() as folder:
        try:
            now = run_blocks(page, Path(folder))
        except Exception as error:
            raise RuntimeError(f"{page.relative_to(ROOT)}: {error}") from error
        into.mkdir(parents=True, exist_ok=True)
        for link in LINK.finditer(now):
            made, kept = Path(folder, Path(link["target"]).name), into / Path(link["target"]).name
            if made.is_file() and not kept.exists():
                shutil.copy(made, kept)
            elif link["picture"]:
                fault = "is made by another page too" if made.is_file() else "is not made by the page's code"
                raise RuntimeError(f"{page.relative_to(ROOT)}: {link['target']} {fault}")
    return now


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("pages", nargs="*", type=Path, metavar="PAGE")
    what = parser.add_mutually_exclusive_group()
    what.add_argument("--check", action="store_true")
    what.add_argument("--into", type=Path, metavar="FOLDER")
    given = parser.parse_args(arguments)
    chosen = [page.resolve() for page in given.pages]
    pages = chosen or guide_pages() + ([] if given.into else [README])
    changed = []
    with tempfile.TemporaryDirectory() as temporary:
        folder = given.into or Path(temporary)
        places = [
            folder / page.parent.relative_to(GUIDE) if page != README else folder / "readme" for page in pages
        ]
        with ProcessPoolExecutor(mp_context=multiprocessing.get_context("spawn")) as workers:
            texts = list(workers.map(run_page, pages, places))
        for page, place, text in zip(pages, places, texts, strict=True):
            if text != page.read_text(encoding="utf-8"):
                changed.append(str(page.relative_to(ROOT)))
            if given.into:
                (place / page.name).write_text(text, encoding="utf-8")
            elif not given.check:
                page.write_text(text, encoding="utf-8")
                if page == README:
                    shutil.copytree(place, ROOT / "examples" / "pictures", dirs_exist_ok=True)
    if given.check and changed:
        print(f"{', '.join(changed)}: not what the code prints; run python validation/pages.py")
    return int(given.check and bool(changed))


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
