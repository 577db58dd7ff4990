"""What a hammock is made of: quantities, materials and the library of sourced values.

Cheap to import: names are loaded when first used, pint and tomllib when the first quantity or file is read. The names
stand in ``__init__.pyi``, once for programs and for type checkers.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
