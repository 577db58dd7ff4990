"""The registry of laws of cloth: whatever stands here is held to the contract."""

from typing import NamedTuple

from tautlay.solver import FabricLaw, Law

from ._neo_hookean import NeoHookean


class Row(NamedTuple):
    """A law, the principal strains it is tried at, and whether it is a tension field."""

    law: Law
    strains: tuple[float, float]
    relaxed: bool = True


LAWS = {
    "fabric": Row(FabricLaw(30e3, 25e3, 0.15, 100.0), (-0.05, 0.05)),
    "fabric that widens": Row(FabricLaw(8e3, 40e3, -0.3, 15e3), (-0.05, 0.05)),
    "prestressed fabric": Row(FabricLaw(30e3, 25e3, 0.15, 900.0, prestress=(300.0, 200.0, 40.0)), (-0.05, 0.05)),
    "fabric both ways": Row(FabricLaw(30e3, 25e3, 0.15, 100.0, tension_only=False), (-0.05, 0.05), relaxed=False),
    "neo-Hookean": Row(NeoHookean(20e3), (-0.4, 1.2)),
}
