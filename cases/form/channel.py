"""``[channel]``: the side channels and their cord."""

from typing import Annotated

from pydantic import Field

from ...hammock.hammock import Attachment
from ...materials import Cord
from .body import BodyLength
from .fields import ChoiceField, find_material
from .fold import FoldTable, LockTable
from .toml_table import TomlTable, UpToMetre


class ChannelTable(TomlTable):
    """``[channel]``."""

    cord: Annotated[Cord, find_material(Cord)] = Field(
        description="name of the side cord in the library", examples=['"12-strand UHMWPE 2 mm"']
    )
    attachment: Annotated[Attachment, ChoiceField(Attachment)] = Field(
        description="way the cloth is attached to the cord: sewn, free or locked", examples=['"sewn"']
    )
    lock_length: UpToMetre | None = None
    cord_length: BodyLength | None = None
    fold: FoldTable | None = None
    lock: LockTable | None = None
