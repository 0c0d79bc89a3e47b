"""The API of C++: a page for every header of ``include/whimbrel``, read from its declarations and ``///`` comments.

The namespace ``kernel`` holds the insides and is left out; the whole header follows at the end of its page.
"""

import re
from pathlib import Path
from typing import NamedTuple

INCLUDE = Path(__file__).resolve().parents[3] / "include"
INSIDES = re.compile(r"^namespace kernel \{.*?^\}  // namespace kernel$", re.DOTALL | re.MULTILINE)
NO_CODE = re.compile(r"\s*//.*|\"(?:\\.|[^\"\\])*\"|'(?:\\.|[^'\\])'")
NAME = re.compile(r"(?:struct|class|concept|using|enum class) (\w+)|([a-zA-Z]\w*)(?=\(| = |\{|\[|;)")
STRUCT = re.compile(r"^(struct|class) ", re.MULTILINE)
SAYS_ITSELF = re.compile(r"(template <.*>\n)?(concept|enum|using)")
NOTHING = re.compile(r"$|#|namespace|\}|//(?!/)|static_assert|extern|\w+:$")


class Declared(NamedTuple):
    """One declaration: its lines of code, and what its comment says."""

    code: list[str]
    comment: list[str]

    @property
    def signature(self):
        """What it declares, without its body."""
        whole = "\n".join(re.sub(r" *//.*", "", line) for line in self.code)
        if SAYS_ITSELF.match(whole) or (whole.endswith(";") and not STRUCT.search(whole)):
            return whole
        body = re.search(r"\s*\{\n|\s*\{[^{}]*\}$|\s*\{ .*\}$", whole)
        return (whole[: body.start()] if body else whole).strip()

    @property
    def on_one_line(self):
        """What it declares, for a cell of a table."""
        return " ".join(self.signature.split()).replace("|", r"\|")

    @property
    def name(self):
        bare = re.sub(r"^(template <.*>|requires.*\)|\[\[.*\]\])\n?", "", self.signature, flags=re.MULTILINE)
        found = NAME.search(bare)
        return (found[1] or found[2]) if found and "operator" not in bare else ""


def declarations(lines):
    """The declarations on one level of a header, in order."""
    found, code, comment, depth = [], [], [], 0
    for line in lines:
        if not code and line.startswith("///<") and found:
            found[-1].comment.append(line[4:].strip())
        elif not code and line.startswith("///"):
            comment.append(line[4:])
        elif not code and NOTHING.match(line):
            comment = [] if line else comment
        else:
            plain, beside = NO_CODE.sub("", line), re.search(r" //(?:/<)?(.*)", line)
            code.append(line)
            depth += sum(map(plain.count, "{(")) - sum(map(plain.count, "})"))
            comment += [beside[1].strip()] if beside and depth == 0 else []
            if depth == 0 and plain.rstrip().endswith((";", "}")):
                found.append(Declared(code, comment))
                code, comment = [], []
    return found


def members(declared):
    """The data of a value, and those of its functions that a comment explains."""
    if not STRUCT.search(declared.signature) or declared.code[-1] != "};":
        return []
    start = next(i for i, line in enumerate(declared.code) if line.endswith("{")) + 1
    inner = declarations([line[2:] for line in declared.code[start:-1]])
    return [m for m in inner if m.comment or (m.code[-1].endswith(";") and "(" not in m.signature)]


def sentences(comment):
    """A comment as Markdown: its formulas, which are indented, as blocks; its other marks as plain text."""
    lines = []
    for line in comment:
        plain = re.sub(r"(`[^`]*`)|([<*\[\]$\\|])", lambda m: m[1] or "\\" + m[2], line)
        lines.append("    " + line if line.startswith("  ") else re.sub(r"^@(throws|return)", r"\n*\1*", plain))
    return "\n".join(lines)


def page(path):
    """The page of one header, Markdown."""
    text = path.read_text(encoding="utf-8")
    name = path.relative_to(INCLUDE / "whimbrel")
    parts = [f"# {name}", f"    #include <whimbrel/{name}>"]
    by_name = {}
    for declared in declarations(INSIDES.sub("", text).splitlines()):
        by_name.setdefault(declared.name, []).append(declared)
    by_name.pop("", None)  # operators, and what else has no name
    for called, overloads in by_name.items():
        parts.append(f"## {called}")
        for declared in overloads:
            parts += [f"```cpp\n{declared.signature}\n```", sentences(declared.comment)]
            rows = [f"| `{m.on_one_line}` | {' '.join(sentences(m.comment).split())} |" for m in members(declared)]
            parts.append("\n".join(["| member | meaning |", "|---|---|", *rows] if rows else []))
    return "\n\n".join([*filter(None, parts), "## The whole header", f"```cpp\n{text}```", ""])


def write_pages(app):
    folders = {}
    for path in sorted((INCLUDE / "whimbrel").rglob("*.hpp")):
        docname = f"include/{path.relative_to(INCLUDE)}"
        written = Path(app.srcdir, f"{docname}.md")
        written.parent.mkdir(parents=True, exist_ok=True)
        written.write_text(page(path), encoding="utf-8")
        folders.setdefault(path.parent.name, []).append(f"/{docname}")
    trees = ["\n".join([f"## {name}\n\n```{{toctree}}", "", *pages, "```\n"]) for name, pages in folders.items()]
    (Path(app.srcdir) / "api").mkdir(exist_ok=True)
    Path(app.srcdir, "api", "headers.md").write_text("\n".join(["# Headers", "", *trees]), encoding="utf-8")


def setup(app):
    app.connect("builder-inited", write_pages)
    return {"parallel_read_safe": True}
