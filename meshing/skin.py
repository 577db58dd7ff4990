"""What a person's skin turns with: a capsule's two ends cannot say how it is turned about its axis."""

# What the skin of a capsule turns with: the nodes at two levels, both sides, and one in front.
_SKIN = {
    **dict.fromkeys(("head", "neck", "pillow"), ("shoulder", "", "breast")),  # with head and neck themselves
    **dict.fromkeys(("shoulders", "shoulder blades", "chest", "rib"), ("shoulder", "chest", "breast")),
    "flank": ("chest", "waist", "breast"),
    **dict.fromkeys(("waist", "loin", "hips"), ("waist", "hip", "belly")),
    **dict.fromkeys(("thigh", "knee pad"), ("hip", "knee", "belly")),
    **dict.fromkeys(("calf", "shank"), ("knee", "ankle", "belly")),
    "upper arm": ("shoulder", "elbow", "breast"),
    "forearm": ("elbow", "hand", "breast"),
}


def list_carriers(flesh: str) -> tuple[str, ...]:
    """Return the five nodes of a person's frame with which the skin of a capsule moves and turns.

    Parameters
    ----------
    flesh : str
        Name of the capsule.

    Examples
    --------
    >>> list_carriers("left thigh")
    ('left hip', 'right hip', 'left knee', 'right knee', 'belly')
    """
    upper, lower, front = _SKIN[flesh.removeprefix("left ").removeprefix("right ")]
    ends = (f"left {lower}", f"right {lower}") if lower else ("neck", "head")
    return (f"left {upper}", f"right {upper}", *ends, front)
