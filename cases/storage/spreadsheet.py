"""Cells of a CSV file that a spreadsheet shows and does not compute."""

_RUN = ("=", "+", "-", "@", "\t", "\r")  # a text that begins with one of them would be run as a formula


def write_cell(cell: object) -> object:
    """Return what stands in a cell: a text that a spreadsheet would run is kept a text by an apostrophe.

    Parameters
    ----------
    cell : object
        Number, truth value, text or None; numbers stay numbers, with every digit.

    Examples
    --------
    >>> [write_cell(cell) for cell in ("=HYPERLINK(A1)", "- as designed", "-5", -5.25, True, None)]
    ["'=HYPERLINK(A1)", "'- as designed", '-5', -5.25, 'TRUE', None]
    """
    if isinstance(cell, bool):
        return str(cell).upper()
    return f"'{cell}" if isinstance(cell, str) and cell.startswith(_RUN) and not _is_number(cell) else cell


def _is_number(text: str) -> bool:
    """Return whether a text is a plain number."""
    try:
        float(text)
    except ValueError:
        return False
    return text == text.strip()
