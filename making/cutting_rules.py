"""How the pieces of a hammock are cut: what the maker chooses beyond the shape of the hammock."""

from dataclasses import dataclass

from ..materials.short_repr import write_repr, write_value

USUAL_WIDTH = 1.45  # m, cuttable; common practice, no source: sold 58 to 64 in wide, of which 1 to 2 in are selvedge
MELTED = 0.002  # m that a hot knife melts back; engineering judgement, no source


@dataclass(frozen=True)
class CuttingRules:
    """What the maker chooses about cutting.

    Parameters
    ----------
    cloth_width : float
        Cuttable width of all cloth, m.
    allowance : float
        Of plain seams, m; engineering judgement, no source.
    notch_spacing : float
        Greatest distance between two notches, m; engineering judgement, no source.
    hot_cut : bool
        Whether edges are cut with a hot knife, which takes 2 mm more cloth.

    Examples
    --------
    >>> CuttingRules(hot_cut=True).melted, CuttingRules().cloth_width
    (0.002, 1.45)
    """

    cloth_width: float = USUAL_WIDTH
    allowance: float = 0.012
    notch_spacing: float = 0.30
    hot_cut: bool = False

    def __repr__(self) -> str:
        return write_repr(
            self,
            f"cloth {write_value(self.cloth_width, 'length')} wide",
            f"allowance {write_value(self.allowance, 'length')}",
            f"notches {write_value(self.notch_spacing, 'length')} apart",
            "cut hot" if self.hot_cut else "",
        )

    @property
    def melted(self) -> float:
        """Cloth that is cut beyond every allowance, m."""
        return MELTED if self.hot_cut else 0.0
