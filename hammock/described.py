"""What a pattern and a weight list are made from."""

from typing import Protocol

from ..making import Workmanship
from .hammock import Hammock


class Described(Protocol):
    """Anything that describes a hammock and how it is made, such as a design."""

    @property
    def hammock(self) -> Hammock:
        """Shape and materials."""

    @property
    def workmanship(self) -> Workmanship:
        """How its parts are made."""
