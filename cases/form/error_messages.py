"""From the schema's errors to one message each, in the words of a maker."""

from pathlib import Path
from typing import Any, TypeVar, get_origin

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from ...materials import TomlFile, nearest_line, show_value
from ..design_issue import DesignError, DesignIssue, find_near, suggest_name, write_path
from .schema import DesignForm, find_field, find_table
from .toml_table import TomlTable

_Form = TypeVar("_Form", bound=TomlTable)

# By the schema's type of error; in braces its limits.
SENTENCES = {
    "string_type": 'must be text in quotes. Example: "a word"',
    "bool_type": "must be true or false, without quotes.",
    "int_type": "must be a whole number without quotes, such as 1.",
    "list_type": 'must be a list. Example: ["my_cloth.toml"]',
    "greater_than_equal": "must be at least {ge}.",
    "less_than_equal": "must be at most {le}.",
    "string_too_long": "must have at most {max_length} characters.",
    "too_long": "must have at most {max_length} entries.",
}


def read_form(form: type[_Form], content: TomlFile, file: Path) -> _Form:
    """Return a file read as a schema.

    Parameters
    ----------
    form : type of TomlTable
        Schema of the whole file.
    content : TomlFile
        Of the file.
    file : Path
        Where it is, for messages.

    Raises
    ------
    DesignError
        With every issue at once: file, line, key, value, what is allowed.
    """
    try:
        return form.model_validate(content.data)
    except ValidationError as error:
        raise DesignError(translate_errors(error, content.text, str(file), form)) from None


def translate_errors(
    error: ValidationError, text: str, file: str, form: type[TomlTable] = DesignForm
) -> list[DesignIssue]:
    """Return each error of the schema as one message with its place.

    Parameters
    ----------
    error : ValidationError
        What the schema found.
    text : str
        The file's text, for line numbers.
    file : str
        The file's name, for messages.
    form : type of TomlTable
        Schema of the whole file.

    Returns
    -------
    list of DesignIssue
        One for each error; one alone for a file of another kind, and none for a missing key that is misspelt.
    """
    details = error.errors(include_url=False)
    unknown = [detail["loc"] for detail in details if detail["type"] == "extra_forbidden"]
    for path in unknown:
        if len(path) == 1 and (sentence := form.strangers.get(str(path[0]))):
            return [DesignIssue(file, sentence, nearest_line(text, path))]
    meant = {(*path[:-1], _guess_key(path, form)) for path in unknown}
    return [
        _translate(detail, text, file, form)
        for detail in details
        if detail["type"] != "missing" or detail["loc"] not in meant
    ]


def _translate(detail: ErrorDetails, text: str, file: str, form: type[TomlTable]) -> DesignIssue:
    """Return one error as a fault."""
    path = detail["loc"]
    message, value = _find_words(detail, path, form)
    return DesignIssue(file, message, nearest_line(text, path), write_path(path), value)


def _find_words(detail: ErrorDetails, path: tuple[int | str, ...], form: type[TomlTable]) -> tuple[str, str]:
    """Return the message, and the value where the message does not show it."""
    shown = show_value(detail["input"])
    limits = detail.get("ctx", {})
    match detail["type"]:
        case "missing":
            return _ask_for(path, form), ""
        case "extra_forbidden":
            return _refuse_key(path, form), "" if isinstance(detail["input"], dict | list) else shown
        case "model_type":
            return f"must be a table. Begin it with a line {_head_table(path)}.", shown
        case "list_type" if _is_table(path, form):
            return f"must be a list of tables. Begin each with a line {_head_table((*path, 0))}.", shown
        case "value_error":
            sentence = str(limits["error"])
            if sentence.startswith(f"{shown} "):
                return sentence.removeprefix(f"{shown} "), shown
            return sentence, "" if shown in sentence else shown
        case known if known in SENTENCES:
            return SENTENCES[known].format_map(limits), shown
    return f"{detail['msg']}.", shown


def _is_table(path: tuple[int | str, ...], form: type[TomlTable]) -> bool:
    """Return whether a list holds tables."""
    return find_table(find_field(path, form)[1].annotation) is not None


def _head_table(path: tuple[int | str, ...]) -> str:
    """Return the line with which a table begins, ``[name]`` or, in a list of tables, ``[[name]]``."""
    name = ".".join(key for key in path if isinstance(key, str))
    return f"[[{name}]]" if isinstance(path[-1], int) else f"[{name}]"


def _is_list(field: Any) -> bool:  # noqa: ANN401 - of the schema
    """Return whether a key holds a list."""
    return get_origin(field.annotation) is list


def _ask_for(path: tuple[int | str, ...], form: type[TomlTable]) -> str:
    """Return what a missing key or table is, with an example."""
    _, field = find_field(path, form)
    if not field.examples:
        head = _head_table((*path, 0) if _is_table(path, form) and _is_list(field) else path)
        return f"is missing: {field.description}. Example: {head}"
    return f"is missing: {field.description}. Example: {path[-1]} = {field.examples[0]}"


def _guess_key(path: tuple[int | str, ...], form: type[TomlTable]) -> str | None:
    """Return the key that was probably meant by an unknown one."""
    table: Any = find_field(path, form)[0]
    return find_near(str(path[-1]), list(table.model_fields))


def _refuse_key(path: tuple[int | str, ...], form: type[TomlTable]) -> str:
    """Return the keys that are allowed here instead of an unknown one."""
    table: Any = find_field(path, form)[0]
    known = list(table.model_fields)
    noun = "table or setting" if len(path) == 1 else "setting"
    return f"unknown {noun}. {suggest_name(str(path[-1]), known)}Allowed here: {', '.join(known)}."
