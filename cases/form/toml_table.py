"""Base of all tables of a design file."""

from typing import Annotated

from pydantic import BaseModel, ConfigDict

from .fields import QuantityField

UpToMetre = Annotated[float, QuantityField("length", low=0.0, high=1.0)]


class TomlTable(BaseModel):
    """A table of the file: no unknown keys, nothing guessed."""

    model_config = ConfigDict(strict=True, extra="forbid", frozen=True, arbitrary_types_allowed=True)
