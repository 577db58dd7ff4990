"""Put the top-level folders into the namespace ``tautlay``; all else is in pyproject.toml.

The packages are taken through ``.links/tautlay``, so that an editable installation is one line with a path in a
``.pth`` file: type checkers and editors read that, and not the import hook that setuptools makes for scattered
folders. Where git writes links as plain files (Windows, unless told otherwise) and for a source distribution, which
would hold copies in place of links, the folders themselves are taken; the wheel is the same.
"""

import sys
from pathlib import Path

from setuptools import find_packages, setup

ROOMS = ("solver", "materials", "making", "hammock", "cutting", "meshing", "cases", "viewer")
LINKS = Path(".links")
packages = [
    f"tautlay.{name}" for name in find_packages(include=[pattern for room in ROOMS for pattern in (room, f"{room}.*")])
]
HERE = {"egg_info": {"egg_base": "."}}  # a record left from another layout would be read before the installed one

if "sdist" not in sys.argv and all((LINKS / "tautlay" / room).is_dir() for room in ROOMS):
    setup(packages=["tautlay", *packages], package_dir={"": str(LINKS)}, options=HERE)
else:
    setup(packages=packages, package_dir={f"tautlay.{room}": room for room in ROOMS}, options=HERE)
