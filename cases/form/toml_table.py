"""Base of all tables of a design file."""

from collections.abc import Mapping
from typing import Annotated, ClassVar

from pydantic import BaseModel, ConfigDict

from .fields import QuantityField

UpToMetre = Annotated[float, QuantityField("length", low=0.0, high=1.0)]


class TomlTable(BaseModel):
    """A table of the file: no unknown keys, nothing guessed.

    A form of a whole file states in ``strangers`` which table belongs to another kind of file, and what to do then.
    """

    strangers: ClassVar[Mapping[str, str]] = {}

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, arbitrary_types_allowed=True)
