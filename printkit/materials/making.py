"""Small helps for materials: a piece of a tray, a set of named sizes that fit."""

from collections.abc import Mapping
from typing import Any

from printkit.materials.base import Room
from printkit.materials.layout import fits_sheet, sizes_for
from printkit.pack import Tray
from printkit.pieces import Face, Piece


def piece_of(
    tray: Tray,
    size: tuple[float, float],
    key: str,
    front: Face,
    facts: Any,
    *,
    back: Face | None = None,
    **more: Any,
) -> Piece:
    """A piece of this tray, `size` mm wide and high; `more` are further fields of a piece."""
    return Piece(
        child=tray.child.name,
        set=tray.set,
        material=tray.material,
        key=key,
        width=size[0],
        height=size[1],
        front=front,
        back=back,
        facts=facts,
        stock=tray.stock,
        **more,
    )


def fitting_sizes(
    tray: Tray, room: Room, named: Mapping[str, tuple[float, float]]
) -> tuple[tuple[float, float], ...]:
    """The sizes a card of this tray may have that fit a sheet, smallest first; () if none does."""
    return tuple(size for size in sizes_for(tray, room, named) if fits_sheet(size, room))
