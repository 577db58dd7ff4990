"""All comparisons, one experiment after the other."""

from . import _bulge, _discs, _flat_bed, _slackline, _strength


def list_comparisons(disc):
    """Return every comparison; ``disc`` is a mesh of a quarter disc of radius 1."""
    return [
        *_bulge.compare(),
        *_slackline.compare(),
        *_discs.compare(disc),
        *_flat_bed.compare(),
        *_strength.compare(),
    ]
