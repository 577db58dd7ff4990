"""Every link of the built documentation leads to a file and a place in it that are there, and nothing is fetched."""

import sys
from html.parser import HTMLParser
from pathlib import Path
from urllib.parse import unquote, urlsplit

_LOADED = {("script", "src"), ("img", "src"), ("link", "href"), ("iframe", "src"), ("source", "src"), ("use", "href")}
_ELSEWHERE = ("http", "https", "mailto")


class LinkedPage(HTMLParser):
    """A page: what it links to, what it loads, and the places in it that a link can lead to.

    Parameters
    ----------
    file : Path
        HTML.
    """

    def __init__(self, file: Path) -> None:
        super().__init__()
        self.file = file
        self.links: list[str] = []
        self.loaded: list[str] = []
        self.places: set[str] = set()
        self.feed(file.read_text(encoding="utf-8"))

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Collect what an element links to, loads and is named."""
        for name, value in attrs:
            if name == "id" or (tag, name) == ("a", "name"):
                self.places.add(value or "")
            elif (tag, name) in _LOADED and value:
                self.loaded.append(value)
            elif (tag, name) == ("a", "href") and value:
                self.links.append(value)


def find_broken(folder: Path) -> list[str]:
    """Return what is wrong with the links of a folder of pages, a sentence each.

    Parameters
    ----------
    folder : Path
        As Sphinx writes it.
    """
    pages = {file.resolve(): LinkedPage(file) for file in sorted(folder.rglob("*.html"))}
    found = []
    for page in pages.values():
        here = page.file.relative_to(folder)
        found += [f"{here} loads {target} from elsewhere." for target in page.loaded if _is_elsewhere(target)]
        targets = dict.fromkeys([*page.links, *page.loaded])
        wrong = ((target, _judge_link(page.file, target, pages)) for target in targets)
        found += [f"{here} links to {target}, {words}." for target, words in wrong if words]
    return found


def _is_elsewhere(target: str) -> bool:
    """Whether something would be fetched."""
    return urlsplit(target).scheme in _ELSEWHERE or target.startswith("//")


def _judge_link(page: Path, target: str, pages: dict[Path, LinkedPage]) -> str:
    """Return what is wrong with a link to another file or place; nothing where all is well."""
    parts = urlsplit(target)
    if parts.scheme or parts.netloc:
        return ""
    file = (page.parent / unquote(parts.path)).resolve() if parts.path else page.resolve()
    if not file.is_file():
        return "which is not there"
    lost = parts.fragment and file in pages and unquote(parts.fragment) not in pages[file].places
    return "a page without that place" if lost else ""


if __name__ == "__main__":
    broken = find_broken(Path(sys.argv[1]))
    print("\n".join(broken) if broken else "Every link leads somewhere, and nothing is fetched.")
    sys.exit(bool(broken))
