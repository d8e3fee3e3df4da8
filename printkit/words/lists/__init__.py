"""Our own lists of number words, tag -> number -> word: put together by rule from the words that differ.

They are for languages that the spelling library lacks, or whose usual way to count it lacks. CLDR 48
has a list for each of them to check against.
"""

from collections.abc import Mapping

from printkit.words.lists import elsewhere, europe, series, slavic

LISTS: Mapping[str, Mapping[int, str]] = slavic.LISTS | europe.LISTS | elsewhere.LISTS | series.LISTS
