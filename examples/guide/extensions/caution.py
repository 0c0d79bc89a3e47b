"""The caution that every page carries at its end."""

from html import escape

from whimbrel.core.cautions import CAUTION


def add_caution(app, pagename, templatename, context, doctree):
    if "body" in context:
        context["body"] += f'<p class="caution">{escape(CAUTION)}</p>'


def setup(app):
    app.connect("html-page-context", add_caution)
    return {"parallel_read_safe": True, "parallel_write_safe": True}
