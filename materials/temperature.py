"""Temperatures as a maker writes them; apart from the other quantities, since their scales do not begin at one zero."""

from .quantity import parse_quantity

_DEGREES_F = 1.8  # in one of Celsius
_FREEZING_F = 32.0 / _DEGREES_F  # K that a reading in degF stands above one in degC, once its degrees are counted in K
_FREEZING_K = 273.15


def parse_temperature(text: str) -> float:
    """Return a temperature, degrees Celsius.

    Parameters
    ----------
    text : str
        Number and ``degC``, ``degF`` or ``K``.

    Raises
    ------
    QuantityError
        If it cannot be read.

    Examples
    --------
    >>> parse_temperature("-5 degC"), round(parse_temperature("41 degF"), 9), parse_temperature("293.15 K")
    (-5.0, 5.0, 20.0)
    """
    degrees = parse_quantity(text, "temperature_difference", signed=True)
    if text.rstrip().endswith("F"):
        return degrees - _FREEZING_F
    return degrees - _FREEZING_K if text.rstrip().endswith("K") else degrees


def find_fahrenheit(temperature: float) -> float:
    """Return a temperature in degrees Fahrenheit.

    Parameters
    ----------
    temperature : float
        Degrees Celsius.

    Examples
    --------
    >>> find_fahrenheit(20.0)
    68.0
    """
    return _DEGREES_F * temperature + 32.0
