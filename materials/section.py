"""Cross-section of a bar."""

from abc import ABC, abstractmethod
from typing import ClassVar

from .material import Material


class BarSection(Material, ABC):
    """Straight bar of one cross-section; the common part of ``Tube`` and ``Rod``."""

    mass_from: ClassVar[tuple[str, ...]] = ("density",)  # sizes are measured, not guessed

    # Declared by the subclasses, which decide the order of their fields.
    modulus: float
    density: float

    @property
    @abstractmethod
    def area(self) -> float:
        """Area of the material, m2."""

    @property
    @abstractmethod
    def second_moment(self) -> float:
        """Second moment of area about a diameter, m4."""

    @property
    def ea(self) -> float:
        """Axial stiffness, N."""
        return self.modulus * self.area

    @property
    def ei(self) -> float:
        """Bending stiffness, N m2."""
        return self.modulus * self.second_moment

    @property
    def unit_mass(self) -> float:
        """Mass per length, kg/m."""
        return self.linear_mass

    @property
    def linear_mass(self) -> float:
        """Mass per length, kg/m."""
        return self.density * self.area
