"""A design file, read and checked: the hammock in SI, who lies in it, and what to compute."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from os import PathLike
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from ..hammock.geometry_issue import GeometryIssue
from ..hammock.hammock import Hammock
from ..hammock.load_case import LoadCase
from ..hammock.person import Person
from ..hammock.suspension import Suspension
from ..making import Workmanship
from ..materials import (
    Library,
    Material,
    MaterialError,
    TomlFile,
    escape_text,
    nearest_line,
    parse_toml,
    read_library,
)
from ..materials.short_repr import write_repr, write_value
from .design_issue import DesignError, DesignIssue, write_path
from .design_text import read_text
from .form import (
    MOST_FILES,
    DesignForm,
    build_hammock,
    build_terms,
    build_workmanship,
    find_corner_issues,
    find_cutting_issues,
    find_disagreements,
    find_end_issues,
    find_fold_issues,
    find_limit_issues,
    find_size_issues,
    find_written,
    list_sources,
    translate_errors,
)
from .judging.verdict.terms import JudgedCase, JudgeTerms, NamedPerson
from .mesh_size import MeshSizeError, count_triangles
from .unit_display import Units, write_sentence

__all__ = ["Design", "DesignError", "DesignIssue", "read_design"]


@dataclass(frozen=True)
class Design:
    """Everything a design file says, in SI.

    Parameters
    ----------
    name, note : str
        Name and note of the maker.
    hammock : Hammock
        Everything that is sewn, spread and hung.
    workmanship : Workmanship
        How its parts are made, and the factors of safety required.
    person : Person
        Who lies in it; the first of several.
    mesh_size : float
        Edge of a triangle in the middle of the cloth, m.
    load : LoadCase
        Load case, unless a solve names another.
    sudden_factor : float
        On the person's weight in the sudden load case.
    units : {"metric", "imperial", "both"}
        Units of reports.
    path : Path
        The file.
    text : str
        Its text as read, so that a result can keep it.
    library : Library
        Built-in materials with those of the design's own files.
    sources : mapping of key to Material
        The material that stands behind each key, such as ``body.fabric``; its ``provenance`` is the
        source of each number.
    terms : JudgeTerms
        What it has to stand: loads, people and limits.
    """

    name: str
    note: str
    hammock: Hammock
    workmanship: Workmanship
    person: Person
    mesh_size: float
    load: LoadCase
    sudden_factor: float
    units: Units
    path: Path
    text: str = field(repr=False)
    library: Library = field(repr=False)
    sources: Mapping[str, Material] = field(repr=False)
    terms: JudgeTerms = field(repr=False)

    def __repr__(self) -> str:
        return write_repr(
            self,
            self.name,
            f"load {self.load}",
            f"{self.person.sex} {write_value(self.person.stature, 'length')} {write_value(self.person.mass, 'mass')}",
            f"body {write_value(self.hammock.body.length, 'length')} of {self.hammock.body.fabric.name}",
            f"mesh {write_value(self.mesh_size, 'length')}",
        )

    @property
    def file_name(self) -> str:
        """The file as it is shown and kept: a name that is no text, or has control characters, by its codes."""
        return escape_text(str(self.path))

    @property
    def files(self) -> tuple[Path, ...]:
        """Every file it was read from: its own, and those of its materials."""
        names = parse_toml(self.text).get("materials", {}).get("files", [])
        return (self.path, *(self.path.parent / name for name in names))

    def put_in(self, case: JudgedCase) -> "Design":
        """Return the same design with one person under one load."""
        return replace(self, person=case.who.person, load=case.load)

    def find_case(self, load: LoadCase) -> JudgedCase:
        """Return its person under a load as a case of what it has to stand."""
        who = next((who for who in self.terms.people if who.person == self.person), NamedPerson("", self.person))
        return JudgedCase(who, load)

    def hang(self, suspension: Suspension) -> "Design":
        """Return the same design hung in another way."""
        return replace(self, hammock=replace(self.hammock, suspension=suspension))

    def hang_between(self, distance: float) -> "Design":
        """Return the same design between trees ``distance`` m apart."""
        return self.hang(self.hammock.suspension.between(distance))


def read_design(path: str | PathLike[str], *, mesh_size: float | None = None) -> Design:
    """Read a design file and check everything in it.

    Parameters
    ----------
    path : path
        A TOML file in UTF-8; ``tautlay new`` writes one to start from.
    mesh_size : float or None
        Mesh size to take instead of the file's, m; then the file's is not looked at.

    Returns
    -------
    Design
        In SI.

    Raises
    ------
    DesignError
        With every issue at once: file, line, key, value, what is allowed. The geometry as a whole is checked once
        every single value is valid.
    MeshSizeError
        If ``mesh_size`` does not fit the body.

    Examples
    --------
    >>> read_design("nowhere.toml")
    Traceback (most recent call last):
    tautlay.cases.design_issue.DesignError: nowhere.toml: there is no such file. Write one: `tautlay new nowhere.toml`.
    """
    file = Path(path)
    return compose_design(read_text(file), file, mesh_size=mesh_size)


def compose_design(content: TomlFile, file: Path, *, mesh_size: float | None = None) -> Design:
    """Check the content of a design file and build what it describes.

    Parameters
    ----------
    content : TomlFile
        Text, for line numbers, and tables, which may differ from the text.
    file : Path
        The file it comes from; files of materials are looked for beside it.
    mesh_size : float or None
        As in :func:`read_design`.

    Raises
    ------
    DesignError, MeshSizeError
        As :func:`read_design`.
    """
    from ..meshing import find_angle_issue

    text, raw = content
    _check_kind(raw, file)
    if mesh_size is not None and isinstance(raw.get("mesh"), dict):
        raw = raw | {"mesh": {key: value for key, value in raw["mesh"].items() if key != "size"}}
    library, faults = _read_materials(raw, text, file)
    faults += find_disagreements(raw, text, str(file))
    form = None
    try:
        form = DesignForm.model_validate(raw, context={"library": library})
    except ValidationError as error:
        faults += translate_errors(error, text, str(file))
    else:
        faults += find_size_issues(form, text, str(file))
    if form is None or faults:
        raise DesignError(faults)
    design = _build_design(form, library, file, text)
    flaws = _find_flaws(design)
    if flaws:
        raise DesignError([_place_flaw(flaw, raw, design) for flaw in flaws])
    for flaw in _ask_for_everybody(design, lambda *both: filter(None, [find_angle_issue(*both)])):
        raise DesignError([_place_flaw(flaw, raw, design)])
    if mesh_size is not None:
        design = replace(design, mesh_size=mesh_size)
    try:
        count_triangles(design.hammock, design.mesh_size, units=design.units)
    except MeshSizeError as error:
        if mesh_size is not None:
            raise
        raise DesignError(
            [DesignIssue(str(file), str(error), nearest_line(text, ("mesh", "size")), "mesh.size")]
        ) from None
    return design


def _check_kind(raw: dict[str, Any], file: Path) -> None:
    """Raise for a file that is no design; it may be any file of this machine, and nothing in it is quoted."""
    if not raw.keys() & {*DesignForm.model_fields, "sweep"}:  # a sweep is told to be one
        sentence = "this is no design, which has tables such as [body] and [head_bar]."
        raise DesignError([DesignIssue(str(file), sentence)])


def find_load_factor(design: Design, load: LoadCase) -> float:
    """Return the factor on the person's weight in a load case: 1 but for a sudden one.

    Parameters
    ----------
    design : Design
        Which names it.
    load : LoadCase
        What the person does.

    Examples
    --------
    >>> from types import SimpleNamespace as Record
    >>> [find_load_factor(Record(sudden_factor=2.5), load) for load in (LoadCase.SUDDEN, LoadCase.LYING)]
    [2.5, 1.0]
    """
    return design.sudden_factor if load.sudden else 1.0


def _read_materials(raw: dict[str, Any], text: str, file: Path) -> tuple[Library, list[DesignIssue]]:
    """Return the library with the design's own files, and the issues of these."""
    table = raw.get("materials")
    names = table.get("files") if isinstance(table, dict) else None
    if not isinstance(names, list) or len(names) > MOST_FILES or not all(isinstance(name, str) for name in names):
        return read_library(), []  # the schema reports what else it may be
    try:
        return read_library(*(file.parent / name for name in names)), []
    except MaterialError as error:
        line = nearest_line(text, ("materials", "files"))
        return read_library(), [DesignIssue(str(file), sentence, line, "materials.files") for sentence in error.faults]


def _find_flaws(design: Design) -> list[GeometryIssue]:
    """Return everything that keeps the hammock from being sewn, rigged or hung."""
    from ..hammock import find_geometry_issues

    hammock, work = design.hammock, design.workmanship
    flaws = _ask_for_everybody(design, find_geometry_issues)
    if not flaws:  # the lengths in which splices and locks lie are known only of a hammock that can be sewn and hung
        flaws = list(find_end_issues(hammock, work))
    folds = find_fold_issues(hammock, work)
    cut = [] if flaws or folds else list(find_cutting_issues(design))
    return [*find_limit_issues(design.terms), *flaws, *folds, *find_corner_issues(work.corner, hammock), *cut]


def _ask_for_everybody(
    design: Design, ask: Callable[[Hammock, Person], Iterable[GeometryIssue]]
) -> list[GeometryIssue]:
    """Return what is wrong with the hammock for each person, each issue once; one of several goes by number."""
    people, found = design.terms.people, dict[GeometryIssue, None]()
    for number, who in enumerate(people):
        head = "person." if len(people) == 1 else f"person.{number}."
        for flaw in ask(design.hammock, who.person):
            keys = tuple(key.replace("person.", head, 1) if key.startswith("person.") else key for key in flaw.keys)
            found[replace(flaw, keys=keys)] = None
    return list(found)


def _place_flaw(flaw: GeometryIssue, raw: dict[str, Any], design: Design) -> DesignIssue:
    """Return a fault of the geometry with the keys it is about and the line of the first."""
    keys = find_written(flaw.keys, raw) or [flaw.keys[0]]
    paths = [[int(key) if key.isdigit() else key for key in dotted.split(".")] for dotted in keys]
    words, line = write_sentence(flaw.sentence, design.units), nearest_line(design.text, paths[0])
    return DesignIssue(str(design.path), words, line, " and ".join(write_path(path) for path in paths))


def _build_design(form: DesignForm, library: Library, file: Path, text: str) -> Design:
    """Return the design a valid form describes."""
    terms = build_terms(form)
    return Design(
        form.design.name,
        form.design.note,
        build_hammock(form),
        build_workmanship(form),
        terms.people[0].person,
        form.mesh.size,
        form.load.case,
        form.load.sudden_factor,
        form.report.units,
        file,
        text,
        library,
        list_sources(form),
        terms,
    )
