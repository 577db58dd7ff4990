"""``[head_extension]`` and ``[foot_extension]``: the cloth beyond a bar that is set in."""

from collections.abc import Iterator
from typing import Annotated, Any

from pydantic import Field

from ...hammock.extension import CapShape, Extension, ExtensionMake
from .fields import ChoiceField, QuantityField
from .toml_table import TomlTable, UpToMetre

_ROOM = 0.06  # m; engineering judgement, no source: plates and eyes take 4 to 10 cm
_DARTS = 3  # engineering judgement, no source
_OF_OPENING = ("corner_room", "close")


class ExtensionTable(TomlTable):
    """``[head_extension]`` or ``[foot_extension]``."""

    made: Annotated[ExtensionMake, ChoiceField(ExtensionMake)] = ExtensionMake.SEWN_ON
    opening: UpToMetre = 0.0
    corner_room: Annotated[float, QuantityField("length", low=0.01, high=0.5)] = _ROOM
    close: bool = False
    cap: Annotated[CapShape, ChoiceField(CapShape)] = CapShape.NONE
    darts: int = Field(default=_DARTS, ge=1, le=9)


def build_extension(table: ExtensionTable | None) -> Extension:
    """Return how the cloth beyond a bar is made; without a table it is sewn on and open at the end.

    Parameters
    ----------
    table : ExtensionTable or None
        In which no keys disagree.
    """
    if table is None:
        return Extension()
    darts = table.darts if table.made is ExtensionMake.RUNS_ON else 0
    room = table.corner_room if table.opening > 0 else 0.0
    return Extension(table.made, table.opening, room, table.close, table.cap, darts)


def find_extension_disagreements(raw: dict[str, Any]) -> Iterator[tuple[tuple[str | int, ...], str]]:
    """Yield keys that have no effect without another.

    Parameters
    ----------
    raw : dict
        The file as read from TOML.

    Yields
    ------
    tuple
        Keys from the top, and a message.
    """
    for end in ("head", "foot"):
        name, table, bar = f"{end}_extension", raw.get(f"{end}_extension"), raw.get(f"{end}_bar")
        if not isinstance(table, dict) or not isinstance(bar, dict):
            continue
        if "set_in" not in bar:
            yield (name,), f'has no effect: the {end} bar is not set in. Add set_in = "20 cm" to [{end}_bar].'
        if "opening" not in table:
            for key in _OF_OPENING:
                if key in table:
                    yield (name, key), 'has no effect without an opening. Add opening = "20 cm", or remove it.'
        if "darts" in table and table.get("made", ExtensionMake.SEWN_ON) == ExtensionMake.SEWN_ON:
            yield (
                (name, "darts"),
                'has no effect on an extension that is sewn on. Remove it, or write made = "runs on".',
            )
