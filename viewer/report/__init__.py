"""The report page: one self-contained file with everything that was found.

Names are loaded when first used: the page of a pattern shares its templates and must not load a solver. They stand in
``__init__.pyi``, once for programs and for type checkers.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
