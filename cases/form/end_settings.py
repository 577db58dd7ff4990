"""Conflicts among the settings of head and foot: given twice, for one end alone, or with parts missing."""

from collections.abc import Iterator, Mapping
from typing import Any

from ...making import Hitch
from ..design_issue import find_near
from .end_fields import (
    END_FIELDS,
    ENDS,
    FIELDS_OF_END,
    GIRTH,
    RIGGING,
    SUSPENSION_FIELDS,
    EndField,
    find_field_of,
    list_given,
    look_up,
)
from .ends import FieldIssue
from .schema import DesignForm

_STRAP = {"strap": '"polyester 1 in, 25 g/m"', "strap_length": '"1.8 m"', "hitch": '"girth hitch"'}
_SLINGS = {
    "sling": '"12-strand UHMWPE 2.5 mm"',
    "sling_reach": '"25 cm"',
    "sling_shortest": '"20 cm"',
    "sling_longest": '"60 cm"',
}
_IDLE = ("toggle_mass",)
_NOUNS = {
    "strap": "name of the strap in the library",
    "strap_length": "length of the strap from loop to loop",
    "hitch": "way the strap goes round the tree",
    "sling": "name of the cord on each side of the strap",
    "sling_reach": "distance from the bark to the joint of both slings",
    "sling_shortest": "shortest length to which a sling can be set",
    "sling_longest": "longest length to which a sling can be set",
}


def find_end_disagreements(raw: dict[str, Any]) -> Iterator[FieldIssue]:
    """Yield settings of head and foot that conflict, or of which a part is missing.

    Parameters
    ----------
    raw : dict
        The file as read from TOML.

    Examples
    --------
    >>> raw = {"trees": {"girth": "1 m"}, "head_tree": {"diameter": "60 cm"}}
    >>> [(".".join(issue.path), issue.sentence) for issue in find_end_disagreements(raw)]
    [('head_tree.diameter', 'conflicts with trees.girth. Keep one of them.')]
    """
    for setting in END_FIELDS:
        yield from _find_doubled(raw, setting)
    if isinstance(raw.get("suspension"), dict):
        for setting in SUSPENSION_FIELDS:
            yield from _find_missing(raw, setting, ENDS)
    yield from _find_missing(raw, GIRTH, tuple(end for end in ENDS if _needs_girth(raw, end)))
    seen = set()
    for issue in (issue for end in ENDS for issue in _check_strap(raw, end)):
        if issue.path not in seen:
            seen.add(issue.path)
            yield issue


def _find_doubled(raw: Mapping[str, Any], setting: EndField) -> Iterator[FieldIssue]:
    """Yield a setting that is given twice for one end."""
    shared = list_given(raw, tuple(setting.shared))
    if len(shared) > 1:
        yield _refuse_second(shared[-1], shared[0])
    owns = [list_given(raw, setting.list_own(end)) for end in ENDS]
    if shared and (extra := [key for own in owns for key in own]):
        yield _refuse_second(extra[-1], shared[0])
        return
    for own in owns:
        if len(own) > 1:
            yield _refuse_second(own[-1], own[0])


def _refuse_second(key: str, first: str) -> FieldIssue:
    """Return that a key says again what another one says, by its short name in the same table."""
    path = tuple(key.split("."))
    table, name = first.split(".")
    return FieldIssue(path, f"conflicts with {name if table == path[0] else first}. Keep one of them.")


def _find_missing(raw: Mapping[str, Any], setting: EndField, ends: tuple[str, ...]) -> Iterator[FieldIssue]:
    """Yield a setting that is not given for one of some ends."""
    lacking = [end for end in ends if not list_given(raw, setting.list_homes(end))]
    if not lacking or any(_is_misspelt(raw, key) for end in lacking for key in setting.list_homes(end)):
        return
    shared = next(iter(setting.shared))
    table, name = shared.split(".")
    pair = [next(key for key in setting.list_own(end) if key.startswith(f"{table}.")) for end in ENDS]
    names = " and ".join(key.split(".")[1] for key in pair)
    if len(lacking) == len(ENDS):
        yield FieldIssue((table,), f"{name} or {names} is missing. Example: {setting.example}")
        return
    given = [key for end in ENDS if end not in lacking for key in list_given(raw, setting.list_own(end))]
    if not given or given[0].startswith(f"{table}."):
        key = pair[ENDS.index(lacking[0])]
        yield FieldIssue(tuple(key.split(".")), f"is missing. Give both {names}, or {name} for both.")
    else:
        name = given[0].split(".")[1]
        yield FieldIssue((f"{lacking[0]}_tree", name), f"is missing: the same for the {lacking[0]}. Or give {shared}.")


def _is_misspelt(raw: Mapping[str, Any], key: str) -> bool:
    """Return whether an unknown table or key probably means a known one; it is reported by itself."""
    table, name = key.split(".")
    tables = list(DesignForm.model_fields)
    if any(find_near(str(other), tables) == table for other in raw if other not in tables):
        return True
    inside = raw.get(table)
    known = DesignForm.model_fields[table].annotation
    names = list(getattr(known, "model_fields", {}) or getattr(known.__args__[0], "model_fields", {})) if known else []
    unknown = [str(other) for other in inside if other not in names] if isinstance(inside, dict) else []
    return any(find_near(other, names) == name for other in unknown)


def _needs_girth(raw: Mapping[str, Any], end: str) -> bool:
    """Return whether a file tells anything of a tree but the height of its strap."""
    own = raw.get(f"{end}_tree")
    return isinstance(raw.get("trees"), dict) or (isinstance(own, dict) and any(key != "height" for key in own))


def _check_strap(raw: Mapping[str, Any], end: str) -> Iterator[FieldIssue]:
    """Yield keys of the strap of one end that are missing or have no effect."""
    hitch, given = _read(raw, end, "hitch"), [key for key in _STRAP if _read(raw, end, key) is not None]
    slung = [key for key in (*_SLINGS, *_IDLE) if _read(raw, end, key) is not None]
    yield from _check_ends(raw, end, strapped="strap" in given, slung=hitch == Hitch.SLINGS)
    wanted = dict(_STRAP) if given or slung else {}
    if hitch == Hitch.SLINGS:
        wanted |= _SLINGS
    elif slung and (hitch is None or hitch in list(Hitch)):
        yield FieldIssue(_place(raw, end, slung[0]), f'has no effect without hitch = "{Hitch.SLINGS}". Remove it.')
    home = "trees" if any(look_up(raw, f"trees.{key}") is not None for key in (*_STRAP, *_SLINGS)) else f"{end}_tree"
    for key, example in wanted.items():
        if _read(raw, end, key) is None and not any(_is_misspelt(raw, f"{table}.{key}") for table in _list_tables(end)):
            yield FieldIssue((home, key), f"is missing: {_NOUNS[key]}. Example: {key} = {example}")


def _check_ends(raw: Mapping[str, Any], end: str, *, strapped: bool, slung: bool) -> Iterator[FieldIssue]:
    """Yield tables of ends that a strap or a sling would have, where there is none at that end of the hammock."""
    for name in RIGGING:
        if (name == "strap" and not strapped) or (name.startswith("sling") and not slung):
            key = f"{end}_ends.{name}"
            if look_up(raw, key) is None and _is_anywhere(raw, name):
                continue
            key = key if look_up(raw, key) is not None else f"ends.{name}"
            if look_up(raw, key) is not None:
                what = "a separate strap. Add strap" if name == "strap" else 'slings. Add hitch = "slings"'
                yield FieldIssue(
                    tuple(key.split(".")), f"has no effect without {what} to [trees], or remove this table."
                )


def _is_anywhere(raw: Mapping[str, Any], name: str) -> bool:
    """Return whether either end has the strap or the slings whose ends a table tells."""
    if name == "strap":
        return any(_read(raw, end, "strap") is not None for end in ENDS)
    return any(_read(raw, end, "hitch") == Hitch.SLINGS for end in ENDS)


def _list_tables(end: str) -> tuple[str, str]:
    """Return the tables that may tell of the tree at one end."""
    return "trees", f"{end}_tree"


def _place(raw: Mapping[str, Any], end: str, name: str) -> tuple[str, str]:
    """Return where a file gives a setting of a tree."""
    table = next(table for table in _list_tables(end) if look_up(raw, f"{table}.{name}") is not None)
    return table, name


def _read(raw: Mapping[str, Any], end: str, name: str) -> Any:  # noqa: ANN401
    """Return what a file gives for the tree at one end, for both or for one."""
    return next((value for table in _list_tables(end) if (value := look_up(raw, f"{table}.{name}")) is not None), None)


def find_written_ends(key: str, raw: Mapping[str, Any]) -> list[str] | None:
    """Return the keys under which a file gives a setting of one end; None for any other.

    Parameters
    ----------
    key : str
        Field of a hammock, such as ``suspension.head.tree.girth``, or of its cord ends: ``foot_ends.strap.bury``.
    raw : mapping
        The file as read from TOML.

    Examples
    --------
    >>> find_written_ends("suspension.head.tree.girth", {"trees": {"diameter": "40 cm"}})
    ['trees.diameter']
    """
    words = key.split(".")
    if words[0] == "suspension" and words[1] in ENDS:
        return list_given(raw, FIELDS_OF_END[".".join(words[2:])].list_homes(words[1]))
    found = find_field_of(".".join(words[:2]))
    if found is None or found[1] is None:
        return None
    return [".".join((home, *words[2:])) for home in list_given(raw, found[0].list_homes(found[1]))]
