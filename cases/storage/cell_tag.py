"""Tags of the cells of a shape."""

from enum import IntEnum

from ...hammock.part import title_part


class CellTag(IntEnum):
    """What a cell belongs to; the number stands in the field ``part`` of the file."""

    CLOTH = 0
    LEFT_SIDE_CORD = 1
    RIGHT_SIDE_CORD = 2
    HEAD_LEFT_LEG = 3
    HEAD_RIGHT_LEG = 4
    FOOT_LEFT_LEG = 5
    FOOT_RIGHT_LEG = 6
    HEAD_LINE = 7
    FOOT_LINE = 8
    HEAD_BAR = 9
    FOOT_BAR = 10
    HEAD_EXTENSION = 11
    FOOT_EXTENSION = 12
    HEAD = 13
    NECK = 14
    SHOULDERS = 15
    CHEST = 16
    WAIST = 17
    HIPS = 18
    LEFT_RIB = 19
    LEFT_FLANK = 20
    LEFT_LOIN = 21
    LEFT_THIGH = 22
    LEFT_SHANK = 23
    LEFT_UPPER_ARM = 24
    LEFT_FOREARM = 25
    LEFT_KNEE_PAD = 26
    RIGHT_RIB = 27
    RIGHT_FLANK = 28
    RIGHT_LOIN = 29
    RIGHT_THIGH = 30
    RIGHT_SHANK = 31
    RIGHT_UPPER_ARM = 32
    RIGHT_FOREARM = 33
    RIGHT_KNEE_PAD = 34
    SHOULDER_BLADES = 35
    PILLOW = 36
    LEFT_CALF = 37
    RIGHT_CALF = 38

    @property
    def element(self) -> str:
        """The name of the part's element in the model."""
        return self.name.lower().replace("_", " ")

    @property
    def title(self) -> str:
        """The part's name as it is shown, side first."""
        return title_part(self.element)


SIDE_CORDS = (CellTag.LEFT_SIDE_CORD, CellTag.RIGHT_SIDE_CORD)
LINES = (CellTag.HEAD_LINE, CellTag.FOOT_LINE)
BARS = (CellTag.HEAD_BAR, CellTag.FOOT_BAR)
EXTENSIONS = (CellTag.HEAD_EXTENSION, CellTag.FOOT_EXTENSION)  # triangles of the cloth beyond a bar
FLESH = tuple(part for part in CellTag if part >= CellTag.HEAD)  # capsules of a person in contact
