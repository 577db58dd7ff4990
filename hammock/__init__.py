"""A hammock: cloth, channels, bars, suspension, person; its outline, its hang, its geometry checks.

Names are loaded when first used: the command's help lists load cases and must not wait for numpy. They stand in
``__init__.pyi``, once for programs and for type checkers.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
