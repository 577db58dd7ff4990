"""Chances in words: how many of so many hammocks, and never that one is safe."""

from ..judging.sensitivity.scatter_record import CheckScatter, ScatterRecord

LIMITS = (
    "Counted are the ranges and tolerances listed in result.json, and nothing else: not wear, damage, wrong knots or "
    "errors of the formulas. No chance says that a hammock is safe."
)
_RAREST = 10_000


def write_chance(chance: float) -> str:
    """Return a chance as so many of so many.

    Examples
    --------
    >>> [write_chance(chance) for chance in (0.34, 0.021, 0.0031, 0.0002, 0.00001)]
    ['34 of 100', '2 of 100', '3 of 1000', '2 of 10,000', 'under 1 of 10,000']
    >>> write_chance(0.997), write_chance(0.9999)
    ('over 99 of 100', 'over 99 of 100')
    """
    if chance > 0.99:
        return "over 99 of 100"
    if chance * _RAREST < 1.0:
        return f"under 1 of {_RAREST:,}"
    whole = 100 if chance >= 0.0095 else 1000 if chance >= 0.00095 else _RAREST
    return f"{chance * whole:.0f} of {whole if whole < _RAREST else f'{whole:,}'}"


def write_scatter(check: CheckScatter) -> str:
    """Return what the scatter of one check means for a maker, in two sentences.

    Examples
    --------
    >>> check = CheckScatter("left head leg", "splice breaks", 5.0, 5.6, 7.0, 8.4, 0.021, 0.0, 1, 64, 0.99, ())
    >>> print(write_scatter(check))  # doctest: +ELLIPSIS
    Left head leg, splice breaks: of 100 such hammocks, ... about 2 would have less than the required factor of 5. ...
    """
    count, _, whole = write_chance(check.short_chance).partition(" of ")
    about = "" if count.startswith(("under", "over")) else "about "
    title = f"{check.part[:1].upper()}{check.part[1:]}, {check.mechanism}"
    fail = write_chance(check.break_chance)
    return (
        f"{title}: of {whole} such hammocks, sewn and hung this well, {about}{count} would have less than the required "
        f"factor of {check.required:g}. {fail[:1].upper()}{fail[1:]} would fail there at this load."
    )


def find_likeliest(scatter: ScatterRecord) -> CheckScatter | None:
    """Return the check that most likely falls short; None without checks."""
    return max(scatter.checks, key=lambda check: (check.short_chance, check.break_chance), default=None)
