"""What may be changed to fulfil a wish, key of ``[suspension]`` and words: the one that is tried first comes first."""

VARIED = {
    "foot_strap_height": "foot strap height",
    "head_strap_height": "head strap height",
    "line_length": "length of each line",
}
