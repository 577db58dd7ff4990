"""Sentences in a file: the text in metric units, and beside it what is needed to write it in others.

JSON has no sentences, only texts. The quantities of all of them are kept in one table under the text itself.
"""

from collections.abc import Iterator, Mapping
from typing import Any

from ...materials import Sentence, make_sentence
from ..unit_display import SentenceQuantity, split_sentence

Store = dict[str, dict[str, Any]]


def keep_sentences(found: object) -> Store:
    """Return the quantities of every sentence that holds some.

    Parameters
    ----------
    found : object
        Nested mappings, sequences and plain values, such as ``result.summary``.

    Returns
    -------
    dict of str to dict
        By the text in metric units: ``template``, the text with a field ``{q0:length.3}`` (dimension, significant
        digits) for each quantity, and ``values_SI``.

    Examples
    --------
    >>> keep_sentences({"notes": [make_sentence("{low:length} above ground", low=0.254), "no quantity"]})
    {'25.4 cm above ground': {'template': '{q0:length.3} above ground', 'values_SI': [0.254]}}
    """
    return {str(text): kept for text in _find_sentences(found) if (kept := _keep(text))["values_SI"]}


def restore_sentences(found: Any, store: Mapping[str, Any]) -> Any:  # noqa: ANN401
    """Return what was read from a file with its texts turned back into sentences.

    Parameters
    ----------
    found : object
        Nested dictionaries, lists and plain values, as JSON gives them.
    store : mapping
        From :func:`keep_sentences`.

    Returns
    -------
    object
        The same with a ``Sentence`` for each text in ``store``.

    Raises
    ------
    ValueError
        If a kept sentence does not give its own text.

    Examples
    --------
    >>> store = {"1.00 kN": {"template": "{q0:force.3}", "values_SI": [1000.0]}}
    >>> restore_sentences(["1000 N"], {"1000 N": store["1.00 kN"]})
    ['1000 N']
    """
    if isinstance(found, dict):
        return {key: restore_sentences(value, store) for key, value in found.items()}
    if isinstance(found, list):
        return [restore_sentences(value, store) for value in found]
    if not isinstance(found, str) or found not in store:
        return found
    kept = store[found]
    sentence = make_sentence(kept["template"], **{f"q{place}": value for place, value in enumerate(kept["values_SI"])})
    if sentence != found:
        raise ValueError(f"the sentence {found!r} is kept as {str(sentence)!r}")
    return sentence


def _find_sentences(found: object) -> Iterator[Sentence]:
    """Yield every sentence in nested mappings and sequences."""
    if isinstance(found, Sentence):
        yield found
    elif isinstance(found, Mapping):
        for value in found.values():
            yield from _find_sentences(value)
    elif isinstance(found, list | tuple):
        for value in found:
            yield from _find_sentences(value)


def _keep(text: Sentence) -> dict[str, Any]:
    """Return a sentence without those inside it: one field for each quantity."""
    template, values = "", list[float]()
    for piece in split_sentence(text):
        if isinstance(piece, SentenceQuantity):
            template += f"{{q{len(values)}:{piece.dimension}.{piece.digits}}}"
            values.append(piece.value)
        else:
            template += piece.replace("{", "{{").replace("}", "}}")
    return {"template": template, "values_SI": values}
