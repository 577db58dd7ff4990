"""The designs of a sweep: combinations of the values of its variables."""

from collections.abc import Iterator, Sequence
from itertools import product
from math import log2, prod
from typing import NamedTuple

from ....materials.short_repr import write_repr
from .sweep_form import Combine
from .sweep_variable import AS_DESIGNED, Option, SweepVariable

MOST = 10_000  # designs


class Variant(NamedTuple):
    """One design of a sweep.

    Parameters
    ----------
    number : int
        From 1.
    picks : tuple of int
        For each choice the place of its option; -1 leaves the design unchanged.
    options : tuple of Option
        What was picked.
    """

    number: int
    picks: tuple[int, ...]
    options: tuple[Option, ...]

    def __repr__(self) -> str:
        return write_repr(self, f"{self.number}", *(option.label for option in self.options))


def count_variants(choices: Sequence[SweepVariable], combine: Combine, samples: int | None) -> int:
    """Return how many designs a sweep has.

    Raises
    ------
    ValueError
        One sentence, if the choices cannot be put together like this, or make too many.
    """
    sampled = combine.sampled
    if sampled != (samples is not None):
        rule = (
            "is missing: number of designs to draw. Example: samples = 64"
            if sampled
            else "has no effect without sampling. Remove it."
        )
        raise ValueError(f"samples {rule}")
    if combine is Combine.SOBOL and log2(samples or 1) % 1:
        raise ValueError(f"a Sobol sequence needs a power of 2. Write 64 or 128 instead of {samples}.")
    sizes = [len(choice.options) for choice in choices]
    if combine is Combine.PAIRED and len(set(sizes)) > 1:
        raise ValueError(f"paired choices need equally many values, not {', '.join(map(str, sizes))}.")
    count = {Combine.GRID: prod(sizes), Combine.PAIRED: sizes[0], Combine.ALONE: 1 + sum(sizes)}.get(
        combine, samples or 0
    )
    if count > MOST:
        raise ValueError(
            f"these are {count:,} designs, at most {MOST:,} are solved. Use fewer values, or draw samples."
        )
    return count


def list_variants(
    choices: Sequence[SweepVariable], combine: Combine, samples: int | None, seed: int
) -> tuple[Variant, ...]:
    """Return the designs of a sweep in their order.

    Parameters
    ----------
    choices : sequence of SweepVariable
        What varies.
    combine : Combine
        How; a grid varies the last choice fastest.
    samples, seed : int or None, int
        How many designs are drawn, and what the drawing starts from.

    Raises
    ------
    ValueError
        As :func:`count_variants`.

    Examples
    --------
    >>> depth = SweepVariable("depth", (), (Option("12 cm", ()), Option("15 cm", ())))
    >>> [variant.picks for variant in list_variants([depth, depth], Combine.GRID, None, 1)]
    [(0, 0), (0, 1), (1, 0), (1, 1)]
    >>> [variant.picks for variant in list_variants([depth, depth], Combine.ALONE, None, 1)]
    [(-1, -1), (0, -1), (1, -1), (-1, 0), (-1, 1)]
    """
    count_variants(choices, combine, samples)
    if samples is not None:
        return tuple(_draw(choices, combine, samples, seed))
    picks = _pick(choices, combine)
    return tuple(
        Variant(place + 1, each, tuple(_take(choice, pick) for choice, pick in zip(choices, each, strict=True)))
        for place, each in enumerate(picks)
    )


def _take(choice: SweepVariable, pick: int) -> Option:
    """Return the option at a place."""
    return AS_DESIGNED if pick < 0 else choice.options[pick]


def _pick(choices: Sequence[SweepVariable], combine: Combine) -> Iterator[tuple[int, ...]]:
    """Yield places of options for each design."""
    sizes = [len(choice.options) for choice in choices]
    if combine is Combine.GRID:
        yield from product(*(range(size) for size in sizes))
    elif combine is Combine.PAIRED:
        yield from ((place,) * len(sizes) for place in range(sizes[0]))
    else:
        yield (-1,) * len(sizes)
        for column, size in enumerate(sizes):
            for place in range(size):
                yield tuple(place if other == column else -1 for other in range(len(sizes)))


def _draw(choices: Sequence[SweepVariable], combine: Combine, samples: int, seed: int) -> Iterator[Variant]:
    """Yield designs drawn from a Latin hypercube or a Sobol sequence."""
    from scipy.stats import qmc

    kind = qmc.LatinHypercube if combine is Combine.LATIN else qmc.Sobol
    shares = kind(d=len(choices), rng=seed).random(samples)
    for place, row in enumerate(shares):
        options = tuple(choice.pick(float(share)) for choice, share in zip(choices, row, strict=True))
        picks = tuple(
            place if choice.span and not choice.options else choice.options.index(option)
            for choice, option in zip(choices, options, strict=True)
        )
        yield Variant(place + 1, picks, options)
