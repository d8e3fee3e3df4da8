"""The pack file of the next season: the old one with what the proposals change, layout and remarks kept."""

from printkit.season.season import Basis, Season, next_season, write_season

__all__ = ["Basis", "Season", "next_season", "write_season"]
