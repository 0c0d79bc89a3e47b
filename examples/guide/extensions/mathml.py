"""Equations as MathML, written into the pages when they are built: browsers draw them without a script."""

import re
from html import unescape

from latex2mathml.converter import convert
from sphinx.util.docutils import nodes

BOLD = re.compile(r'<(m[ion]) mathvariant="bold(?:-italic)?">([^<]+)</\1>')
ALPHABETS = (("A", 26, 0x1D400), ("a", 26, 0x1D41A), ("0", 10, 0x1D7CE), ("α", 25, 0x1D6C2))  # Unicode's bold ones


def bold(letter):
    """A letter of a vector: browsers no longer make letters bold in MathML, Unicode has bold ones."""
    for first, count, start in ALPHABETS:
        if 0 <= ord(letter) - ord(first) < count:
            return chr(start + ord(letter) - ord(first))
    return letter


def mathml(latex, display="inline"):
    return BOLD.sub(
        lambda m: f"<{m[1]}>{''.join(map(bold, unescape(m[2])))}</{m[1]}>", convert(latex, display=display)
    )


def _inline(translator, node):
    translator.body.append(mathml(node.astext()))
    raise nodes.SkipNode


def _block(translator, node):
    translator.body.append(f'<div class="equation">{mathml(node.astext(), "block")}</div>')
    raise nodes.SkipNode


def setup(app):
    app.add_html_math_renderer("mathml", (_inline, None), (_block, None))
    return {"parallel_read_safe": True, "parallel_write_safe": True}
