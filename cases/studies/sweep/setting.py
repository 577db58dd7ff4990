"""Keys of a design set to other values."""

from collections.abc import Iterable, Iterator
from copy import deepcopy
from typing import Any

from ....materials.toml_lines import KeyPath
from ...design_issue import suggest_name
from ...form import ALTERNATIVES, find_field, make_room

Setting = tuple[KeyPath, Any]
FIXED = {
    "design": "it only names the design",
    "materials": "files of materials are the same for all designs. Write them in the design itself",
    "mesh": "write mesh_size in [sweep]",
    "report": "it changes no result",
}


def read_key(dotted: str) -> KeyPath:
    """Return a dotted key as the keys from the top; entries of lists are counted from 1 in the text.

    Raises
    ------
    ValueError
        One sentence, if a design has no such key or it cannot vary.

    Examples
    --------
    >>> read_key("head_bar.part.2.length")
    ('head_bar', 'part', 1, 'length')
    """
    words = dotted.split(".")
    if words[0] in FIXED:
        raise ValueError(f"the table {words[0]} cannot vary: {FIXED[words[0]]}.")
    path = tuple(int(word) - 1 if word.isdecimal() and int(word) > 0 else word for word in words)
    for depth in range(1, len(path) + 1):
        table, field = find_field(path[:depth])
        if isinstance(path[depth - 1], int):
            continue
        if field is None:
            known = [name for name in table.model_fields if depth > 1 or name not in FIXED] if table else []
            listed = f"{suggest_name(str(path[depth - 1]), known)}Allowed here: {', '.join(known)}." if known else ""
            raise ValueError(f"a design has no key {dotted}. {listed or 'It has no keys below it.'}")
    return path


def apply_settings(raw: dict[str, Any], settings: Iterable[Setting]) -> dict[str, Any]:
    """Return the tables of a design with some keys set; what a key excludes is taken out.

    Parameters
    ----------
    raw : dict
        Tables as read from TOML; they are left alone.
    settings : iterable of (path, value)
        Keys from the top, and what they are set to.

    Raises
    ------
    ValueError
        One sentence, for a missing list entry or a key below something that is not a table.

    Examples
    --------
    >>> raw = {"person": {"stature": "1.7 m", "mass": "60 kg", "sex": "female", "head_from_bar": "10 cm"}}
    >>> apply_settings(raw, [(("person", "who"), "man, 95th percentile")])["person"]
    {'head_from_bar': '10 cm', 'who': 'man, 95th percentile'}
    """
    changed = deepcopy(raw)
    for path, value in settings:
        _set(changed, path, value)
    return changed


def _set(tables: dict[str, Any], path: KeyPath, value: Any) -> None:  # noqa: ANN401
    """Set one key, making the tables above it that are missing."""
    place: Any = tables
    for depth, step in enumerate(path[:-1]):
        if isinstance(step, int):
            if not isinstance(place, list) or step >= len(place):
                raise ValueError(f"the design has no entry {step + 1} of {'.'.join(map(str, path[:depth]))}.")
            place = place[step]
        elif isinstance(place, dict):
            place = place.setdefault(step, [] if isinstance(path[depth + 1], int) else {})
    _check_table(place, path)
    if len(path) == 2:
        make_room(tables, ".".join(map(str, path)))
    for rule in ALTERNATIVES:
        if (rule.table,) == tuple(step for step in path[:-1] if not isinstance(step, int)):
            excluded = rule.others if path[-1] == rule.one else (rule.one,) if path[-1] in rule.others else ()
            for key in excluded:
                place.pop(key, None)
    place[path[-1]] = deepcopy(value)  # a key below it may be set next, and the value belongs to other designs too


def _check_table(place: Any, path: KeyPath) -> None:  # noqa: ANN401
    """Raise if a key would be set in something that is no table."""
    name = ".".join(map(str, path[:-1]))
    if isinstance(place, list):
        raise ValueError(f"the design has several entries of {name}. Write {name}.1.{path[-1]}, or another number.")
    if not isinstance(place, dict):
        raise ValueError(f"{name} is not a table in the design.")


def find_lost(raw: dict[str, Any], settings: Iterable[Setting]) -> Iterator[KeyPath]:
    """Yield the keys of which nothing is left once all are set: another setting replaces or excludes them.

    Raises
    ------
    ValueError
        As :func:`apply_settings`.

    Examples
    --------
    >>> list(find_lost({}, [(("person", "mass"), "60 kg"), (("person", "who"), "man, 95th percentile")]))
    [('person', 'mass')]
    """
    listed = list(settings)
    changed = apply_settings(raw, listed)
    for place, (path, value) in enumerate(listed):
        refined = any(later[: len(path)] == path for later, _ in listed[place + 1 :] if len(later) > len(path))
        repeated = any(later == path for later, _ in listed[place + 1 :])
        if repeated or not (refined or look_up(changed, path) == value):
            yield path


def look_up(tables: Any, path: KeyPath) -> Any:  # noqa: ANN401
    """Return what stands at a key, None if nothing does."""
    for step in path:
        try:
            tables = tables[step]
        except (KeyError, IndexError, TypeError):
            return None
    return tables
