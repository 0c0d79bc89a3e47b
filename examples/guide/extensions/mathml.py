"""Equations as MathML, written into the pages when they are built: browsers draw them without a script."""

from latex2mathml.converter import convert
from sphinx.util.docutils import nodes


def _inline(translator, node):
    translator.body.append(convert(node.astext()))
    raise nodes.SkipNode


def _block(translator, node):
    translator.body.append(f'<div class="equation">{convert(node.astext(), display="block")}</div>')
    raise nodes.SkipNode


def setup(app):
    app.add_html_math_renderer("mathml", (_inline, None), (_block, None))
    return {"parallel_read_safe": True, "parallel_write_safe": True}
