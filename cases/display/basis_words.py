"""Words that are shown for how certain a value is; files keep their own."""

_WORDS = {
    "seen": "checked in the source",
    "stated": "stated in the design",
    "second hand": "secondary source",
    "memory": "unverified",
    "judgement": "engineering judgement",
}


def show_basis(basis: str) -> str:
    """Return the words for a status of a material or a basis of a step; others are shown as they are.

    Parameters
    ----------
    basis : str
        As it is stored.

    Examples
    --------
    >>> show_basis("memory"), show_basis("derived")
    ('unverified', 'derived')
    """
    return _WORDS.get(basis, basis)
