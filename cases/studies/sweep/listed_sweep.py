"""A sweep of designs that are listed one by one, written so that each can be restored and exported."""

from collections.abc import Iterable, Sequence
from dataclasses import replace

import tomlkit

from ...design_issue import write_path
from .sweep import Sweep
from .sweep_form import Combine
from .sweep_variable import Option, SweepVariable, make_option
from .variant import Variant


def list_designs(sweep: Sweep, chosen: Iterable[tuple[tuple[int, ...], tuple[Option, ...]]]) -> Sweep:
    """Return a sweep of designs that are listed: in its text the values of each choice stand side by side.

    Parameters
    ----------
    sweep : Sweep
        Whose choices they are.
    chosen : iterable of (picks, options)
        Of each design the places of its options, by which one finds another to start from, and the options.

    Returns
    -------
    Sweep
        Designs numbered from 1; the text reads back as the same designs.
    """
    variants = tuple(Variant(number, *each) for number, each in enumerate(chosen, 1))
    return replace(sweep, variants=variants, text=_write_text(sweep, variants))


def _write_text(sweep: Sweep, variants: Sequence[Variant]) -> str:
    """Return the sweep file of listed designs."""
    head = {
        "name": sweep.name,
        "note": sweep.note,
        "design": _name_design(sweep),
        "combine": str(Combine.PAIRED),
        "mesh_size": f"{sweep.mesh_size!r} m",
        "hot_spots": sweep.hot_spots,
    }
    told: dict[str, object] = {"sweep": head}
    if sweep.fixed:
        told["set"] = [{"key": write_path(path), "value": value} for path, value in sweep.fixed]
    told["vary"] = [
        _write_choice(choice, [variant.options[place] for variant in variants])
        for place, choice in enumerate(sweep.choices)
    ]
    return tomlkit.dumps(told)


def _write_choice(choice: SweepVariable, options: Sequence[Option]) -> dict[str, object]:
    """Return the table of a choice with one value for each design."""
    keys = [write_path(path) for path in choice.paths]
    values = [[value for _, value in option.settings] if len(keys) > 1 else option.settings[0][1] for option in options]
    table: dict[str, object] = {"name": choice.name, **({"keys": keys} if len(keys) > 1 else {"key": keys[0]})}
    plain = [make_option(choice.paths, value).label for value in values]
    labels = [option.label for option in options]
    return table | {"values": values} | ({} if labels == plain else {"labels": labels})


def _name_design(sweep: Sweep) -> str:
    """Return the design file as seen from the sweep file."""
    try:
        return sweep.base.path.relative_to(sweep.path.parent).as_posix()
    except ValueError:
        return str(sweep.base.path.absolute())
