"""What can be counted in the sources: classes, functions, kernels, loose dictionaries."""

import ast
import re
from collections import Counter, defaultdict
from typing import NamedTuple

_FUNCTION = (ast.FunctionDef, ast.AsyncFunctionDef)
_ALIAS = re.compile(r"_*[A-Z]\w*[a-z]\w*")
_LOOSE = ("dict", "Mapping", "MutableMapping")
_COMPILERS = ("njit", "jit", "vectorize", "guvectorize", "stencil", "cfunc")


class Function(NamedTuple):
    """A function or method: its module, its name and its syntax; ``method`` if the first argument is the object."""

    module: str
    name: str
    node: ast.AST
    method: bool

    @property
    def label(self):
        return f"{self.module}.{self.name}"

    @property
    def lines(self):
        """Lines from its head to its end, without decorators and docstring."""
        said = self.node.body[0] if ast.get_docstring(self.node, clean=False) is not None else None
        return self.node.end_lineno - self.node.lineno + 1 - (said.end_lineno - said.lineno + 1 if said else 0)

    @property
    def positional(self):
        return len(self.node.args.posonlyargs) + len(self.node.args.args)

    @property
    def blanks(self):
        """Names of arguments without a type, and ``return``."""
        given = self.node.args
        named = [*given.posonlyargs, *given.args][1 if self.method else 0 :] + given.kwonlyargs
        named += [each for each in (given.vararg, given.kwarg) if each is not None]
        untold = [each.arg for each in named if each.annotation is None]
        return untold + (["return"] if self.node.returns is None else [])

    @property
    def places(self):
        """How many types can be told: of all arguments, and of what is returned."""
        given = self.node.args
        count = len(given.posonlyargs) + len(given.args) + len(given.kwonlyargs) - self.method
        return count + (given.vararg is not None) + (given.kwarg is not None) + 1


def list_functions(tree):
    """Return every function of the tree, those inside functions and classes too."""
    return [found for file in tree.modules.values() for found in _walk(file.name, file.tree, "", False)]


def _walk(module, node, prefix, in_class):
    for child in ast.iter_child_nodes(node):
        if isinstance(child, _FUNCTION):
            static = any(isinstance(each, ast.Name) and each.id == "staticmethod" for each in child.decorator_list)
            yield Function(module, f"{prefix}{child.name}", child, in_class and not static)
            yield from _walk(module, child, f"{prefix}{child.name}.", False)
        elif isinstance(child, ast.ClassDef):
            yield from _walk(module, child, f"{prefix}{child.name}.", True)
        else:
            yield from _walk(module, child, prefix, in_class)


def find_doubled_names(tree):
    """Return the names of classes and type aliases that are given more than once, with where."""
    places = defaultdict(list)
    for file in tree.modules.values():
        for node in ast.walk(file.tree):
            if isinstance(node, ast.ClassDef):
                places[node.name].append(file.name)
        for name in filter(None, map(_name_alias, file.tree.body)):
            places[name].append(file.name)
    return {name: where for name, where in sorted(places.items()) if len(where) > 1}


def _name_alias(node):
    """Return the name of a type alias, ``Found = tuple[Model, State]``, or None for any other statement."""
    if isinstance(node, ast.Assign) and len(node.targets) == 1 and isinstance(node.targets[0], ast.Name):
        name, value = node.targets[0].id, node.value
    elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
        name, value = node.target.id, node.value
    else:
        return node.name.id if isinstance(node, getattr(ast, "TypeAlias", ())) else None
    is_type = isinstance(value, ast.Subscript | ast.BinOp | ast.Name | ast.Attribute)
    return name if is_type and _ALIAS.fullmatch(name) else None


def list_kernels(tree):
    """Return the functions that numba compiles, by its decorators or by a decorator of our own that calls one."""
    functions = list_functions(tree)
    own = {f.node.name for f in functions if any(_compiles(node) for part in f.node.body for node in ast.walk(part))}
    return [f for f in functions if any(_compiles(mark) or _names(mark) & own for mark in f.node.decorator_list)]


def _names(node):
    """Return the names in an expression."""
    return {each.id for each in ast.walk(node) if isinstance(each, ast.Name)}


def _compiles(node):
    """Whether an expression names a compiler of numba."""
    attributes = {each.attr for each in ast.walk(node) if isinstance(each, ast.Attribute)}
    return bool((attributes | _names(node)) & set(_COMPILERS))


def count_loose_dicts(tree):
    """Return how often each module says ``dict[str, Any]`` or the like, also in quotes."""
    found = Counter()
    for file in tree.files:
        quoted = [_parse(n.value) for n in ast.walk(file.tree) if isinstance(n, ast.Constant) and "[" in str(n.value)]
        found[file.name] += sum(map(_is_loose, (n for t in (file.tree, *quoted) if t for n in ast.walk(t))))
    return +found


def _parse(text):
    """Return a type in quotes as syntax; None for any other text."""
    try:
        return ast.parse(text.strip(), mode="eval") if isinstance(text, str) and "\n" not in text else None
    except SyntaxError:
        return None


def _is_loose(node):
    if not isinstance(node, ast.Subscript) or not isinstance(node.slice, ast.Tuple):
        return False
    key, value = (ast.unparse(each) for each in node.slice.elts[:2])
    return ast.unparse(node.value).rpartition(".")[2] in _LOOSE and (key, value.rpartition(".")[2]) == ("str", "Any")
