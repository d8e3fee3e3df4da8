"""What paths tell the guide and the labels."""

from collections.abc import Sequence

from printkit.materials.guidance import Guidance, Holding, Say, when
from printkit.pack import Tray
from printkit.pieces import Piece

_NARROW = 7.0
"""mm of ways below which a set proposes no narrower ones."""


def _about(tray: Tray, say: Say) -> str:
    """'lines, waves and corners to follow'."""
    kinds = [say(f"label.ways.{kind}") for kind in tray.settings.kinds]
    return say(f"label.ways.{tray.settings.form}", kinds=tuple(kinds))


def _holding(tray: Tray, pieces: Sequence[Piece]) -> Holding:
    form, left = tray.settings.form, tray.child.hand == "left"
    snip = form == "snip"
    kinds, width = tray.settings.kinds, tray.settings.width
    only = {"snip-lines": kinds == ("lines",), "snip-ways": "lines" not in kinds}
    narrow = width is not None and width < _NARROW
    return Holding(
        variants=(
            *when(**{f"narrow-{form}": narrow, **{name: snip and holds for name, holds in only.items()}}),
            *when(pencil=not snip and tray.stock != "card"),
            form,
        ),
        notes=when(
            scissors=snip, **{"snip-left": snip and left, "left": left and not snip},
            wiped=not snip and tray.stock == "card",
        ),
    )  # fmt: skip


GUIDANCE = Guidance(about=_about, holding=_holding)
