"""From a TOML file to materials, with all errors of the file at once.

A file holds tables ``[category."name"]``. Each has ``kind``, may have ``source``, ``status`` and ``note`` for
all its values, and has one key for each quantity: the quantity as text, or a table with ``value`` and its own
``source``, ``status``, ``range`` and ``note``. ``source = "@key"`` stands for that entry of the table ``[sources]``.
With ``base = "name"`` the values that are not given are those of another material of the same category.
"""

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from .categories import CATEGORIES, Known, Records
from .material import Material, MaterialError, list_quantities
from .printable import show_value
from .provenance import STATUSES, Provenance
from .quantity import QuantityError, parse_quantity
from .suggestion import suggest
from .toml_file import TomlError, read_toml
from .toml_lines import nearest_line

_RECORD_TEXTS = ("kind", "base", "source", "status", "note")
_VALUE_KEYS = ("value", "source", "status", "range", "note")


class _FileReader:
    """Reads one file; collects errors instead of stopping at the first."""

    def __init__(self, path: Path, text: str, known: Known) -> None:
        self.path = path
        self.text = text
        self.known = known
        self.faults: list[str] = []
        self.sources: dict[str, str] = {}

    def fault(self, keys: tuple[str, ...], sentence: str) -> None:
        """Add an error with file, line, record and key."""
        line = nearest_line(self.text, keys)
        place = f"{self.path}, line {line}" if line else f"{self.path}"
        record = f' {keys[0]} "{keys[1]}"' if len(keys) > 1 else ""
        key = f", {'.'.join(keys[2:])}" if len(keys) > 2 else ""
        self.faults.append(f"{place}:{record}{key}: {sentence}".replace("::", ":"))

    def read(self, data: dict[str, Any]) -> Records:
        """Return the materials of the file; those with an error are skipped."""
        records: Records = {}
        if not data.keys() & {*CATEGORIES, "sources"}:  # it may be any file of this machine, and is not quoted
            for category in data:
                self.fault((category,), f"unknown category. {suggest(category, [*CATEGORIES, 'sources'])}")
            return records
        self.sources = self._read_sources(data.pop("sources", {}))
        for category, tables in data.items():
            if category not in CATEGORIES:
                self.fault((category,), f"unknown category {category!r}. {suggest(category, [*CATEGORIES, 'sources'])}")
            elif not isinstance(tables, dict):
                self.fault(
                    (category,), f'{category} = {show_value(tables)} must be tables such as [{category}."name"].'
                )
            else:
                for name, table in tables.items():
                    if (record := self._read_record(category, name, table)) is not None:
                        records.setdefault(category, {})[name] = record
        return records

    def _read_sources(self, table: object) -> dict[str, str]:
        """Return the sources that values refer to by key."""
        if not isinstance(table, dict):
            self.fault(("sources",), f"sources = {show_value(table)} must be a table of texts.")
            return {}
        for key, text in table.items():
            if not isinstance(text, str) or not text.strip() or not text.isprintable():
                self.fault(("sources", key), f"{show_value(text)} must be the text of a source, on one line.")
        return {key: str(text) for key, text in table.items()}

    def _read_record(self, category: str, name: str, table: object) -> Material | None:
        """Return one material, or None if it has an error."""
        where, before = (category, name), len(self.faults)
        if not isinstance(table, dict):
            self.fault(where, f"{show_value(table)} must be a table of quantities.")
            return None
        if not name.strip() or not name.isprintable():
            self.fault(where, "a name must have a visible character and no line breaks or control characters.")
        quantities = {item.name: item for item in list_quantities(CATEGORIES[category])}
        self._check_keys(where, table, (*_RECORD_TEXTS, *quantities))
        for key in _RECORD_TEXTS:
            self._check_text(where, table, key)
        base = self._find_base(where, table)
        complete = "base" not in table or base is not None  # else what is missing would be in the base
        values: dict[str, Any] = {}
        provenance: dict[str, Provenance] = {}
        for key, item in quantities.items():
            if key in table:
                found = self._read_value((*where, key), table, item.metadata)
                if found is not None:
                    values[key], provenance[key] = found
            elif base is not None and key in base.provenance:
                values[key], provenance[key] = getattr(base, key), base.provenance[key]
            elif complete and not item.metadata["optional"]:
                self.fault(where, f"the key {key!r} is missing: {item.metadata['plausible']}.")
        kind = table.get("kind", base.kind if base is not None else None)
        if kind is None and complete:
            self.fault(where, "the key 'kind' is missing: generic type. Example: kind = \"ripstop nylon\"")
        return self._build(where, values, provenance, str(kind)) if len(self.faults) == before else None

    def _build(
        self, where: tuple[str, str], values: dict[str, Any], provenance: dict[str, Provenance], kind: str
    ) -> Material | None:
        """Return the record, or None if its numbers conflict."""
        try:
            return CATEGORIES[where[0]](where[1], kind, **values, provenance=provenance)
        except ValueError as error:
            self.fault(where, str(error).removeprefix(f'{where[0]} "{where[1]}": '))
            return None

    def _check_keys(self, where: tuple[str, ...], table: dict[str, Any], allowed: tuple[str, ...]) -> None:
        """Report keys that mean nothing."""
        for key in table:
            if key not in allowed:
                self.fault((*where, key), f"unknown setting {key!r}. {suggest(key, allowed)}")

    def _check_text(self, where: tuple[str, ...], table: dict[str, Any], key: str) -> bool:
        """Report a key that should hold text and does not; an absent key is not an error."""
        value = table.get(key, "text")
        if not isinstance(value, str) or not value.strip():
            self.fault((*where, key), f"{show_value(value)} must be text in quotes.")
            return False
        if not value.isprintable():
            self.fault((*where, key), f"{show_value(value)} must not have line breaks or control characters.")
            return False
        if key == "status" and key in table and value not in STATUSES:
            self.fault((*where, key), f"unknown status {show_value(value)}. Choose one of {', '.join(STATUSES)}.")
            return False
        if key == "source" and value.startswith("@") and value[1:] not in self.sources:
            self.fault((*where, key), f"{show_value(value)} is not in the table [sources] of this file.")
            return False
        return True

    def _find_base(self, where: tuple[str, str], table: dict[str, Any]) -> Material | None:
        """Return the material a record starts from."""
        name = table.get("base")
        known = self.known.get(where[0], {})
        if not isinstance(name, str) or name in known:
            return known.get(name) if isinstance(name, str) else None
        self.fault((*where, "base"), f"unknown {where[0]} {name!r}. {suggest(name, list(known))}")
        return None

    def _read_value(
        self, where: tuple[str, str, str], record: dict[str, Any], meaning: Mapping[str, Any]
    ) -> tuple[float, Provenance] | None:
        """Return one number and its origin, or None if there is an error."""
        before, raw = len(self.faults), record[where[2]]
        table = raw if isinstance(raw, dict) else {"value": raw}
        self._check_keys(where, table, _VALUE_KEYS)
        if "value" not in table:
            self.fault(where, "the key 'value' is missing: the quantity. Example: value = \"2 mm\"")
        merged = {key: table.get(key, record.get(key)) for key in ("source", "status", "note")}
        for key in ("source", "status"):
            if merged[key] is None:
                self.fault(
                    where, f"{key} is missing: every value needs a source and a status, its own or its record's."
                )
        for key in merged:
            self._check_text(where, table, key)
        value = self._read_number(where, table.get("value"), meaning) if "value" in table else None
        bounds = self._read_range(where, table["range"], value, meaning) if "range" in table else None
        if len(self.faults) > before or value is None:
            return None
        source = str(merged["source"])
        if source.startswith("@"):
            # A record's own error in its source is reported once; its values are then not built.
            source = self.sources.get(source[1:], source)
        if merged["status"] not in STATUSES:
            return None
        return value, Provenance(str(table["value"]), source, merged["status"], bounds, str(merged["note"] or ""))

    def _read_number(self, where: tuple[str, ...], text: Any, meaning: Mapping[str, Any]) -> float | None:  # noqa: ANN401 - as tomllib gives it
        """Return a quantity in SI; None and an error if it cannot be read."""
        try:
            return parse_quantity(text, meaning["dimension"], meaning["plausible"])
        except QuantityError as error:
            self.fault(where, str(error))
            return None

    def _read_range(
        self, where: tuple[str, ...], pair: object, value: float | None, meaning: Mapping[str, Any]
    ) -> tuple[float, float] | None:
        """Return smallest and largest likely value in SI."""
        if not isinstance(pair, list) or len(pair) != 2:
            self.fault(
                (*where, "range"), f'{show_value(pair)} must be two quantities. Example: range = ["25 N/mm", "41 N/mm"]'
            )
            return None
        low, high = (self._read_number((*where, "range"), text, meaning) for text in pair)
        if low is None or high is None or value is None:
            return None
        if not low <= value <= high:
            self.fault((*where, "range"), f"{pair[0]} to {pair[1]} must enclose the value, smaller limit first.")
        return low, high


def read_records(path: Path, known: Known) -> Records:
    """Read the materials of one file.

    Parameters
    ----------
    path : Path
        TOML file.
    known : mapping
        Materials by category and name that ``base`` may refer to.

    Raises
    ------
    MaterialError
        With every error of the file: file, line, material, key, what is wrong and what is allowed.
    """
    try:
        text, data = read_toml(path)
    except TomlError as error:
        place = f"{path}, line {error.line}" if error.line else f"{path}"
        raise MaterialError([f"{place}: {error}"]) from error
    reader = _FileReader(path, text, known)
    records = reader.read(data)
    if reader.faults:
        raise MaterialError(reader.faults)
    return records
