"""The keys of design and sweep files, from their forms, and of ``result.json``, from the records."""

import re
from collections.abc import Iterator, Mapping
from importlib import import_module
from importlib.resources import files
from typing import Any, ClassVar, NamedTuple, get_args, get_origin

from docutils import nodes
from docutils.parsers.rst import directives
from numpydoc.docscrape import ClassDoc
from sphinx.util.docutils import SphinxDirective

from tautlay.cases.form.fields import ChoiceField, QuantityField
from tautlay.cases.form.schema import find_quantity, find_table
from tautlay.cases.record import UNITS, Missing, Record, SIValue, list_fields
from tautlay.cases.unit_display import show_quantity

from .measures_drawing import embed_drawings, find_drawn, list_drawings
from .rst_table import parse_rst, quote, write_table

_LINE = re.compile(r"^(?P<off># )?(?P<key>[a-z_]+) = (?P<value>\"[^\"]*\"|[^#]*?)\s*(#\s*(?P<words>.*))?$")
RESULT = "tautlay.cases.result_record.ResultRecord"
ANY_UNIT, ANY_NAME = "UNIT", "NAME"  # in a key whose end differs from entry to entry
SENTENCES = "sentences"
_SENTENCES_ARE = (
    "By the text in metric units, as it stands elsewhere in this file: ``template``, the text with a field such as "
    "``{q0:length.3}`` (dimension, significant digits) for each quantity, and ``values_SI``, these quantities."
)
_ABSENT = {Missing.LEFT_OUT: "Left out where there is none.", Missing.EMPTY: "An empty table where there is none."}
_TABLE = re.compile(r"^(# )?\[+(?P<name>[a-z_.]+)\]+")


class KeyRow(NamedTuple):
    """What the reference says of a key."""

    path: str
    words: str
    default: str
    limits: str


def load(path: str) -> Any:
    """Return what a dotted path names."""
    module, _, name = path.rpartition(".")
    return getattr(import_module(module), name)


def list_keys(form: type, prefix: str = "", seen: tuple[type, ...] = ()) -> Iterator[KeyRow]:
    """Yield the keys of a form, table by table."""
    tables = []
    for name, field in form.model_fields.items():
        table = find_table(field.annotation)
        path = f"{prefix}.{field.alias or name}" if prefix else name
        if table is not None and table not in seen:
            tables.append((table, path))
        elif table is None:
            yield KeyRow(path, field.description or "", _show_default(field), _show_limits(field))
    for table, path in tables:
        yield from list_keys(table, path, (*seen, form))


def read_comments() -> dict[str, str]:
    """Return what the file of ``tautlay new`` says of each key, by table and key."""
    found, table = {}, ""
    for line in (files("tautlay.cases") / "starter.toml").read_text(encoding="utf-8").splitlines():
        if heading := _TABLE.match(line):
            table = heading["name"]
        elif (entry := _LINE.match(line)) and entry["words"]:
            found[f"{table}.{entry['key']}"] = entry["words"]
            found.setdefault(entry["key"], entry["words"])
    return found


def find_words(row: KeyRow, comments: dict[str, str]) -> str:
    """Return what a key is: as its form says, else as the file of ``tautlay new`` does."""
    table, _, key = row.path.rpartition(".")
    words = row.words or comments.get(row.path) or comments.get(key, "")
    end, _, shared = key.partition("_")
    if words or end not in ("head", "foot"):
        return words
    return f"at the {end}: {find_words(row._replace(path=f'{table}.{shared}'), comments)}"


def _show_default(field: Any) -> str:
    """Return the default in words."""
    if field.is_required():
        return "required"
    default = field.get_default(call_default_factory=True)
    if default is None:
        return "none"
    if (rule := find_quantity(field)) and default:
        return show_quantity(default, rule.dimension)
    if isinstance(default, bool):
        return f"``{str(default).lower()}``"  # as TOML writes it
    shown = ", ".join(map(str, default)) if isinstance(default, list) else str(default)
    return f"``{shown}``" if shown else "empty"


def _show_limits(field: Any) -> str:
    """Return what may be written."""
    counted = "entries" if get_origin(field.annotation) is list else "characters"
    found = [_describe(each, counted) for each in (*field.metadata, *_list_inner(field.annotation))]
    return "; ".join(dict.fromkeys(words for words in found if words))


def _list_inner(annotation: Any) -> Iterator[Any]:
    """Yield what stands inside ``Annotated`` in a union."""
    for part in get_args(annotation):
        yield from getattr(part, "__metadata__", ())


def _describe(rule: Any, counted: str) -> str:
    """Return one rule in words; ``counted`` is what a text or a list is made of."""
    if isinstance(rule, ChoiceField):
        return ", ".join(f"``{word}``" for word in rule.words)
    if isinstance(rule, QuantityField):
        low, high = rule.limits
        if low is None and high is None:
            return rule.dimension.replace("_", " ")
        ends = [show_quantity(end, rule.dimension) if end is not None else "" for end in (low, high)]
        return f"{rule.dimension.replace('_', ' ')}, {' to '.join(ends)}" if all(ends) else f"from {ends[0]}"
    parts = {
        "ge": "at least {}", "gt": "above {}", "le": "at most {}", "lt": "below {}",
        "max_length": f"up to {{}} {counted}",
    }  # fmt: skip
    return "; ".join(words.format(getattr(rule, name)) for name, words in parts.items() if hasattr(rule, name))


class FormDirective(SphinxDirective):
    """``form-keys``: every key of a form, one table for each of its tables; ``drawn`` adds what each key measures."""

    required_arguments: ClassVar[int] = 1
    option_spec: ClassVar[dict[str, Any]] = {"drawn": directives.flag}

    def run(self) -> list[nodes.Node]:
        """Return the tables."""
        comments, found = read_comments(), []
        groups: dict[str, list[KeyRow]] = {}
        for row in list_keys(load(self.arguments[0])):
            groups.setdefault(row.path.rpartition(".")[0], []).append(row)
        drawings = list_drawings() if "drawn" in self.options else ()
        for name, rows in groups.items():
            found += parse_rst(self, [f".. rubric:: [{name}]" if name else ".. rubric:: at the top", ""])
            found += [embed_drawings()[each.anchor].deepcopy() for each in drawings if each.table == name]
            cells = []
            for row in rows:
                key, words = row.path.rpartition(".")[2], quote(find_words(row, comments))
                if drawings and (place := find_drawn(row.path)):
                    words += f" (`drawn, {place.number} <#{place.drawing.anchor}>`__)"
                cells.append((f"``{key}``", words, row.default, row.limits or "\\"))
            found += parse_rst(self, write_table(("key", "what it is", "default", "allowed"), cells, (20, 42, 14, 24)))
        return found


def list_record_keys(kind: type, prefix: str = "") -> Iterator[tuple[str, str]]:
    """Yield key and meaning of everything that a record writes."""
    meant, whole = read_parameters(kind), " ".join(ClassDoc(kind)["Summary"])
    for item in list_fields(kind):
        kinds = list(_list_kinds(item.kind))
        inner = next((each for each in kinds if issubclass(each, Record)), None)
        path = (f"{prefix}.{item.key}" if prefix else item.key) + (f"_{ANY_UNIT}" if SIValue in kinds else "")
        yield path, f"{meant.get(item.name) or whole} {_ABSENT.get(item.missing, '')}".strip()
        if Mapping in kinds or dict in kinds:
            path = f"{path}.{ANY_NAME}"
            if inner is None:
                yield path, f"One of them, by its name. {meant.get(item.name, '')}".strip()
        elif inner is not None and tuple in kinds:
            path = f"{path}[]"
        if inner is not None:
            yield from list_record_keys(inner, path)


def read_parameters(kind: type) -> dict[str, str]:
    """Return what a class, and what it is made of, says of each of its parameters."""
    found: dict[str, str] = {}
    for each in reversed(kind.__mro__):
        if issubclass(each, Record):
            for parameter in ClassDoc(each)["Parameters"]:
                found.update(
                    dict.fromkeys((name.strip() for name in parameter.name.split(",")), " ".join(parameter.desc))
                )
    return found


def find_unlisted(found: object) -> list[str]:
    """Return the keys of a ``result.json`` that stand in no row of the reference.

    Parameters
    ----------
    found : object
        What the file holds.
    """
    rows = [path for path, _ in list_record_keys(load(RESULT))]
    rows += [path.partition(ANY_NAME)[0] + ANY_NAME for path in rows if ANY_NAME in path]  # the entries themselves
    names, units = r"[^.\[\]]+", "|".join(filter(None, UNITS.values()))
    patterns = [
        re.escape(path).replace(re.escape(f".{ANY_NAME}"), rf"\.{names}").replace(f"_{ANY_UNIT}", f"(_({units}))?")
        for path in [*rows, SENTENCES]
    ]
    listed = re.compile("|".join(patterns))
    return sorted({path for path in _list_paths(found) if not listed.fullmatch(path)})


def _list_paths(found: object, prefix: str = "") -> Iterator[str]:
    """Yield the keys of nested tables and lists, as the reference writes them."""
    for key, value in found.items() if isinstance(found, dict) else ():
        path = f"{prefix}.{key}" if prefix else key
        yield path
        if path == SENTENCES:
            continue  # by texts
        yield from _list_paths(value, path)
        for each in value if isinstance(value, list) else ():
            yield from _list_paths(each, f"{path}[]")


def _list_kinds(kind: Any) -> Iterator[type]:
    """Yield the classes in a type."""
    if isinstance(kind, type) and not get_args(kind):
        yield kind
    if isinstance(get_origin(kind), type):
        yield get_origin(kind)
    for part in get_args(kind):
        yield from _list_kinds(part)


class RecordDirective(SphinxDirective):
    """``record-keys``: every key that a record writes."""

    required_arguments: ClassVar[int] = 1

    def run(self) -> list[nodes.Node]:
        """Return the table."""
        found = [*list_record_keys(load(self.arguments[0])), (SENTENCES, _SENTENCES_ARE)]
        rows = [(f"``{path}``", words) for path, words in found]
        return parse_rst(self, write_table(("key", "what it is"), rows, (45, 55)))
