"""Circles among what stands side by side in one package: its modules and rooms, each with all that is in it."""

from ._order import find_circles


def find_sibling_circles(tree):
    """Return the circles of siblings, by the package they stand in."""
    found = {}
    for package in {name.rpartition(".")[0] for name in tree.modules}:
        circles = find_circles(_draw_arrows(tree, package))
        if circles:
            found[package] = circles
    return found


def _draw_arrows(tree, package):
    """Return who imports whom among the children of a package; the package's own ``__init__`` is none of them."""
    arrows = {}
    for module, targets in tree.arrows.items():
        here = _find_child(module, package)
        if here is not None:
            there = {_find_child(target, package) for target in targets} - {None, here}
            arrows.setdefault(here, set()).update(there)
    for each in set().union(*arrows.values()) - set(arrows):
        arrows[each] = set()
    return arrows


def _find_child(module, package):
    """Return the child of a package in which a module stands, or None."""
    if not module.startswith(f"{package}."):
        return None
    return ".".join(module.split(".")[: package.count(".") + 2])
