"""README and guide say what their code prints; the guide is built without a warning and needs no network."""

import importlib.util
import inspect
import re
import subprocess
import sys
from html.parser import HTMLParser
from pathlib import Path

import browser
import pytest
from sphinx.util.inventory import InventoryFile

import whimbrel as wb
from whimbrel.core.cautions import CAUTION

ROOT = Path(__file__).resolve().parents[2]
GUIDE = ROOT / "examples" / "guide"
NEEDED = {"script": "src", "img": "src", "source": "src", "iframe": "src", "video": "src", "link": "href"}
STATISTICIANS_WORDS = re.compile(
    r"\b(variance|standard deviation|SDs?|median|percentile|quantile|p-value|normal)\b"
)

_spec = importlib.util.spec_from_file_location("pages", ROOT / "validation" / "pages.py")
pages = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(pages)
GUIDE_PAGES = [str(page.relative_to(GUIDE)) for page in pages.guide_pages()]


def run(*arguments):
    return subprocess.run([sys.executable, *map(str, arguments)], capture_output=True, text=True)


@pytest.fixture(scope="module")
def made(tmp_path_factory):
    """The guide's pages as their code makes them now."""
    folder = tmp_path_factory.mktemp("made")
    done = run(ROOT / "validation" / "pages.py", "--into", folder)
    assert done.returncode == 0, done.stderr
    return folder


@pytest.fixture(scope="module")
def site(made, tmp_path_factory):
    """The built guide; any warning is an error."""
    built = tmp_path_factory.mktemp("site")
    trees = tmp_path_factory.mktemp("trees")
    done = run("-m", "sphinx", "-W", "--keep-going", "-q", "-j", "auto", "-c", GUIDE, "-d", trees, made, built)
    assert done.returncode == 0, done.stderr
    return built


def test_the_readme_says_what_its_code_prints():
    done = run(ROOT / "validation" / "pages.py", "--check", ROOT / "README.md")
    assert done.returncode == 0, done.stdout + done.stderr


@pytest.mark.parametrize("page", GUIDE_PAGES)
def test_a_page_of_the_guide_says_what_its_code_prints(made, page):
    assert (made / page).read_text(encoding="utf-8") == (GUIDE / page).read_text(encoding="utf-8")


@pytest.mark.parametrize("page", [pages.README, *pages.guide_pages()], ids=lambda page: page.stem)
def test_every_block_of_code_is_run(page):
    text = page.read_text(encoding="utf-8")
    for language, group in (("python", "code"), ("console", "command"), ("toml", "file")):
        blocks = len(re.findall(rf"^```\s*{language}\b", text, re.MULTILINE))
        assert blocks == sum(block[group] is not None for block in pages.BLOCK.finditer(text)), language


def test_a_page_that_says_something_else_is_noticed(tmp_path):
    page = tmp_path / "page.md"
    page.write_text("```python\nprint(1 + 1)\n```\n\n```text\n3\n```\n", encoding="utf-8")
    assert pages.run_blocks(page, tmp_path) == "```python\nprint(1 + 1)\n```\n\n```text\n2\n```\n"


def test_the_readme_is_short():
    assert len(pages.README.read_text(encoding="utf-8").splitlines()) <= 150


@pytest.mark.parametrize("page", [pages.README, *pages.guide_pages()], ids=lambda page: page.stem)
def test_links_lead_to_files_of_the_repository_or_to_what_the_page_makes(page, made):
    links = [link["target"] for link in pages.LINK.finditer(page.read_text(encoding="utf-8"))]
    own = made / page.parent.relative_to(GUIDE) if page != pages.README else ROOT
    assert [link for link in links if not ((page.parent / link).exists() or (own / link).exists())] == []


@pytest.mark.parametrize("page", ["README.md", "examples/guide/physics/trust.md"])
def test_the_cautions_are_there(page):
    assert CAUTION in " ".join((ROOT / page).read_text(encoding="utf-8").replace("**Safety.**", "").split())


@pytest.mark.parametrize("page", ["player", "coach"])
def test_players_and_coaches_are_told_nothing_in_statisticians_words(page):
    text = (GUIDE / "tutorials" / f"{page}.md").read_text(encoding="utf-8")
    assert STATISTICIANS_WORDS.findall(text) == []


def asked_of_the_network(html):
    """What a page would load from elsewhere: scripts, styles, fonts, pictures."""
    found = []

    class Reader(HTMLParser):
        def handle_starttag(self, tag, attributes):
            given = dict(attributes)
            found.append(given.get(NEEDED.get(tag)) or "")
            found.extend(re.findall(r"url\(\s*['\"]?([^'\")]*)", given.get("style") or ""))

    Reader().feed(html)
    return [address for address in found if re.match(r"(https?:)?//", address)]


def test_no_page_loads_anything_from_elsewhere(site):
    built = list(site.rglob("*.html"))
    assert len(built) > 150
    for page in built:
        assert asked_of_the_network(page.read_text(encoding="utf-8")) == [], page
    styles = list(site.rglob("*.css"))
    assert styles
    for style in styles:
        text = style.read_text(encoding="utf-8")
        assert re.findall(r"url\(\s*['\"]?(?:https?:)?//[^)]*|@import[^;]*", text) == [], style


@pytest.mark.parametrize(
    "html",
    [
        '<script src="https://elsewhere.example/a.js"></script>',
        '<link rel="stylesheet" href="//elsewhere.example/a.css">',
        '<img src="http://elsewhere.example/a.png">',
        "<p style=\"background: url('https://elsewhere.example/a.png')\">",
    ],
)
def test_a_page_that_loads_from_elsewhere_would_be_noticed(html):
    assert len(asked_of_the_network(html)) == 1


def test_equations_are_mathml(site):
    for page in (site / "physics").glob("*.html"):
        text = re.sub(r"<pre>.*?</pre>|<script.*?</script>", "", page.read_text(encoding="utf-8"), flags=re.DOTALL)
        assert "$" not in text, page
        assert "\\" not in "".join(re.findall(r"<math .*?</math>", text, re.DOTALL)), page
    assert (site / "physics" / "impact.html").read_text(encoding="utf-8").count("<math ") > 20


def test_every_page_carries_the_caution(site):
    for page in ("index", "tutorials/player", "physics/flight", "how_to/cpp", "api/python"):
        assert CAUTION in (site / f"{page}.html").read_text(encoding="utf-8"), page


def test_every_public_name_and_every_header_is_in_the_guide(site):
    inventory = InventoryFile.loads((site / "objects.inv").read_bytes(), uri="").data
    known = {name for names in inventory.values() for name in names}
    names = [f"whimbrel.{name}" for name in wb.__all__ if not inspect.ismodule(getattr(wb, name))]
    given = ["whimbrel.units.mph", "whimbrel.targets.Circle", "whimbrel.arcs.arc_of", "whimbrel.row.shot.Shot"]
    assert [name for name in names + given if name not in known] == []
    headers = [path.relative_to(ROOT) for path in (ROOT / "include").rglob("*.hpp")]
    assert len(headers) > 80
    assert [header for header in headers if not (site / f"{header}.html").is_file()] == []


def test_the_page_of_a_header_has_its_declarations_and_what_they_mean(site):
    text = (site / "include/whimbrel/swing/delivery.hpp.html").read_text(encoding="utf-8")
    plain = re.sub(r"<[^>]+>", "", text)
    assert "Unit vector of the face centre’s velocity." in plain
    assert re.search(r"T closure_rate\{\};\s+rad/s, of the head about its vertical axis", plain)
    text = (site / "include/whimbrel/shot/play.hpp.html").read_text(encoding="utf-8")
    assert '<section id="play">' in text
    assert '<section id="run-out">' not in text  # it is in the namespace kernel


@pytest.mark.skipif(browser.found() is None, reason="no chromium: apt install chromium")
def test_the_guide_opens_and_is_searched_without_a_network(site):
    with browser.page() as opened:
        opened.open(f"file://{site}/search.html?q=gear+effect", 1200)
        found = "[...document.querySelectorAll('#search-results li a')].map(a => a.textContent).join('|')"
        for _ in range(200):
            if "Impact" in (opened.value(found) or ""):
                break
        assert "Impact" in opened.value(found)
        opened.open(f"file://{site}/physics/impact.html", 1200)
        assert opened.value("document.querySelector('math').getBoundingClientRect().width") > 5
        assert [url for url in opened.asked if not url.startswith(("file:", "data:", "about:"))] == []
