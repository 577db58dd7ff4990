"""Figures of the source tree: ``python -m tests.architecture.figures [FOLDER]``."""

import sys
from collections import defaultdict
from pathlib import Path

from ._measures import count_loose_dicts, find_doubled_names, list_functions, list_kernels
from ._order import find_back_arrows, find_circles
from ._siblings import find_sibling_circles
from ._source_tree import SourceTree


def list_rooms(tree):
    """Return modules and lines of each room, ``cases.form`` apart from ``cases``."""
    counted = defaultdict(lambda: [0, 0])
    for module in tree.modules.values():
        counted[module.room][0] += 1
        counted[module.room][1] += module.lines
    return dict(sorted(counted.items()))


def list_figures(tree):
    """Return name and value of each figure."""
    functions, kernels = list_functions(tree), list_kernels(tree)
    circles, doubled, loose = find_circles(tree.arrows), find_doubled_names(tree), count_loose_dicts(tree)
    siblings = find_sibling_circles(tree)
    longest = max(functions, key=lambda function: function.lines)
    largest = max(tree.modules.values(), key=lambda module: module.lines)
    widest = max(kernels, key=lambda kernel: kernel.positional)
    places, blanks = sum(f.places for f in functions), sum(len(f.blanks) for f in functions)
    return {
        "modules": str(len(tree.modules)),
        "lines": str(sum(module.lines for module in tree.modules.values())),
        "functions": str(len(functions)),
        "circles of modules": f"{len(circles)}, {sum(map(len, circles))} modules in them",
        "circles of siblings": f"{sum(map(len, siblings.values()))}, in {len(siblings)} packages",
        "imports against the order": str(len(find_back_arrows(tree))),
        "names of classes used twice": f"{len(doubled)} {', '.join(doubled)}",
        "longest function": f"{longest.lines} lines, {longest.label}",
        "longest module": f"{largest.lines} lines, {largest.name}",
        "dict[str, Any] and the like": f"{sum(loose.values())} in {len(loose)} modules",
        "most positional arguments of a kernel": f"{widest.positional}, {widest.label}",
        "arguments and returns with a type": f"{places - blanks} of {places}, {1 - blanks / places:.1%}",
    }


def main():
    """Print the table."""
    tree = SourceTree(Path(sys.argv[1] if len(sys.argv) > 1 else ".").resolve())
    rows = [f"{room:<28}{modules:>9}{lines:>8}" for room, (modules, lines) in list_rooms(tree).items()]
    told = [f"{name:<40}{value.strip()}" for name, value in list_figures(tree).items()]
    sys.stdout.write("\n".join([f"{'room':<28}{'modules':>9}{'lines':>8}", *rows, "", *told, ""]))


if __name__ == "__main__":
    main()
