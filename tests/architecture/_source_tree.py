"""The source tree as text: its modules and who imports whom, without importing any of them."""

import ast
import tomllib
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path

NAMESPACE = "tautlay"


@dataclass(frozen=True)
class Module:
    """A source file, or the stub of a package beside it."""

    name: str
    path: Path
    text: str
    tree: ast.Module = field(repr=False)

    @property
    def is_package(self):
        return self.path.stem == "__init__"

    @property
    def room(self):
        """The first two names below the namespace, as ``cases.form``."""
        parts = self.name.split(".")[1:]
        return ".".join(parts if self.is_package else parts[:-1])

    @property
    def lines(self):
        return self.text.count("\n")

    def resolve(self, node):
        """Yield what an import names, written from the top: a module, or something in one."""
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            here = self.name.split(".") if self.is_package else self.name.split(".")[:-1]
            start = here[: len(here) - node.level + 1] if node.level else []
            base = ".".join([*start, *([node.module] if node.module else [])])
            yield from (f"{base}.{alias.name}" for alias in node.names)


@dataclass(frozen=True)
class SourceTree:
    """All rooms below a folder."""

    root: Path

    @cached_property
    def settings(self):
        return tomllib.loads((self.root / "pyproject.toml").read_text("utf-8"))

    @cached_property
    def rooms(self):
        """Names of the top folders that are packages of the namespace."""
        return [name.split(".")[1] for name in self.settings["tool"]["importlinter"]["root_packages"]]

    @cached_property
    def files(self):
        """Every source file and stub of every room."""
        return [_read(path, self.root) for room in self.rooms for path in sorted(_list_files(self.root / room))]

    @cached_property
    def modules(self):
        """Source files by name; a stub is no module of its own."""
        return {file.name: file for file in self.files if file.path.suffix == ".py"}

    @cached_property
    def arrows(self):
        """Who imports whom: inside functions, for type checkers and in stubs as well."""
        found = {name: set() for name in self.modules}
        for file in self.files:
            for node in ast.walk(file.tree):
                for name in file.resolve(node):
                    target = self.find_module(name)
                    if target is not None and target != file.name:
                        found[file.name].add(target)
        return found

    def find_module(self, name):
        """Return the module that ``name`` is, or in which it stands; None outside the tree."""
        for known in (name, name.rpartition(".")[0]):
            if known in self.modules:
                return known
        return None


def _list_files(folder: Path) -> Iterator[Path]:
    """Yield sources and stubs; what npm installed lies in a room but is none of it."""
    yield from (path for path in folder.rglob("*.py*") if path.suffix in (".py", ".pyi") and _is_ours(path))


def _is_ours(path):
    return "node_modules" not in path.parts


def _read(path, root):
    parts = path.relative_to(root).with_suffix("").parts
    name = ".".join([NAMESPACE, *(parts[:-1] if parts[-1] == "__init__" else parts)])
    text = path.read_text("utf-8")
    return Module(name, path, text, ast.parse(text, str(path)))
