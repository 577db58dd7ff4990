"""A pattern that cannot be drafted or laid."""

from ..design_issue import InputError


class PatternError(InputError):
    """Pieces that cannot be cut; the message says what is wrong and what to do."""
