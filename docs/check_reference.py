"""The built reference has every key, option, public name and material that there is, and none that has gone."""

import json
import re
import sys
from collections.abc import Iterator
from html import unescape
from importlib import import_module
from pathlib import Path

import click

sys.path.insert(0, str(Path(__file__).parent))

from directives.key_tables import RESULT, SENTENCES, find_unlisted, list_keys, list_record_keys, load
from directives.name_lists import list_members

from tautlay import cases
from tautlay.cases.command.cli import main
from tautlay.materials import CATEGORIES, read_library

FORMS = {
    "design_file": "tautlay.cases.form.schema.DesignForm",
    "sweep_file": "tautlay.cases.studies.sweep.sweep_form.SweepForm",
    "choose_file": "tautlay.cases.studies.choose.choose_form.ChooseForm",
    "measured_file": "tautlay.cases.studies.fit.measured_form.MeasuredForm",
}
RESULTS = ("Result", "Verdict", "Requirement", "Findings", "Check", "Ranking", "SweepRow")  # what scripts read most
ROOMS = ("cases", "viewer", "materials", "hammock", "making", "cutting", "meshing", "solver")
_RUBRIC_OR_KEY = re.compile(
    r'<p class="rubric"[^>]*>(?P<table>.*?)</p>|<tr[^>]*>\s*<td><p><code[^>]*>(?P<key>.*?)</code>', re.S
)
_TAG = re.compile(r"<[^>]+>")


def find_differences(folder: Path) -> list[str]:
    """Return what the reference lacks or has too much, a sentence each.

    Parameters
    ----------
    folder : Path
        Of the built reference.
    """
    found = []
    for name, (there, built) in compare_pages(folder).items():
        found += [f"{name}: {each} is missing." for each in sorted(there - built)]
        found += [f"{name}: {each} has gone from the program." for each in sorted(built - there)]
    return found


def find_unlisted_keys(folder: Path) -> list[str]:
    """Return the keys of results that the reference does not list, a sentence each.

    Parameters
    ----------
    folder : Path
        With results of the documentation's own commands somewhere in it.
    """
    files = sorted(folder.rglob("result.json"))
    if not files:
        return [f"result_file: {folder} has no result to hold the keys against."]
    found = {key: file for file in files for key in find_unlisted(json.loads(file.read_text(encoding="utf-8")))}
    return [f"result_file: {key} of {file} is missing." for key, file in sorted(found.items())]


def compare_pages(folder: Path) -> dict[str, tuple[set[str], set[str]]]:
    """Return for each page of the reference what there is, and what stands in it."""
    pages = {page: (folder / f"{page}.html").read_text(encoding="utf-8") for page in _PAGES}
    found = {
        name: ({row.path for row in list_keys(load(form))}, _read_keys(pages[name])) for name, form in FORMS.items()
    }
    keys = {SENTENCES, *(path for path, _ in list_record_keys(load(RESULT)))}
    found["result_file"] = keys, _read_keys(pages["result_file"])
    options = set(re.findall(r'id="(cmdoption-tautlay[^"]*)"', pages["commands"]))
    found["commands"] = set(_list_options(main, ("tautlay",))), options
    names = {f"tautlay.{room}.{name}" for room in ROOMS for name in import_module(f"tautlay.{room}").__all__}
    held = {f"tautlay.cases.{name}.{each}" for name in RESULTS for each in list_members(getattr(cases, name))}
    told = set(re.findall(r'<dt class="sig[^>]*id="(tautlay\.\w+\.\w+)"', pages["python"]))
    members = set(re.findall(r'<dt class="sig[^>]*id="(tautlay\.\w+\.\w+\.\w+)"', pages["python"]))
    found["python"] = names, told
    found["members"] = held, held & members
    library = read_library()
    materials = {name for category in CATEGORIES for name in library.names(category)}
    found["materials"] = (
        materials,
        {_read(each) for each in re.findall(r"<p><strong>(.*?)</strong></p>", pages["materials"])},
    )
    return found


_PAGES = (*FORMS, "result_file", "commands", "python", "materials")


def _read(html: str) -> str:
    """Return the words of some HTML."""
    return unescape(_TAG.sub("", html)).strip()


def _read_keys(page: str) -> set[str]:
    """Return the keys in the tables of a page, each below the name of its table."""
    found, table = set(), ""
    for match in _RUBRIC_OR_KEY.finditer(page):
        if match["table"] is not None:
            words = _read(match["table"])
            table = f"{words[1:-1]}." if words.startswith("[") else ""
        else:
            found.add(table + _read(match["key"]))
    return found


def _list_options(command: click.Command, path: tuple[str, ...]) -> Iterator[str]:
    """Yield the places of a command's arguments and options, and of those below it."""
    place = f"cmdoption-{'-'.join(path)}"
    for parameter in command.params:
        if isinstance(parameter, click.Argument):
            yield f"{place}-arg-{(parameter.metavar or parameter.name or '').upper()}"
        else:
            yield from (f"{place}-{name.lstrip('-')}" for name in (*parameter.opts, *parameter.secondary_opts))
    if isinstance(command, click.Group):
        for name in command.list_commands(click.Context(command)):
            below = command.get_command(click.Context(command), name)
            if below is not None and not below.hidden:
                yield from _list_options(below, (*path, name))


if __name__ == "__main__":
    built = Path(sys.argv[1])
    wrong = [*find_differences(built), *find_unlisted_keys(built.parents[1] / "work")]
    print("\n".join(wrong) if wrong else "The reference has everything that there is, and nothing that has gone.")
    sys.exit(bool(wrong))
