"""What a user asks: design files, load cases, results, studies, the command line.

Names are loaded when first used: the command's help must not wait for a solver it does not need. They stand in
``__init__.pyi``, once for programs and for type checkers.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
