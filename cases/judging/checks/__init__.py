"""Strength checks: demand and capacity of every part, the factor of safety found and required.

Names are loaded when first used: what weighs a design shares words with the checks and must not load a solver.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
