"""Sizes of people from a survey: percentiles of stature and mass, breadths and depths by regression.

Source: 2012 Anthropometric Survey of U.S. Army Personnel (ANSUR II), public data files; Gordon et al.,
NATICK/TR-15/007, 2014: 4082 men, 1986 women; percentiles and least squares on stature and mass worked out
from those files, unweighted. Soldiers are fitter than civilians, whose 95th and 99th percentile of mass lies higher.
"""

from math import exp, log
from statistics import NormalDist

from .person import Sex

PERCENTILES = (1, 5, 25, 50, 75, 95, 99)
STATURE = {
    Sex.MALE: (1.6016, 1.648, 1.71, 1.755, 1.802, 1.87, 1.927),
    Sex.FEMALE: (1.4826, 1.525, 1.5863, 1.626, 1.672, 1.74, 1.7776),
}
MASS = {
    Sex.MALE: (57.8, 64.4, 75.6, 84.6, 94.4, 110.69, 124.21),
    Sex.FEMALE: (46.66, 51.3, 60.1, 66.8, 74.57, 87.07, 97.45),
}
# a + b stature + c mass, m; residual standard deviation 11 to 18 mm, the head's 5 to 7 mm
REGRESSIONS = {
    Sex.MALE: {
        "chest breadth": (0.20620, 0.00356, 0.0009002),
        "chest depth": (0.25813, -0.08938, 0.0017853),
        "waist breadth": (0.30601, -0.10326, 0.0023593),
        "waist depth": (0.30240, -0.15329, 0.0023921),
        "hip breadth": (0.23257, -0.00647, 0.0014562),
        "sitting hip breadth": (0.26142, -0.02716, 0.0019359),
        "buttock depth": (0.25904, -0.09808, 0.0018598),
        "shoulder breadth": (0.43346, -0.06100, 0.0021526),  # across the deltoids
        "head breadth": (0.1543, 0.0, 0.0),
        "head length": (0.1995, 0.0, 0.0),
    },
    Sex.FEMALE: {
        "chest breadth": (0.20635, -0.01285, 0.0012383),
        "chest depth": (0.27781, -0.11634, 0.0023473),
        "waist breadth": (0.29590, -0.11378, 0.0027934),
        "waist depth": (0.31707, -0.18103, 0.0028154),
        "hip breadth": (0.26242, -0.03156, 0.0021078),
        "sitting hip breadth": (0.30558, -0.05240, 0.0026375),
        "buttock depth": (0.26363, -0.11128, 0.0022215),
        "shoulder breadth": (0.38678, -0.06265, 0.0024435),
        "head breadth": (0.1478, 0.0, 0.0),
        "head length": (0.1898, 0.0, 0.0),
    },
}


def measure_body(sex: Sex, stature: float, mass: float) -> dict[str, float]:
    """Return breadths and depths, m, of an average person of this sex, stature (m) and mass (kg).

    Examples
    --------
    >>> round(measure_body(Sex.MALE, 1.755, 84.6)["shoulder breadth"], 3)
    0.509
    """
    return {name: a + b * stature + c * mass for name, (a, b, c) in REGRESSIONS[sex].items()}


def find_percentile(sex: Sex, percentile: float) -> tuple[float, float]:
    """Return stature, m, and mass, kg, each at its own ``percentile`` of this sex.

    Between the survey's percentiles stature is interpolated on the scale of the normal distribution, and so
    is the logarithm of mass.

    Parameters
    ----------
    sex : Sex
        Which survey group.
    percentile : float
        1 to 99.

    Raises
    ------
    ValueError
        Beyond that range, where the survey gives nothing.

    Examples
    --------
    >>> find_percentile(Sex.FEMALE, 5)
    (1.525, 51.3)
    """
    if not PERCENTILES[0] <= percentile <= PERCENTILES[-1]:
        raise ValueError(f"percentile = {percentile:g} must be between 1 and 99.")
    stature = _interpolate(percentile, STATURE[sex])
    mass = exp(_interpolate(percentile, tuple(map(log, MASS[sex]))))
    return round(stature, 6), round(mass, 6)


def _interpolate(percentile: float, values: tuple[float, ...]) -> float:
    """Return the value at a percentile, linear between neighbours in standard deviations."""
    normal = NormalDist().inv_cdf
    for low, high, a, b in zip(PERCENTILES, PERCENTILES[1:], values, values[1:], strict=False):
        if percentile <= high:
            start, end = normal(low / 100), normal(high / 100)
            return a + (b - a) * (normal(percentile / 100) - start) / (end - start)
    raise AssertionError("checked before")
