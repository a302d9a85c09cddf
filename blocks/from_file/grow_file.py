"""`[grow]` of a garment file, and the garment with room to grow; what that takes is loaded where it is asked for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from blocks.garment import Garment
from drafting.reading.read_table import Reader

if TYPE_CHECKING:
    from blocks.room_for_growth import Grow

__all__ = ["grow_asked", "grown"]


def grow_asked(reader: Reader, followed: Grow | None) -> Grow | None:
    """Until when it is to fit a child that grows, as this file says or the one that it follows; None for neither."""
    if "grow" not in reader:
        return followed
    from blocks.room_for_growth import read_grow

    return read_grow(reader.table("grow"))


def grown(garment: Garment, grow: Grow | None) -> Garment:
    """The garment with the cloth that is left in it for growth. Raises as `with_room_to_grow` does."""
    if grow is None:
        return garment
    from blocks.room_for_growth import with_room_to_grow

    return with_room_to_grow(garment, grow)
