"""The cutting pattern of a design, as scripts and commands use it."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from ...cutting import BODY, ClothPiece, Draft, Join, draft_pieces
from ...cutting.drawing.paper import Paper, find_paper
from ...cutting.geometry import crosses_itself
from ...cutting.lay import Lay, LayError, lay_pieces
from ...cutting.nest import nest_lay
from ...hammock.extension_checks import check_extensions
from ...materials.short_repr import write_repr
from ..design import Design
from ..form import find_cutting_issues
from ..judging.weighing import WeightList, weigh_design
from ..storage.atomic import write_json, write_text
from ..storage.codec import encode
from ..storage.result_folder import PATTERN, replace_folder
from ..unit_display import write_sentence
from .cut_list import write_cut_list
from .pattern_check import PatternNote, check_draft
from .pattern_drawings import draw_all, write_drawings
from .pattern_error import PatternError
from .pattern_record import PatternHeader, PatternRecord, record_pattern
from .shopping import ShoppingList, list_shopping

if TYPE_CHECKING:
    from ..equilibrium import Equilibrium
    from ..storage.stored_result import StoredResult

_ESTIMATE = "That is by its solved line. With --estimate, or without a result, it is cut to an estimated one."


@dataclass(frozen=True, repr=False)
class Pattern:
    """The pieces of a design, how they are joined and how they lie on the cloth.

    Parameters
    ----------
    design : Design
        What is sewn.
    draft : Draft
        Its pieces and joins.
    nested : bool
        Whether a tighter lay is looked for, which takes some seconds.
    """

    design: Design
    draft: Draft
    nested: bool = False

    def __repr__(self) -> str:
        return write_repr(self, self.design.name, *(piece.name for piece in self.pieces), f"{len(self.joins)} joins")

    @property
    def pieces(self) -> tuple[ClothPiece, ...]:
        """Everything that is cut from cloth."""
        return self.draft.pieces

    @property
    def joins(self) -> tuple[Join, ...]:
        """Everything that is sewn together."""
        return self.draft.joins

    @cached_property
    def lays(self) -> tuple[Lay, ...]:
        """How the pieces lie on each cloth.

        Raises
        ------
        PatternError
            For a piece wider than the cloth.
        """
        try:
            lays = lay_pieces(self.draft, self.design.workmanship.cutting.cloth_width)
        except LayError as error:
            raise PatternError(f"{error} Choose a wider cloth: cloth_width in [cutting], or --cloth-width.") from None
        return tuple(map(nest_lay, lays)) if self.nested else lays

    @cached_property
    def scales(self) -> WeightList:
        """What everything weighs, cut like this."""
        return weigh_design(self.design, self.draft)

    @cached_property
    def shopping(self) -> ShoppingList:
        """What to buy."""
        return list_shopping(self.lays, self.scales, self.design.hammock)

    def check(self) -> tuple[PatternNote, ...]:
        """Return what is wrong with the pattern and what it leaves out, the worst first."""
        return check_draft(self.design, self.draft)

    @cached_property
    def record(self) -> PatternRecord:
        """Everything that ``pattern.json`` keeps; sentences in the units of the design."""
        notes = tuple(write_sentence(note.sentence, self.design.units) for note in self.check())
        header = PatternHeader(self.design.name, self.design.file_name)
        return record_pattern(header, self.draft, self.lays, notes)

    def save(
        self,
        folder: str | Path,
        *,
        paper: Paper | None = None,
        half: bool = True,
        only: tuple[str, ...] = (),
        draw: Callable[[Path], None] | None = None,
    ) -> None:
        """Write all files of the pattern into a folder, all of them or nothing.

        Parameters
        ----------
        folder : path
            Made if it is not there; an earlier pattern in it is replaced as a whole.
        paper : Paper or None
            Of ``sheets.pdf``; None is A4.
        half : bool
            Whether pieces whose halves mirror each other are printed on the fold.
        only : tuple of str
            Names of the pieces on paper; none are all but plain rectangles.
        draw : callable or None
            Receives the folder and writes the page into it; None writes none.

        Raises
        ------
        PatternError
            For a piece of an unknown name.
        OSError
            If the folder cannot be written, or has anything but a pattern.
        """
        drawn = draw_all(self.design.name, self.draft, self.lays, self.design.units)
        printed = tuple(drawn.pick(piece, half=half) for piece in self.choose_printed(only))
        with replace_folder(Path(folder), PATTERN) as place:
            write_drawings(drawn, printed, paper or find_paper("a4"), place)
            write_text(place / "cut_list.csv", write_cut_list(self.pieces, self.shopping, self.design.units))
            write_json(place / "pattern.json", encode(self.record))
            if draw is not None:
                draw(place)

    def choose_printed(self, only: tuple[str, ...]) -> tuple[ClothPiece, ...]:
        """Return the pieces that are printed on paper.

        Parameters
        ----------
        only : tuple of str
            Their names; none are all but plain rectangles.

        Raises
        ------
        PatternError
            For an unknown name.
        """
        names = [piece.name for piece in self.pieces]
        unknown = [name for name in only if name not in names]
        if unknown:
            raise PatternError(f"there is no piece {unknown[0]!r:.60}. Choose {', '.join(names)}.")
        return tuple(p for p in self.pieces if (p.name in only if only else not p.is_rectangle))


def draft_pattern(
    design: Design,
    result: "Equilibrium | StoredResult | None" = None,
    *,
    cloth_width: float | None = None,
    nested: bool = False,
) -> Pattern:
    """Return the cutting pattern of a design.

    Parameters
    ----------
    design : Design
        From :func:`~tautlay.cases.read_design`.
    result : Result, StoredResult or None
        Solved: what lies beyond a bar that is set in is cut to the line of the cloth under it, and a body wider than
        its cloth is seamed where the weft pulls least in it. None takes an estimate for both.
    cloth_width : float or None
        Cuttable width of all cloth, m; None is that of the design.
    nested : bool
        Whether a tighter lay is looked for, which takes some seconds.

    Returns
    -------
    Pattern
        Pieces, joins, lays; ``check()`` and ``save(folder)``.

    Raises
    ------
    PatternError
        For pieces that cannot be cut, and the result of another design.

    Examples
    --------
    >>> from importlib.resources import files
    >>> from tautlay.cases import read_design
    >>> pattern = draft_pattern(read_design(str(files("tautlay.cases") / "larch_ridge.toml")))
    >>> pattern
    <Pattern Larch Ridge, body, 2 joins>
    >>> round(pattern.pieces[0].cut_area, 3)  # m2
    2.069
    """
    if cloth_width is not None:
        work = design.workmanship
        wide = replace(work, cutting=replace(work.cutting, cloth_width=cloth_width))
        design = replace(design, workmanship=wide)
    for issue in find_cutting_issues(design):
        raise PatternError(write_sentence(issue.sentence, design.units))
    pull = None
    if result is not None:
        from .loaded_lines import cut_to_lines
        from .seam_pull import read_pull
        from .solved_shape import find_shape  # loads a solver, which a pattern alone must not wait for

        shape = find_shape(result, design)
        pull = read_pull(shape, design.hammock.body)
        design = replace(design, hammock=cut_to_lines(shape, design.hammock))
        _check_lines(design)
    draft = draft_pieces(design, pull)
    for piece in draft.pieces:
        _check_simple(piece)
    return Pattern(design, draft, nested)


def _check_lines(design: Design) -> None:
    """Raise for cloth beyond a bar that cannot be cut to its solved line."""
    try:
        issue = next(check_extensions(design.hammock), None)
    except ValueError as error:
        raise PatternError(f"{error} {_ESTIMATE}") from None
    if issue is not None:
        raise PatternError(f"{write_sentence(issue.sentence, design.units)} {_ESTIMATE}")


def _check_simple(piece: ClothPiece) -> None:
    """Raise for a piece whose cut crosses itself."""
    if crosses_itself(piece.boundary):
        advice = (
            "Make the channel narrower or the arc shallower"
            if piece.part == BODY
            else "Reduce set_in of the bar, allowance in [body.hem] or allowance in [cutting]"
        )
        raise PatternError(
            f"The cut of the {piece.name} crosses itself: its allowances do not fit its edges. {advice}."
        )
