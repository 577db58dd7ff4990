"""From a hammock as a maker describes it to a structure that can be solved.

Names are loaded when first used: what checks a design meshes it and must not load a solver. They stand in
``__init__.pyi``, once for programs and for type checkers.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
