"""How certain the values are: what each status means, how many values of the library have it, losses without an end."""

from collections import Counter

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

from tautlay.cases.command.printing.footnotes import MARKS
from tautlay.cases.display.basis_words import show_basis
from tautlay.making.bend import BENDS
from tautlay.making.bend import SOURCE as BEND_SOURCE
from tautlay.making.channel_strength import EFFICIENCIES
from tautlay.making.factor import WET
from tautlay.materials import CATEGORIES, read_library
from tautlay.materials.provenance import STATUSES

from .rst_table import parse_rst, quote, write_table

_MEANINGS = {
    "seen": "somebody opened the document that is named and read the value there",
    "second hand": "read in a document that quotes another",
    "derived": "computed from other values by the rule that is named",
    "memory": "no document opened: remembered from textbooks or the trade, or looked for and not found",
    "judgement": "chosen by the developers; the reason stands beside it",
    "stated": "your design says so",
}


class StatusDirective(SphinxDirective):
    """``status-words``: every word for how certain a value is, where it stands, and what it means."""

    def run(self) -> list[nodes.Node]:
        """Return the table."""
        rows = [
            (show_basis(basis), f"``{basis}``", quote(MARKS.get(basis, "")) or "\\", meaning)
            for basis, meaning in _MEANINGS.items()
        ]
        return parse_rst(self, write_table(("on screen", "in files", "mark", "meaning"), rows, (20, 14, 6, 60)))


class LibraryStatusDirective(SphinxDirective):
    """``library-status``: how many values of each kind of material have which status, and the share of each."""

    def run(self) -> list[nodes.Node]:
        """Return the table."""
        library, rows, all_kinds = read_library(), [], Counter[str]()
        for category in CATEGORIES:
            found = Counter(
                row[4]
                for name in library.names(category)
                for row in library.details(category, name, "metric").rows
                if row[1] != "-"  # a property of a fibre of which no number was found
            )
            all_kinds += found
            rows.append((str(category), *_count(found)))
        rows.append(("**all**", *_count(all_kinds)))
        headings = ("values of", *map(show_basis, STATUSES), "all")
        return parse_rst(self, write_table(headings, rows, (20, *(16 for _ in headings[1:]))))


class LossesDirective(SphinxDirective):
    """``losses``: what seams, bends and wet nylon leave of a strength."""

    def run(self) -> list[nodes.Node]:
        """Return the table."""
        rows = [
            (
                f"cloth at a seam of {'one row' if rows == 1 else 'two rows or more'}",
                f"{share:.0%}",
                _span(limits),
                quote(source),
                show_basis(basis),
            )
            for rows, (share, source, basis, limits) in EFFICIENCIES.items()
        ]
        rows += [
            (
                f"cord in a bend, D/d {ratio:g}",
                f"{low:.0%}",
                _span((low, high)),
                quote(BEND_SOURCE),
                show_basis("memory"),
            )
            for ratio, low, high in BENDS
        ]
        wet = "Tension Technology International, Table 1: nylon loses 10 to 15 % when wet"
        rows.append(("wet nylon", f"{WET[0]:.0%}", _span(WET), wet, show_basis("seen")))
        return parse_rst(self, write_table(("what", "kept", "range", "source", "status"), rows, (22, 8, 12, 42, 16)))


def _count(found: Counter[str]) -> tuple[str, ...]:
    """Return how many values have each status, with their share, and how many there are."""
    whole = found.total()
    if unknown := set(found) - set(STATUSES):
        raise ValueError(f"no column for the status {', '.join(sorted(unknown))}.")
    return *(f"{found[each]} ({found[each] / whole:.0%})" if found[each] else "0" for each in STATUSES), str(whole)


def _span(limits: tuple[float, float]) -> str:
    """Return a range of shares."""
    return f"{100 * limits[0]:.0f} to {100 * limits[1]:.0f} %"
