"""The source tree against what it is held to; ``make figures`` prints the same figures as a table."""

from pathlib import Path

import pytest

from ._measures import count_loose_dicts, find_doubled_names, list_functions, list_kernels
from ._order import find_back_arrows, find_circles, find_homes, is_facade, list_layer_orders
from ._siblings import find_sibling_circles
from ._source_tree import NAMESPACE, SourceTree

ROOT = Path(__file__).parents[2]
MOST_POSITIONAL = 6  # arguments of a compiled loop
LONGEST_FUNCTION = 57  # lines without docstring; the longest before the rooms were put in order
LONGEST_MODULE = 333  # lines; as before

# What reads or writes TOML, JSON and pickles knows nothing of what is in it.
LOOSE = {
    f"{NAMESPACE}.{name}"
    for name in (
        "materials.material",
        "materials.toml_file",
        "materials.record_reader",
        "cases.form.agreement",
        "cases.form.bar",
        "cases.form.corner",
        "cases.form.ends",
        "cases.form.extension",
        "cases.form.fold_agreement",
        "cases.form.end_fields",
        "cases.form.end_settings",
        "cases.design",
        "cases.result",
        "cases.storage.codec",
        "cases.storage.result_json",
        "cases.storage.sentence_store",
        "cases.studies.compare.export_design",
        "cases.studies.sweep.plan",
        "cases.studies.sweep.result_key",
        "cases.studies.sweep.setting",
        "cases.studies.sweep.sweep",
        "viewer.report.scene",
        "viewer.sweep_page.data",
    )
}

# Rooms of tests that look at more than one room of the sources.
ACROSS = {
    "architecture", "attack", "packaging", "consistency", "contract", "documentation", "examples", "experiments",
    "verification",
}  # fmt: skip


@pytest.fixture(scope="module")
def tree():
    return SourceTree(ROOT)


def test_tree_is_read(tree):
    assert set(tree.rooms) == {"solver", "materials", "making", "hammock", "cutting", "meshing", "cases", "viewer"}
    assert not [file for file in tree.files if ".links" in file.path.parts or "node_modules" in file.path.parts]
    assert f"{NAMESPACE}.viewer" in tree.arrows[f"{NAMESPACE}.cases.command.view_command"]  # inside a function
    assert f"{NAMESPACE}.cases.result" in tree.arrows[f"{NAMESPACE}.cases"]  # in a stub
    assert f"{NAMESPACE}.cases.solving.mesh_sequence" in tree.arrows[f"{NAMESPACE}.cases.command.progress"]  # for types


def test_no_circle_of_modules(tree):
    assert find_circles(tree.arrows) == []


def test_no_circle_of_rooms_in_a_room(tree):
    found = find_sibling_circles(tree)
    found.pop(NAMESPACE, None)  # `cases` holds both what the viewer shows and the command that opens it
    assert found == {}


def test_no_import_against_the_order(tree):
    assert find_back_arrows(tree) == []


def test_every_module_has_its_place_in_the_order(tree):
    layers = list_layer_orders(tree)[0]
    homes = {module: len(find_homes(module, layers)) for module in tree.modules if not is_facade(module, layers)}
    assert {module: count for module, count in homes.items() if count != 1} == {}
    assert [name for layer in layers for name in layer if name not in tree.modules] == []


def test_nothing_imports_the_whole_of_a_package_of_layers(tree):
    facades = [module for module in tree.modules if is_facade(module, list_layer_orders(tree)[0])]
    assert [(module, target) for module, targets in tree.arrows.items() for target in targets & set(facades)] == []


def test_no_name_of_a_class_is_used_twice(tree):
    assert find_doubled_names(tree) == {}


def test_kernels_take_few_arguments(tree):
    kernels = list_kernels(tree)
    assert len(kernels) > 20
    assert {k.label: k.positional for k in kernels if k.positional > MOST_POSITIONAL} == {}


def test_every_argument_and_return_has_a_type(tree):
    assert {f.label: f.blanks for f in list_functions(tree) if f.blanks} == {}


def test_loose_dictionaries_only_where_files_are_read_or_written(tree):
    assert set(count_loose_dicts(tree)) == LOOSE


def test_functions_and_modules_have_not_grown(tree):
    assert {f.label: f.lines for f in list_functions(tree) if f.lines > LONGEST_FUNCTION} == {}
    assert {module.name: module.lines for module in tree.modules.values() if module.lines > LONGEST_MODULE} == {}


def test_tests_mirror_the_rooms():
    folders = [path for path in (ROOT / "tests").rglob("*") if path.is_dir() and path.name != "__pycache__"]
    found = {path.relative_to(ROOT / "tests").as_posix() for path in folders}
    assert {name for name in found - ACROSS if not (ROOT / name / "__init__.py").exists()} == set()
