"""Circles in the tree, and arrows against the order of layers that pyproject.toml states."""


def find_circles(arrows):
    """Return the strongly connected sets of more than one name, by Tarjan's method without recursion."""
    number, low, stack, on_stack, found = {}, {}, [], set(), []
    for start in arrows:
        if start in number:
            continue
        work = [(start, iter(arrows[start]))]
        number[start] = low[start] = len(number)
        stack.append(start)
        on_stack.add(start)
        while work:
            name, rest = work[-1]
            target = next(rest, None)
            if target is None:
                work.pop()
                if work:
                    low[work[-1][0]] = min(low[work[-1][0]], low[name])
                if low[name] == number[name]:
                    found.append(_unstack(stack, on_stack, name))
            elif target not in number:
                number[target] = low[target] = len(number)
                stack.append(target)
                on_stack.add(target)
                work.append((target, iter(arrows[target])))
            elif target in on_stack:
                low[name] = min(low[name], number[target])
    return [circle for circle in found if len(circle) > 1]


def _unstack(stack, on_stack, name):
    """Take a strongly connected set from the stack."""
    circle = set()
    while name not in circle:
        circle.add(stack.pop())
    on_stack -= circle
    return circle


def list_layer_orders(tree):
    """Return every order of layers, the highest first, each layer as the names that stand in it."""
    contracts = tree.settings["tool"]["importlinter"]["contracts"]
    layered = [contract["layers"] for contract in contracts if contract["type"] == "layers"]
    return [[[name.strip() for name in layer.split("|")] for layer in layers] for layers in layered]


def is_inside(module, name):
    """Whether a module is that package or module, or stands in it."""
    return module == name or module.startswith(f"{name}.")


def find_homes(module, layers):
    """Return the places of a module in an order: number of the layer and the name it belongs to."""
    return [(rank, name) for rank, layer in enumerate(layers) for name in layer if is_inside(module, name)]


def find_back_arrows(tree):
    """Return the imports against an order: upwards, or between two names of one layer."""
    found = set()
    for layers in list_layer_orders(tree):
        for module, targets in tree.arrows.items():
            for rank, name in find_homes(module, layers):
                for target in targets:
                    for other_rank, other in find_homes(target, layers):
                        if other_rank < rank or (other_rank == rank and other != name):
                            found.add((module, target))
    return sorted(found)


def is_facade(module, layers):
    """Whether a package only holds the layers: its own ``__init__`` lies above everything that is in it."""
    return any(name.startswith(f"{module}.") for layer in layers for name in layer)
