"""Pack files: TOML -> a checked `Pack`. Knows no material; their settings come in as an argument."""

from printkit.pack.model import Child, ChildTrays, Flips, MaterialKeys, Pack, Tray
from printkit.pack.reader import read_pack

__all__ = ["Child", "ChildTrays", "Flips", "MaterialKeys", "Pack", "Tray", "read_pack"]
