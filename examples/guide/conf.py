"""How Sphinx makes the guide out of its pages, the package's docstrings and the headers' comments."""

import sys
from importlib.metadata import version as version_of
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent / "extensions"))

project = "whimbrel"
author = "the contributors to whimbrel"
release = version = version_of("whimbrel")

extensions = [
    "myst_parser",
    "sphinx.ext.autodoc",
    "sphinx.ext.napoleon",
    "mathml",
    "caution",
    "repository",
    "headers",
    "modules",
]
myst_enable_extensions = ["dollarmath", "colon_fence"]
myst_heading_anchors = 3
html_math_renderer = "mathml"

napoleon_use_ivar = True  # fields of results in a list, as parameters are
autodoc_member_order = "bysource"
autodoc_typehints_format = "short"
kept_aliases = ("Array", "Number", "System", "Region", "Start", "Accuracy", "ImpactModel")
autodoc_type_aliases = {name: name for name in kept_aliases}  # shown by name, not by what they stand for
autodoc_preserve_defaults = True
python_display_short_literal_types = True
python_maximum_signature_line_length = 80
add_module_names = False

html_theme = "furo"
html_title = "whimbrel"
html_static_path = ["static"]
html_css_files = ["guide.css"]
html_copy_source = False
html_show_sphinx = False
html_show_copyright = False
