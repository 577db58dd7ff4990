"""Every view that a design has sizes for."""

from collections.abc import Iterator
from dataclasses import replace

from ...cases.design import Design
from ...cases.design_geometry import trace_design
from ...cases.judging.cloth.fold_record import measure_fold
from ...cases.written_sizes import list_sizes
from .cloth_view import draw_channel, draw_cutting, draw_rests, draw_stitches, draw_strip
from .end_view import draw_bar, draw_cord_end, draw_extension, draw_loop, draw_plate
from .flat_view import draw_flat
from .hang_view import draw_hang, draw_tree
from .measured_view import MeasuredView

_HANG = "As estimated before solving: under a person the lines are steeper or flatter by some degrees."
_BAR = "Thickness, bend and the cord beside the axis are enlarged; lengths are to scale."
_CHANNEL = "Layers are drawn apart and thick; widths lie flat, before the cord fills the fold."
_PLATE = "Where the holes lie on the plate is yours; their sizes and distances from the edge are to scale."


def list_views(design: Design) -> Iterator[MeasuredView]:
    """Yield the views of a design that show at least one size of its file, the whole first.

    Parameters
    ----------
    design : Design
        It need not be solved.
    """
    yield from (view for view in _compose(design) if view.spans)


def _compose(design: Design) -> Iterator[MeasuredView]:
    """Yield every view, also those without a size."""
    sizes, geometry = list_sizes(design), trace_design(design)
    flat = MeasuredView("flat", "The flat body from above", sizes)
    draw_flat(flat, design, geometry)
    hang = MeasuredView("hang", "The hang, from the right side", sizes, _HANG)
    draw_hang(hang, design, geometry)
    yield from (flat, hang)
    yield from _compose_trees(design, flat)
    for end in ("head", "foot"):
        bar = MeasuredView(f"{end}_bar", f"The {end} bar", sizes, _BAR)
        draw_bar(bar, design, end)
        yield bar
        beyond = MeasuredView(f"{end}_extension", f"The cloth beyond the {end} bar, from above", sizes)
        if getattr(design.hammock, f"{end}_bar").set_in > 0.0:
            draw_extension(beyond, design, end)
        yield beyond
    yield from _compose_details(design, flat)


def _compose_trees(design: Design, flat: MeasuredView) -> Iterator[MeasuredView]:
    """Yield a tree from above, both where their keys differ."""
    trees = [MeasuredView(f"{end}_tree", f"The {end} tree from above", flat.sizes) for end in ("head", "foot")]
    for tree, end in zip(trees, ("head", "foot"), strict=True):
        draw_tree(tree, design, end)
    if trees[0].keys == trees[1].keys:
        yield replace(trees[0], name="tree", title="A tree from above")
    else:
        yield from trees


def _compose_details(design: Design, flat: MeasuredView) -> Iterator[MeasuredView]:
    """Yield corner, channel, ends of cords, cutting and what the sleeper rests on."""
    sizes, posture = flat.sizes, design.person.posture
    if "corner.tip" in sizes:
        corner = MeasuredView("corner", "At a corner: eyes over the tip of the bar", sizes)
        draw_loop(corner, design)
        yield corner
    if "corner.tip_hole" in sizes:
        plate = MeasuredView("corner", "At a corner: the plate", sizes, _PLATE)
        draw_plate(plate)
        yield plate
    fold = measure_fold(design.hammock, design.workmanship)
    if fold is not None:
        channel = MeasuredView("channel", "The channel, cut across", sizes, _CHANNEL)
        draw_channel(channel, fold)
        yield channel
    strip = MeasuredView("strip", "The strip of a channel before it is folded", sizes)
    if "channel.fold.strip_inset" in sizes:
        draw_strip(strip)
    seams = MeasuredView("stitches", "Stitches, from above", sizes)
    draw_stitches(seams)
    yield from (strip, seams)
    for name, title in (
        ("eye", "An end that is spliced, tied or hitched"),
        ("sewn_loop", "An end that is a sewn loop"),
    ):
        cord = MeasuredView(name, title, sizes, "Not to scale.")
        draw_cord_end(cord, design, sewn=name == "sewn_loop")
        yield cord
    cutting = MeasuredView("cutting", "Cloth as it is cut", sizes, "Not to scale.")
    draw_cutting(cutting)
    rests = MeasuredView("rests", "What the sleeper rests on", sizes)
    draw_rests(rests, posture.pillow, posture.knee_pad)
    yield from (cutting, rests)
