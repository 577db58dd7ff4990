"""Edges of the cloth: the channel cut across, its seam, and the pieces as they are cut."""

import numpy as np

from ...cases.judging.cloth.fold_record import FoldRecord
from .measured_view import MeasuredView

_RUN = 0.03  # m of each row of stitches
_SEAMS = {
    "channel.fold.stitch_length": "rows of the channel",
    "channel.lock.stitch_length": "through the cord",
    "body.hem.stitch_length": "hem",
}


def draw_channel(view: MeasuredView, fold: FoldRecord) -> None:
    """Draw a channel cut across, below it the strip before it is folded, and a row of stitches from above."""
    width, room = fold.finished_width, fold.stitching_width
    for layer in fold.layers:
        view.draw(np.array(layer.path), "fold" if layer.cloth == "body" else "strip")
    view.draw_round((fold.cord_centre, 0.0), fold.cord_diameter / 2, "bar")
    top = max(abs(spot[1]) for layer in fold.layers for spot in layer.path) + 0.25 * width
    for row in fold.rows:
        view.draw([(row, -top), (row, top)], "thin")
    view.measure((0.0, -top), (width, -top), "channel.fold.finished_width")
    view.measure((width - room, top), (width, top), "channel.fold.stitching_width")


def draw_strip(view: MeasuredView) -> None:
    """Draw the edge of the body and the strip that is sewn below it, both lying flat."""
    inset, strip = (view.sizes[f"channel.fold.strip_{name}"].value for name in ("inset", "width"))
    low = -0.06 * strip
    view.draw([(0.0, 0.0), (1.6 * inset, 0.0)], "fold")
    view.draw([(inset, low), (inset - strip, low)], "strip")
    view.draw([(inset, -3 * low), (inset, 3 * low)], "thin")
    view.say((1.4 * inset, -2.5 * low), "body")
    view.say((inset - 0.8 * strip, -1.5 * low), "strip")
    view.measure((0.0, -3 * low), (inset, -3 * low), "channel.fold.strip_inset")
    view.measure((inset - strip, 3.5 * low), (inset, 3.5 * low), "channel.fold.strip_width")


def draw_stitches(view: MeasuredView) -> None:
    """Draw a row of stitches for each seam, all in one scale."""
    at = 0.0
    for key, words in _SEAMS.items():
        if key not in view.sizes:
            continue
        length = view.sizes[key].value
        for stitch in range(int(_RUN / length)):
            view.draw([(stitch * length, at), ((stitch + 0.7) * length, at)], "seam")
        view.say((_RUN / 2, at - 0.0025), words)
        view.measure((length, at + 0.0025), (2 * length, at + 0.0025), key)
        at -= 0.009


def draw_cutting(view: MeasuredView) -> None:
    """Draw an end of the body as it lies on the bolt, its hem turned in, and where two panels join."""
    view.draw_box((0.0, 0.0), (5.0, 3.0), "cloth")
    view.draw([(0.6, 0.0), (0.6, 3.0)], "edge")
    view.say((2.6, 2.4), "one panel of the body")
    view.draw([(0.6, 0.35), (5.0, 0.35)], "edge")
    for notch in (1.6, 3.4):
        view.draw([(notch - 0.07, 0.0), (notch, 0.15), (notch + 0.07, 0.0)], "edge")
    view.measure((0.0, 3.25), (0.6, 3.25), "body.hem.allowance")
    view.measure((4.4, 0.0), (4.4, 0.35), "cutting.allowance")
    view.measure((1.6, -0.3), (3.4, -0.3), "cutting.notch_spacing")
    view.measure((5.3, 0.0), (5.3, 3.0), "cutting.cloth_width")


def draw_rests(view: MeasuredView, pillow: float, pad: float) -> None:
    """Draw a person from the side, head on the left, on pillow and knee pad."""
    ground = 0.0
    view.draw([(-0.15, ground), (1.75, ground)], "edge")
    view.draw_box((-0.1, ground), (0.25, ground + pillow), "plate")
    view.draw_box((1.05, ground), (1.35, ground + pad), "plate")
    view.draw_round((0.1, pillow + 0.1), 0.1, "tree")
    view.draw([(0.22, pillow + 0.06), (0.35, 0.11), (0.8, 0.1), (1.2, pad + 0.06), (1.6, 0.06)], "skin")
    for who in ("person", "person.1"):
        view.measure((-0.1, ground), (-0.1, pillow), f"{who}.pillow")
        view.measure((1.2, ground), (1.2, pad), f"{who}.knee_pad")
