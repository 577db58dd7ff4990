"""Names that were probably meant."""

from collections.abc import Iterable


def suggest(word: str, allowed: Iterable[str]) -> str:
    """Return the names nearest to a misspelt one as a sentence, or all if none is near.

    Examples
    --------
    >>> suggest("Febric", ["fabric", "cord"])
    "Did you mean 'fabric'?"
    """
    from difflib import get_close_matches

    allowed = tuple(allowed)
    small = {name.casefold(): name for name in allowed}
    near = get_close_matches(word.casefold(), list(small), n=3, cutoff=0.5)
    if near:
        return f"Did you mean {' or '.join(repr(small[name]) for name in near)}?"
    return f"Choose one of {', '.join(map(repr, allowed))}."
