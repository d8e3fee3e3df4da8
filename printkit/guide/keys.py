"""The answers of a set as short lines, worked out from its facts by its material."""

from typing import Any

from printkit.guide.lines import say
from printkit.guide.sets import GuideSet, unprinted_control
from printkit.materials.guidance import Key
from printkit.texts import Catalogue


def needs_key(item: GuideSet) -> bool:
    """Whether the guide tells the answers: always where looking is the task, else if no back does."""
    return item.material.guidance.keyed or unprinted_control(item)


def key_of(item: GuideSet, texts: Catalogue) -> Key:
    """The answers of a set, one short line each, in the order of its pieces (their 'n of N')."""
    theme = item.tray.child.theme

    def told(key: str, *, motif: str = "", **values: Any) -> str:
        named = {"name": theme.motif(motif).name(texts.language)} if motif else {}
        return say(texts, key, **named, **values)

    return item.material.guidance.key(item.own, told)


def key_note(item: GuideSet, texts: Catalogue) -> str:
    """How the answers of a set are to be read; '' if that is plain."""
    key = f"guide.keys.{item.tray.material}.note"
    return say(texts, key) if texts.has(key) else ""
