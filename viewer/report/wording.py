"""Quantities and sentences as HTML in both systems of units; the page shows those it is switched to."""

from markupsafe import Markup, escape

from ...cases.unit_display import SentenceQuantity, show_quantity, split_sentence


def mark_quantity(value: float | None, dimension: str, digits: int = 3) -> Markup:
    """Return a quantity in both systems of units.

    Parameters
    ----------
    value : float or None
        SI; None is a dash.
    dimension : str
        Known to materials, such as ``"force"``.
    digits : int
        Significant digits.

    Returns
    -------
    Markup
        Plain where both are the same.

    Examples
    --------
    >>> mark_quantity(444.82, "force").striptags()
    '445 N 100 lbf'
    >>> mark_quantity(0.5, "ratio")
    Markup('0.500')
    """
    if value is None:
        return Markup("&ndash;")
    return mark_pair(*(show_quantity(value, dimension, units, digits) for units in ("metric", "imperial")))


def mark_sentence(text: str) -> Markup:
    """Return a sentence with its quantities in both systems of units; any other text as it is, made harmless.

    Parameters
    ----------
    text : str or Sentence
        What is to be shown.

    Returns
    -------
    Markup
        Ready to stand in the page.

    Examples
    --------
    >>> mark_sentence("<b>bold</b>")
    Markup('&lt;b&gt;bold&lt;/b&gt;')
    """
    pieces = split_sentence(text)
    return Markup("").join(
        mark_quantity(*each) if isinstance(each, SentenceQuantity) else escape(each) for each in pieces
    )


def mark_pair(metric: str, imperial: str) -> Markup:
    """Return words that differ in metric and in imperial units.

    Examples
    --------
    >>> mark_pair("both", "both")
    Markup('both')
    """
    if metric == imperial:
        return escape(metric)
    pair = '<span class="q"><span class="q-m">{}</span><span class="q-b"> </span><span class="q-i">{}</span></span>'
    return Markup(pair).format(metric, imperial)
