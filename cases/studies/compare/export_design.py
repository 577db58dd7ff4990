"""One design of a sweep as a separate design file, with the maker's comments."""

import os
import tomllib
from collections.abc import Mapping
from pathlib import Path
from textwrap import fill
from typing import TYPE_CHECKING, Any, NamedTuple

from ....materials import escape_text
from ....materials.short_repr import write_repr
from ...storage.atomic import write_text
from ...storage.output_file import DESIGN, check_output
from ..sweep.setting import apply_settings
from ..sweep.store import SweepRecord, open_store
from ..sweep.sweep import Sweep
from ..sweep.sweep_row import SweepRow
from ..sweep.variant import Variant
from .reload_sweep import restore_sweep
from .value_columns import RankingError, name_design

if TYPE_CHECKING:
    from tomlkit import TOMLDocument

_WIDTH = 118  # of a comment


class Extract(NamedTuple):
    """A design of a sweep as text.

    Parameters
    ----------
    text : str
        Design file.
    moved : tuple of str
        Files of materials as they are named now, where their path changed.
    """

    text: str
    moved: tuple[str, ...]

    def __repr__(self) -> str:
        return write_repr(self, f"{len(self.text.splitlines())} lines", *self.moved)


def write_extract(heading: SweepRecord, row: SweepRow, path: Path, *, force: bool = False) -> Extract:
    """Write one design of a sweep as a separate design file.

    Parameters
    ----------
    heading : SweepRecord
        Of the sweep.
    row : SweepRow
        Of the design.
    path : Path
        File to write.
    force : bool
        Whether one that is there already is replaced.

    Returns
    -------
    Extract
        What was written.

    Raises
    ------
    RankingError
        As :func:`extract_design`.
    OSError
        If the file is there already, or cannot be written.
    """
    check_output(path, DESIGN, force=force)
    extract = extract_design(heading, row, path.parent)
    write_text(path, extract.text)
    return extract


def extract_stored(file: Path, name: str, choices: Mapping[str, str], path: Path, *, force: bool = False) -> Extract:
    """Write one design of a sweep that stands in a file of results as a separate design file.

    Parameters
    ----------
    file : Path
        Of results.
    name : str
        Of the sweep.
    choices : mapping of str to str
        Of the design.
    path, force
        As for :func:`write_extract`.

    Raises
    ------
    RankingError, OSError, StoreError
        As :func:`write_extract`; if the file of results cannot be read, or has no such design.
    """
    with open_store(file) as store:
        heading = next((each for each in store.list_sweeps() if each.name == name), None)
        rows = [] if heading is None else store.list_rows(name)
    row = next((each for each in rows if each.choices == choices), None)
    if heading is None or row is None:
        raise RankingError(escape_text(f"{file}: {name} no longer has this design. Run it again."))
    return write_extract(heading, row, path, force=force)


def extract_design(heading: SweepRecord, row: SweepRow, folder: Path) -> Extract:
    """Return one design of a sweep as the text of its design with the keys set that were chosen, comments kept.

    The tables are those that were solved, but for files of materials: they are named as seen from ``folder``.
    What stands in a table that was chosen as a whole goes with its comments.

    Parameters
    ----------
    heading : SweepRecord
        Of the sweep.
    row : SweepRow
        Of the design.
    folder : Path
        Where the file is to lie.

    Raises
    ------
    RankingError
        If the design cannot be restored; the message says why.
    """
    import tomlkit

    sweep = restore_sweep(heading)
    variant = _find_variant(sweep, row)
    try:
        tables = sweep.set_tables(variant)
        document = apply_settings(tomlkit.parse(heading.design), sweep.list_settings(variant))
    except ValueError as error:
        raise RankingError(f"design {row.number} cannot be made: {error}") from None
    names = tables.get("materials", {}).get("files", [])
    seen = [_name_from(folder, sweep.base.path.parent, name) for name in names]
    if seen != names:
        document["materials"]["files"] = seen
        tables["materials"]["files"] = seen
    text = _write_header(heading, row, sweep) + _dump(document)
    if tomllib.loads(text) != tables:
        raise RankingError(f"design {row.number} cannot be written with its comments. Set its choices by hand.")
    return Extract(text, tuple(seen) if seen != names else ())


def _dump(document: "TOMLDocument | dict[str, Any]") -> str:
    """Return the text of a document."""
    import tomlkit

    return tomlkit.dumps(document)


def _find_variant(sweep: Sweep, row: SweepRow) -> Variant:
    """Return the design of a row, if the choices still mean what they meant when it was solved."""
    for variant in sweep.variants:
        if variant.number == row.number and _escape_labels(sweep.list_labels(variant)) == dict(row.choices):
            return variant
    raise RankingError(
        f"design {row.number}, {escape_text(name_design(row))}, cannot be restored: the library has changed since. "
        "Run the sweep again."
    )


def _escape_labels(labels: dict[str, str]) -> dict[str, str]:
    """Return labels as they are read from a file of results."""
    return {escape_text(name): escape_text(label) for name, label in labels.items()}


def _name_from(folder: Path, home: Path, name: str) -> str:
    """Return a file of materials that is named from ``home`` as seen from ``folder``."""
    if Path(name).is_absolute() or folder.resolve() == home.resolve():
        return name
    whole = (home / name).resolve()
    try:
        return Path(os.path.relpath(whole, folder.resolve())).as_posix()
    except ValueError:  # on another drive
        return whole.as_posix()


def _write_header(heading: SweepRecord, row: SweepRow, sweep: Sweep) -> str:
    """Return comments on where the design comes from."""
    chosen = "; ".join(f"{name}: {label}" for name, label in row.choices.items())
    words = (
        f"Design {row.number} of the sweep {heading.name} of {sweep.base.path.name}: {chosen}. Comments below are "
        "those of the design that was varied and may mention other values."
    )
    return (
        fill(escape_text(words), _WIDTH, initial_indent="# ", subsequent_indent="# ", break_on_hyphens=False) + "\n\n"
    )
