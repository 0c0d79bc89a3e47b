"""What is compiled into the package comes with its licence."""

import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_the_licences_of_what_is_compiled_in_are_shipped():
    shipped = tomllib.loads((ROOT / "pyproject.toml").read_text())["project"]["license-files"]
    texts = [path.read_text() for pattern in shipped for path in ROOT.glob(pattern)]
    for words in ("MIT License", "Redistributions in binary form", "Boost Software License - Version 1.0"):
        assert any(words in text for text in texts), words
