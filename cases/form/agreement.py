"""Keys of a design file that need or exclude each other."""

from collections.abc import Iterable, Iterator
from typing import Any, NamedTuple

from ...hammock.hammock import Attachment
from ...materials import nearest_line, show_value
from ..design_issue import DesignIssue, write_path
from .bar import find_part_disagreements, find_size_disagreements
from .corner import find_wrong_corner
from .end_settings import find_end_disagreements, find_written_ends
from .ends import find_wrong_ends
from .extension import find_extension_disagreements
from .fold_agreement import list_fold_disagreements
from .schema import DesignForm


class Alternative(NamedTuple):
    """Either ``one`` key alone or all of ``others``."""

    table: str
    one: str
    others: tuple[str, ...]
    example: str


ALTERNATIVES = (
    Alternative("body", "arc", ("left_arc", "right_arc"), '[body.arc] with depth = "17 cm"'),
    Alternative("suspension", "hang_angle", ("tree_distance",), 'hang_angle = "30 deg"'),
    Alternative("head_bar", "section", ("part",), 'section = "7075-T6 16 x 1 mm"'),
    Alternative("foot_bar", "section", ("part",), 'section = "7075-T6 16 x 1 mm"'),
    Alternative("person", "who", ("stature", "mass", "sex"), 'who = "woman, 50th percentile"'),
)


def find_disagreements(raw: dict[str, Any], text: str, file: str) -> list[DesignIssue]:
    """Find keys that conflict, and pairs of which nothing is given.

    Parameters
    ----------
    raw : dict
        The file as read from TOML.
    text : str
        The file's text, for line numbers.
    file : str
        The file's name, for messages.

    Returns
    -------
    list of DesignIssue
        One each, empty if all agree.

    Examples
    --------
    >>> raw = {"body": {"arc": {}}, "person": {}}
    >>> [fault.message for fault in find_disagreements(raw, "", "a.toml")]
    ['who or stature, mass and sex is missing. Example: who = "woman, 50th percentile"']
    """
    faults = []
    for rule in ALTERNATIVES:
        for place, table in _list_tables(raw.get(rule.table), rule.table):
            if found := _check_alternative(rule, table):
                key, message = found
                path = (*place, key) if key else place
                faults.append(DesignIssue(file, message, nearest_line(text, path), write_path(path)))
    channel = raw.get("channel")
    if isinstance(channel, dict) and (sentence := _check_lock(channel)):
        place = ("channel", "lock_length")
        shown = show_value(channel["lock_length"]) if "lock_length" in channel else ""
        faults.append(DesignIssue(file, sentence, nearest_line(text, place), ".".join(place), shown))
    wrongs = (
        *(list_fold_disagreements(channel) if isinstance(channel, dict) else ()),
        *find_part_disagreements(raw),
        *find_wrong_ends(raw),
        *find_wrong_corner(raw),
        *find_end_disagreements(raw),
        *find_extension_disagreements(raw),
    )
    return faults + [
        DesignIssue(file, sentence, nearest_line(text, keys), write_path(keys)) for keys, sentence in wrongs
    ]


def find_size_issues(form: DesignForm, text: str, file: str) -> list[DesignIssue]:
    """Find sizes of bars that do not fit the section of the library they are for.

    Parameters
    ----------
    form : DesignForm
        A valid form.
    text, file : str
        See :func:`find_disagreements`.

    Returns
    -------
    list of DesignIssue
        One each, empty if all fit.
    """
    faults = []
    for name in ("head_bar", "foot_bar"):
        for inner, sentence in find_size_disagreements(getattr(form, name)):
            path = (name, *inner)
            faults.append(DesignIssue(file, sentence, nearest_line(text, path), write_path(path)))
    return faults


def find_written(keys: Iterable[str], raw: dict[str, Any]) -> list[str]:
    """Return under which keys a file gives the fields of a design.

    Parameters
    ----------
    keys : iterable of str
        Dotted fields of a design, such as ``suspension.head_leg_length``.
    raw : dict
        The file as read from TOML.

    Returns
    -------
    list of str
        Each key once, ``suspension.leg_length`` where that stands for both ends; fields left out are not listed.

    Examples
    --------
    >>> find_written(["suspension.head_leg_length", "head_bar.set_in"], {"suspension": {"leg_length": "1 m"}})
    ['suspension.leg_length']
    """
    found: dict[str, None] = {}
    for key in keys:
        if (of_end := find_written_ends(key, raw)) is not None:
            found.update(dict.fromkeys(of_end))
            continue
        table, rest, given = _find_table(key, raw)
        name, dot, inner = rest.partition(".")
        options = [name, *(rule.one for rule in ALTERNATIVES if table.startswith(rule.table) and name in rule.others)]
        found.update((f"{table}.{option}{dot}{inner}", None) for option in options if option in given)
    return list(found)


def _find_table(key: str, raw: dict[str, Any]) -> tuple[str, str, dict[str, Any]]:
    """Return the table a field is in, the rest of its key, and what the file gives there; one of an array by number."""
    table, _, rest = key.partition(".")
    given = raw.get(table, {})
    number, _, inner = rest.partition(".")
    if isinstance(given, list) and number.isdecimal() and int(number) < len(given):
        return f"{table}.{number}", inner, given[int(number)]
    return table, rest, given


def _list_tables(found: Any, name: str) -> Iterator[tuple[tuple[str | int, ...], dict[str, Any]]]:  # noqa: ANN401
    """Yield a table with its path, or each of an array of tables."""
    if isinstance(found, dict):
        yield (name,), found
    elif isinstance(found, list):
        yield from (((name, number), table) for number, table in enumerate(found) if isinstance(table, dict))


def _check_alternative(rule: Alternative, table: dict[str, Any]) -> tuple[str, str] | None:
    """Return the key in question and a message, or None if the alternative is respected."""
    given = [key for key in rule.others if key in table]
    *first, last = rule.others
    names = f"{', '.join(first)} and {last}" if first else last
    if rule.one in table:
        return (given[-1], f"conflicts with {rule.one}. Keep one of them.") if given else None
    if not given:
        return "", f"{rule.one} or {names} is missing. Example: {rule.example}"
    lacking = [key for key in rule.others if key not in table]
    return (lacking[0], f"is missing. Give {names}; or in their place {rule.example}.") if lacking else None


def _check_lock(channel: dict[str, Any]) -> str | None:
    """Return the conflict between ``attachment`` and ``lock_length``, or None."""
    locked = channel.get("attachment") == Attachment.LOCKED
    if locked and "lock_length" not in channel:
        return 'is missing: anchored length at each corner of a locked channel. Example: lock_length = "40 cm"'
    if not locked and channel.get("attachment") in list(Attachment) and "lock_length" in channel:
        held = channel["attachment"]
        return f'has no effect with attachment = "{held}". Remove it, or write attachment = "locked".'
    return None
