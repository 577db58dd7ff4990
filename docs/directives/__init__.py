"""Directives that write the reference from the code, so that it cannot say what the code does not do."""

from typing import Any

from .key_tables import FormDirective, RecordDirective
from .material_tables import MaterialsDirective
from .math_markup import show_block, show_inline
from .name_lists import NamesDirective, tell_type
from .status_tables import LibraryStatusDirective, LossesDirective, StatusDirective
from .strength_tables import FactorsDirective, SharesDirective
from .verification_list import VerificationDirective


def setup(app: Any) -> dict[str, bool]:
    """Register them."""
    app.add_directive("form-keys", FormDirective)
    app.add_directive("record-keys", RecordDirective)
    app.add_directive("material-tables", MaterialsDirective)
    app.add_directive("public-names", NamesDirective)
    app.add_directive("shares-kept", SharesDirective)
    app.add_directive("factors-required", FactorsDirective)
    app.add_directive("status-words", StatusDirective)
    app.add_directive("library-status", LibraryStatusDirective)
    app.add_directive("losses", LossesDirective)
    app.add_directive("verification-list", VerificationDirective)
    app.connect("autodoc-process-docstring", tell_type, priority=900)  # after numpydoc has written its sections
    app.add_html_math_renderer("mathml", (show_inline, None), (show_block, None))
    return {"parallel_read_safe": True, "parallel_write_safe": True}
