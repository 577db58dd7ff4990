"""Put the top-level folders into the namespace ``tautlay``; all else is in pyproject.toml."""

from setuptools import find_packages, setup

ROOMS = ("solver", "materials", "making", "hammock", "meshing", "cases", "viewer")
inside = find_packages(include=[pattern for room in ROOMS for pattern in (room, f"{room}.*")])

setup(
    packages=[f"tautlay.{name}" for name in inside],
    package_dir={f"tautlay.{room}": room for room in ROOMS},
)
