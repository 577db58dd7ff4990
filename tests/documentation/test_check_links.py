"""The check of the built documentation finds what it is there for."""

import importlib.util
from pathlib import Path

import pytest

SCRIPT = Path(__file__).parents[2] / "docs" / "check_links.py"


@pytest.fixture(scope="module")
def find_broken():
    spec = importlib.util.spec_from_file_location("check_links", SCRIPT)
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module.find_broken


@pytest.fixture
def site(tmp_path):
    (tmp_path / "other.html").write_text('<h1 id="top">Other</h1><a name="old"></a>', encoding="utf-8")
    (tmp_path / "a b.svg").write_text("<svg/>", encoding="utf-8")

    def write(body):
        (tmp_path / "index.html").write_text(f'<p id="here">{body}</p>', encoding="utf-8")
        return tmp_path

    return write


SOUND = (
    '<a href="#here">a</a><a href="other.html#top">b</a><a href="other.html#old">c</a><img src="a%20b.svg">'
    '<a href="https://example.org/x">d</a><img src="data:image/png;base64,AA==">'
)


def test_sound_links_pass(site, find_broken):
    assert find_broken(site(SOUND)) == []


@pytest.mark.parametrize(
    ("body", "told"),
    [
        ('<a href="gone.html">a</a>', "index.html links to gone.html, which is not there."),
        ('<a href="#gone">a</a>', "index.html links to #gone, a page without that place."),
        ('<a href="other.html#gone">a</a>', "index.html links to other.html#gone, a page without that place."),
        ('<img src="gone.png">', "index.html links to gone.png, which is not there."),
        (
            '<script src="https://example.org/x.js"></script>',
            "index.html loads https://example.org/x.js from elsewhere.",
        ),
        ('<link href="//example.org/x.css">', "index.html loads //example.org/x.css from elsewhere."),
    ],
)
def test_broken_ones_are_told(site, find_broken, body, told):
    assert told in find_broken(site(SOUND + body))
