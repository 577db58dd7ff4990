"""What the ends of cords keep and which factor of safety is required, from the tables that the checks read."""

from docutils import nodes
from sphinx.util.docutils import SphinxDirective

from tautlay.cases.display.basis_words import show_basis
from tautlay.making.factor import FACTORS
from tautlay.making.retained_strength import SHARES, SLIP, RetainedStrength

from .rst_table import parse_rst, quote, write_table


class SharesDirective(SphinxDirective):
    """``shares-kept``: what share of its strength a cord or strap keeps at each kind of end."""

    def run(self) -> list[nodes.Node]:
        """Return the table."""
        rows = [_write_share(fibre, end.value, share) for (fibre, end), share in SHARES.items()]
        rows.append(_write_share("UHMWPE", "any other knot", SLIP))
        return parse_rst(self, write_table(("fibre", "end", "kept", "range", "source", "status"), rows, _WIDTHS))


class FactorsDirective(SphinxDirective):
    """``factors-required``: the factor of safety required of each kind of part."""

    def run(self) -> list[nodes.Node]:
        """Return the table."""
        rows = [
            (f"``{each.kind}``", f"{each.value:g}", quote(each.meaning), quote(each.source), show_basis(each.basis))
            for each in FACTORS.values()
        ]
        headings = ("key", "required", "of what", "source", "status")
        return parse_rst(self, write_table(headings, rows, (10, 8, 30, 38, 14)))


_WIDTHS = (12, 14, 7, 10, 43, 14)


def _write_share(fibre: str, end: str, share: RetainedStrength) -> tuple[str, ...]:
    """Return one row; without a range the one number stands alone."""
    limits = "\\" if share.range is None else " to ".join(f"{100 * limit:.0f}" for limit in share.range) + " %"
    return fibre, end, f"{share.value:.0%}", limits, quote(f"{share.text}: {share.source}"), show_basis(share.basis)
