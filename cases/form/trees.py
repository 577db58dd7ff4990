"""``[trees]``: tree girths, and the straps round them."""

from collections.abc import Iterator
from typing import Annotated, Any

from ...making import Hitch, Trees, TreeStrap
from ...materials import Webbing
from .ends import FieldIssue
from .fields import ChoiceField, QuantityField, find_material
from .toml_table import TomlTable

Girth = Annotated[float, QuantityField("length", "tree girth")]
_NOUNS = {
    "strap": "name of the strap in the library",
    "strap_length": "length of the strap from loop to loop",
    "hitch": "way the strap goes round the tree",
}
_STRAP = {"strap": '"polyester 1 in, 25 g/m"', "strap_length": '"1.8 m"', "hitch": '"girth hitch"'}


class TreesTable(TomlTable):
    """``[trees]``; girths are given together or one by one, the three keys of the strap all or none."""

    girth: Girth | None = None
    head_girth: Girth | None = None
    foot_girth: Girth | None = None
    strap: Annotated[Webbing, find_material(Webbing)] | None = None
    strap_length: Annotated[float, QuantityField("length", low=0.2, high=15.0)] | None = None
    hitch: Annotated[Hitch, ChoiceField(Hitch)] | None = None


def build_trees(table: TreesTable | None) -> Trees | None:
    """Return the trees of a table without conflicts; None is not given."""
    if table is None:
        return None
    head, foot = (each or table.girth for each in (table.head_girth, table.foot_girth))
    assert head is not None  # find_disagreements has made sure
    assert foot is not None
    strap = None
    if table.strap is not None and table.strap_length is not None and table.hitch is not None:
        strap = TreeStrap(table.strap, table.strap_length, table.hitch)
    return Trees(head, foot, strap)


def find_wrong_trees(raw: dict[str, Any]) -> Iterator[FieldIssue]:
    """Yield keys of a strap that are missing.

    Parameters
    ----------
    raw : dict
        The file as read from TOML.

    Examples
    --------
    >>> [wrong.path[-1] for wrong in find_wrong_trees({"trees": {"strap": "polyester 1 in, 25 g/m"}})]
    ['strap_length', 'hitch']
    """
    trees, ends = raw.get("trees"), raw.get("ends")
    if isinstance(ends, dict) and "strap" in ends and not (isinstance(trees, dict) and "strap" in trees):
        yield FieldIssue(
            ("ends", "strap"), "has no effect without a separate strap. Add strap to [trees], or remove this table."
        )
    if not isinstance(trees, dict) or not any(key in trees for key in _STRAP):
        return
    for key, example in _STRAP.items():
        if key not in trees:
            yield FieldIssue(("trees", key), f"is missing: {_NOUNS[key]}. Example: {key} = {example}")
