"""How each kind of line and of words looks, for files of SVG and for pictures."""

from typing import NamedTuple

INK = ""  # the colour of the words around a drawing, dark on light or light on dark
PAPER, LIGHT_INK = ("#ffffff", "#14191a"), ("#1d2423", "#e7eceb")  # each on light and on dark


class LineStyle(NamedTuple):
    """A line: colour, width, colour of the area inside, how much that covers, dashes, and how much the line covers."""

    colour: str = INK
    width: float = 1.0
    inside: str = "none"
    cover: float = 1.0
    dashes: tuple[float, ...] = ()
    strength: float = 1.0


class TextStyle(NamedTuple):
    """Words: size, weight, slant and which part of them stands at their spot."""

    size: float = 11.0
    weight: str = "normal"
    slant: str = "normal"
    anchor: str = "start"


KIND_STYLES = {
    "cloth": LineStyle(inside="#3f86b5", cover=0.2),
    "tree": LineStyle("#8a6f4d", inside="#8a6f4d", cover=0.35),
    "bar": LineStyle("#b25a24", inside="#b25a24", cover=0.3),
    "plate": LineStyle(inside="#8b9794", cover=0.3),
    "edge": LineStyle(),
    "rod": LineStyle("#b25a24", 4.0),
    "cord": LineStyle("#2f8f5b", 2.0),
    "strap": LineStyle("#2f8f5b", 3.0),
    "fold": LineStyle("#3f86b5", 2.0),
    "strip": LineStyle("#c9792b", 2.0),
    "seam": LineStyle("#c2407a", 3.0),
    "skin": LineStyle("#c08a5a", 9.0, strength=0.55),
    "thin": LineStyle(width=0.7, dashes=(4.0, 3.0)),
    "warp": LineStyle("#b25a24", 2.0, dashes=(8.0, 2.0)),
    "arrow": LineStyle(width=0.9),
    "leader": LineStyle(width=0.7, strength=0.7),
}
TEXT_STYLES = {
    "title": TextStyle(12.5, "bold"),
    "word": TextStyle(slant="italic", anchor="middle"),
    "number": TextStyle(10.0, "bold", anchor="middle"),
    "key": TextStyle(),
    "value": TextStyle(weight="bold", anchor="end"),
    "note": TextStyle(slant="italic"),
}


def write_style() -> str:
    """Return the style sheet of a drawing; its ink is that of what is around it."""
    rules = [
        ".measures{width:100%;max-width:30rem;height:auto;display:block}",
        ".measures text{fill:currentColor;font-family:system-ui,sans-serif}",
        ".measures .ring{fill:var(--paper,var(--color-background-primary,#fff));stroke:currentColor}",
        ".measures path{stroke-linejoin:round;stroke-linecap:round}",
    ]
    for kind, line in KIND_STYLES.items():
        dashes = f";stroke-dasharray:{' '.join(f'{each:g}' for each in line.dashes)}" if line.dashes else ""
        rules.append(
            f".measures .{kind}{{stroke:{line.colour or 'currentColor'};stroke-width:{line.width:g};fill:{line.inside};"
            f"fill-opacity:{line.cover:g};stroke-opacity:{line.strength:g}{dashes}}}"
        )
    for kind, text in TEXT_STYLES.items():
        rules.append(
            f".measures .{kind}{{font-size:{text.size:g}px;font-weight:{text.weight};font-style:{text.slant};"
            f"text-anchor:{text.anchor}}}"
        )
    return "".join(rules)


def write_alone_style() -> str:
    """Return the style sheet of a file of its own, which follows the device and is printed dark on white."""
    looks = [
        f".alone{{color:{ink};--paper:{paper};max-width:none}}" for ink, paper in zip(LIGHT_INK, PAPER, strict=True)
    ]
    return (
        f"{write_style()}.alone .sheet{{fill:var(--paper)}}{looks[0]}"
        f"@media (prefers-color-scheme:dark){{{looks[1]}}}@media print{{{looks[0]}}}"
    )
