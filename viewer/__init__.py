"""Pictures and pages of results, and the window in which they are seen. Reads what cases wrote, computes no mechanics.

Names are loaded when first used: drawing libraries take a second to import. They stand in ``__init__.pyi``, once for
programs and for type checkers.
"""

from ..cases.public_names import attach_names

_RENAMED = {"ScreenError": "DisplayError"}
__getattr__, __dir__, __all__ = attach_names(__name__, __file__, _RENAMED)
