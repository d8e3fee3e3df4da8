"""Pack files: TOML -> a checked `Pack`. Knows no material; their settings come in as an argument."""

from printkit.pack.model import Child, ChildTrays, Flips, MaterialKeys, Pack, Source, Tray, User

__all__ = ["Child", "ChildTrays", "Flips", "MaterialKeys", "Pack", "Source", "Tray", "User"]
