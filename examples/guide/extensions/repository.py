"""What the guide shows of the repository beyond its own pages, and the links between the two.

Pages link to files as a reader of the repository follows them. In the guide, a link to a header leads to its page
of the API, one to the validation leads to its page, and one to any other file downloads it.
"""

import re
import shutil
from pathlib import Path, PurePosixPath
from posixpath import normpath

ROOT = Path(__file__).resolve().parents[3]
SHOWN = ("validation/**/*.md", "validation/**/*.csv", "validation/**/*.png", "examples/*.py", "examples/*.cpp",
         "examples/data/*", "examples/notebooks/*.ipynb")  # fmt: skip
LINK = re.compile(r"(?<=\]\()(?![a-z]+:|/|#)([^)#\s]+)")
GUIDE = PurePosixPath("examples/guide")


def copy_files(app):
    for pattern in SHOWN:
        for path in ROOT.glob(pattern):
            copy = Path(app.srcdir, path.relative_to(ROOT))
            copy.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(path, copy)


def lead_links(app, docname, source):
    page = PurePosixPath(docname) if docname.startswith("validation/") else GUIDE / docname

    def led(link):
        target = normpath(page.parent / link[0])
        if PurePosixPath(target).is_relative_to(page.parts[0] if page.parts[0] == "validation" else GUIDE):
            return link[0]
        return f"/{target}.md" if target.endswith(".hpp") else f"/{target}"

    source[0] = LINK.sub(led, source[0])


def setup(app):
    app.connect("builder-inited", copy_files)
    app.connect("source-read", lead_links)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
