"""Lengths that may change to meet a target, key of ``[suspension]`` and words; the first is the default."""

VARIED = {
    "foot_strap_height": "foot strap height",
    "head_strap_height": "head strap height",
    "line_length": "line length",
}
