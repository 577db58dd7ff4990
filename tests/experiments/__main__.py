"""Write the table of experiments anew: ``python -m tests.experiments``."""

from pathlib import Path

from ..verification.conftest import _make_quarter_disc
from ._all import list_comparisons
from ._comparison import write_table

PAGE = Path(__file__).with_name("README.md")
MARK = "## The table\n\n"


def main():
    """Compute every comparison and put the table in the place of the old one."""
    from .conftest import RINGS

    head = PAGE.read_text(encoding="utf-8").split(MARK)[0]
    PAGE.write_text(head + MARK + write_table(list_comparisons(_make_quarter_disc(RINGS))), encoding="utf-8")


main()
