"""Months, weekdays and regions: names and first weekdays as CLDR has them, by Babel's copy of its data."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from typing import Any

from printkit import letters
from printkit.checks import OneOf, Wrong, found

_REGIONS = (
    "AD AE AF AG AI AL AM AO AQ AR AS AT AU AW AX AZ BA BB BD BE BF BG BH BI BJ BL BM BN BO BQ BR BS BT "
    "BV BW BY BZ CA CC CD CF CG CH CI CK CL CM CN CO CR CU CV CW CX CY CZ DE DJ DK DM DO DZ EC EE EG EH "
    "ER ES ET FI FJ FK FM FO FR GA GB GD GE GF GG GH GI GL GM GN GP GQ GR GS GT GU GW GY HK HM HN HR HT "
    "HU ID IE IL IM IN IO IQ IR IS IT JE JM JO JP KE KG KH KI KM KN KP KR KW KY KZ LA LB LC LI LK LR LS "
    "LT LU LV LY MA MC MD ME MF MG MH MK ML MM MN MO MP MQ MR MS MT MU MV MW MX MY MZ NA NC NE NF NG NI "
    "NL NO NP NR NU NZ OM PA PE PF PG PH PK PL PM PN PR PS PT PW PY QA RE RO RS RU RW SA SB SC SD SE SG "
    "SH SI SJ SK SL SM SN SO SR SS ST SV SX SY SZ TC TD TF TG TH TJ TK TL TM TN TO TR TT TV TW TZ UA UG "
    "UM US UY UZ VA VC VE VG VI VN VU WF WS YE YT ZA ZM ZW"
)
REGIONS = tuple(_REGIONS.split())
"""The regions of ISO 3166-1, two letters each."""

MONTHS = range(1, 13)
WEEKDAYS = range(1, 8)
"""ISO 8601: 1 is Monday, 7 is Sunday."""


@dataclass(frozen=True, slots=True)
class Region(OneOf):
    """A region of ISO 3166-1, in whatever case it is written."""

    words: tuple[str, ...] = REGIONS
    also: tuple[tuple[str, str], ...] = (("UK", "GB"),)

    def read(self, value: Any) -> Any:
        word = value.strip().upper() if isinstance(value, str) else value
        read = OneOf.read(self, word)
        if isinstance(read, Wrong):
            return Wrong(found=found(value), allowed=self.allowed())
        return read

    def allowed(self) -> str:
        return "a region in two letters, such as GB, MX or US"


@dataclass(frozen=True, kw_only=True, slots=True)
class Names:
    """The names of months (1 to 12) and weekdays (ISO, 1 to 7) in one language, as they stand alone."""

    tag: str
    months: tuple[str, ...]
    weekdays: tuple[str, ...]

    def month(self, number: int) -> str:
        return self.months[number - 1]

    def weekday(self, number: int) -> str:
        return self.weekdays[number - 1]


@cache
def names_in(tag: str) -> Names | None:
    """The names in a language (BCP 47 tag); None if CLDR has none or no typeface draws them."""
    data = _data(tag)
    if data is None:
        return None
    months, days = _alone(data["months"]), _alone(data["days"])
    names = Names(
        tag=tag,
        months=tuple(months[n] for n in MONTHS),
        weekdays=tuple(days[n - 1] for n in WEEKDAYS),
    )
    return None if letters.missing("".join((*names.months, *names.weekdays))) else names


def _data(tag: str) -> Mapping[str, Any] | None:
    from babel import Locale, UnknownLocaleError, localedata

    try:
        return localedata.load(str(Locale.parse(tag, sep="-")))
    except (UnknownLocaleError, ValueError):
        return None


def _alone(table: Mapping[str, Any]) -> Mapping[int, str]:
    """The wide names that stand alone; those of a date where a language makes no difference.

    The data are read without Babel's own look-up: it writes what one language's alias leads to into
    the data that all languages share, so that the months of the first language read would be those of
    the next ones too (Babel 2.18).
    """
    usual = dict(table["format"]["wide"])
    alone = table["stand-alone"]["wide"]
    if isinstance(alone, tuple):  # an alias, and what differs from it
        return usual | dict(alone[1])
    return dict(alone) if type(alone) is dict else usual


def _region(tag: str) -> str:
    """The region that a tag names, '' if none."""
    return next((part.upper() for part in tag.replace("_", "-").split("-")[1:] if len(part) == 2), "")


def names_a_region(tag: str) -> bool:
    """Whether a language tag says of which region it is: pt-BR does, en does not."""
    return bool(_region(tag))


def region_of(tag: str) -> str:
    """The region of a language tag, or the likeliest one of the language (CLDR, likely subtags)."""
    from babel import Locale, UnknownLocaleError
    from babel.core import get_global

    if own := _region(tag):
        return own
    parts = tag.replace("_", "-").split("-")
    likely = get_global("likely_subtags")
    found_tag = likely.get("_".join(parts)) or likely.get(parts[0]) or ""
    try:
        return Locale.parse(found_tag).territory or ""
    except (UnknownLocaleError, ValueError):
        return found_tag.rpartition("_")[2]


@cache
def first_weekday(region: str) -> int:
    """The ISO weekday on which a week begins in a region (CLDR, week data); Monday if it is unknown.

    Locales of Portuguese are asked last: in Babel's data those of Africa have the week of Portugal.
    """
    from babel import localedata

    locales = [name for name in localedata.locale_identifiers() if name.endswith(f"_{region}")]
    asked = min(locales, key=lambda name: (name.startswith("pt_"), name), default="root")
    return int(localedata.load(asked)["week_data"]["first_day"]) + 1


# --- the calendar ----------------------------------------------------------------------------


def month_length(year: int, month: int) -> int:
    """The days of a month of the Gregorian calendar."""
    following = date(year + month // 12, month % 12 + 1, 1)
    return (following - date(year, month, 1)).days


def starts_on(year: int, month: int) -> int:
    """The ISO weekday of the first of a month."""
    return date(year, month, 1).isoweekday()


def weekdays_from(first: int) -> tuple[int, ...]:
    """The seven ISO weekdays in the order of a week that begins on `first`."""
    return tuple((first - 1 + i) % 7 + 1 for i in range(7))


def rows_of(year: int, month: int, first: int) -> int:
    """How many rows of seven a month takes where weeks begin on the ISO weekday `first`."""
    return -(-(lead(year, month, first) + month_length(year, month)) // 7)


def lead(year: int, month: int, first: int) -> int:
    """How many places stay empty before the first of a month."""
    return (starts_on(year, month) - first) % 7
