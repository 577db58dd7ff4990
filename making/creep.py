r"""How much longer cloth, cords and straps grow under load with time.

Under a tension T a fibre of breaking load :math:`T_b` grows with the logarithm of the time t,

.. math:: \varepsilon_c = k \frac{T}{T_b} L, \quad L = \log_{10}\left(1 + \frac{a\,t}{t_0}\right), \quad
    a = 10^{(\theta - 20)/\Delta}

with t0 of one minute, its creep k, and the difference of temperature :math:`\Delta` that makes creep ten times as fast.
Since that is proportional to T, what has crept is what is softer,

.. math:: \frac{1}{EA'} = \frac{1}{EA} + \frac{k L}{T_b}

and each part creeps under its own tension without being told it: one equilibrium with EA' is the one in which every
unstressed length has grown by the creep of its own tension (the quasi-elastic method: exact where tensions stay,
good where they change slowly). Valid within 5 degrees of 20 degC unless the fibre has a :math:`\Delta`, up to 30 % of
the breaking load and up to the fibre's longest time.
"""

from dataclasses import dataclass
from math import log10

from ..materials import Library, Material, TextileFibre

ROOM = 20.0  # degC at which the library's numbers are meant
READ = 60.0  # s after loading at which stiffnesses are meant: a home test is read after about a minute
HIGHEST_SHARE = 0.30  # of the breaking load up to which creep was seen to grow with the load; the tables end there
NEAR = 5.0  # K from there within which nothing is said of temperature: common laboratory air
COLDEST, WARMEST = -20.0, 40.0  # degC, judgement: nights one sleeps out in


@dataclass(frozen=True)
class Weather:
    """What a material goes through.

    Parameters
    ----------
    after : float
        Time under load, s.
    wet : bool
        Whether it is soaked.
    temperature : float
        degC.
    """

    after: float = 0.0
    wet: bool = False
    temperature: float = ROOM

    @property
    def changes(self) -> bool:
        """Whether anything is other than in the evening: dry, at 20 degC, just loaded."""
        return self != Weather()


def find_fibre(material: Material, library: Library) -> TextileFibre | None:
    """Return what a material is spun from, by the words of its kind; None where that is a blend, a film or not known.

    Parameters
    ----------
    material : Material
        Cloth, cord, strap or thread.
    library : Library
        Whose fibres are looked through.

    Examples
    --------
    >>> from tautlay.materials import Cord, Webbing, read_library
    >>> library = read_library()
    >>> find_fibre(library.find(Cord, "liquid-crystal polyester braid 2 mm"), library).name
    'liquid-crystal polyester'
    >>> find_fibre(library.find(Webbing, "UHMWPE/polyester 1 in"), library) is None
    True
    """
    words, found = material.kind, []
    for name in sorted(library.names("fibre"), key=len, reverse=True):
        if name in words:
            found.append(name)
            words = words.replace(name, "")
    return library.find(TextileFibre, found[0]) if len(found) == 1 and "laminate" not in words else None


def count_decades(weather: Weather, fibre: TextileFibre) -> float:
    """Return L, the tenfold times that creep has gone through, up to the longest time that is known.

    Parameters
    ----------
    weather : Weather
        Time and temperature.
    fibre : TextileFibre
        Whose creep.

    Examples
    --------
    >>> fibre = TextileFibre("demo", "polyamide", 1140.0, creep=0.02, creep_time=1e6)
    >>> [count_decades(Weather(after), fibre) for after in (0.0, 540.0)]
    [0.0, 1.0]
    """
    known = weather.after if fibre.creep_time is None else min(weather.after, fibre.creep_time)
    faster = 1.0 if fibre.creep_shift is None else 10.0 ** ((weather.temperature - ROOM) / fibre.creep_shift)
    return log10(1.0 + faster * known / READ)


def find_creep(fibre: TextileFibre, share: float, weather: Weather) -> float:
    """Return the strain by which something creeps.

    Parameters
    ----------
    fibre : TextileFibre
        What it is spun from, with a creep.
    share : float
        Tension over breaking load, 1; up to 0.3.
    weather : Weather
        Time and temperature.

    Raises
    ------
    ValueError
        Where the fibre's creep is not known.

    Examples
    --------
    >>> fibre = TextileFibre("demo", "polyamide", 1140.0, creep=0.02, creep_time=1e6)
    >>> round(find_creep(fibre, 0.1, Weather(after=8 * 3600.0)), 5)
    0.00536
    """
    if fibre.creep is None:
        raise ValueError(f"{fibre.label}: creep is not known")
    return fibre.creep * share * count_decades(weather, fibre)


def soften(stiffness: float, strength: float, grown: float) -> float:
    """Return the stiffness EA' of what has also crept.

    Parameters
    ----------
    stiffness, strength : float
        EA and breaking load, N; or of cloth per width, N/m.
    grown : float
        k L, the strain by which it would creep under its whole strength, 1.

    Examples
    --------
    >>> round(soften(5000.0, 2000.0, 0.02 * 2.0), 1)
    4545.5
    """
    return 1.0 / (1.0 / stiffness + grown / strength)
