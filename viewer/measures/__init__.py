"""A design with its measures: views in which every length and angle of its file is shown under its key."""

from .measures_file import draw_measures

__all__ = ["draw_measures"]
