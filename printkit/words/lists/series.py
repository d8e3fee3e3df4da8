"""Languages with two ways to count: Japanese in kana or kanji, Korean in native or Chinese words."""

from printkit.words.build import hundred


def _by_tens(zero: str, units: str, ten: str, hundred_word: str) -> dict[int, str]:
    """Eleven is ten-one, twenty is two-ten, twenty-one is two-ten-one."""
    words = units.split(", ")
    return hundred(
        ", ".join((zero, *words)),
        ", ".join((ten, *(ten + word for word in words))),
        ", ".join(word + ten for word in words[1:]),
        hundred_word,
        "{ten}{unit}",
    )


# In kana, as small children read it. 4 is also し, 7 しち, 9 く, 0 also ゼロ.
JAPANESE_KANA = _by_tens("れい", "いち, に, さん, よん, ご, ろく, なな, はち, きゅう", "じゅう", "ひゃく")
# 0 is also 〇, as CLDR 48 has it.
JAPANESE_KANJI = _by_tens("零", "一, 二, 三, 四, 五, 六, 七, 八, 九", "十", "百")

# For counting things; there is no native word for 0 and 100. Eleven to nineteen are written as one
# word (from memory: dictionaries, and Hangul orthography, article 44); CLDR 48 has a space there.
_NATIVE = "하나, 둘, 셋, 넷, 다섯, 여섯, 일곱, 여덟, 아홉"
KOREAN_NATIVE = hundred(
    f"영, {_NATIVE}",
    "열, " + ", ".join(f"열{unit}" for unit in _NATIVE.split(", ")),
    "스물, 서른, 마흔, 쉰, 예순, 일흔, 여든, 아흔",
    "백",
    "{ten}{unit}",
)
# For reading numerals and for sums. 0 is 영 in number work, 공 for digits read aloud.
KOREAN_SINO = _by_tens("영", "일, 이, 삼, 사, 오, 육, 칠, 팔, 구", "십", "백")

LISTS = {"ja": JAPANESE_KANA, "ko": KOREAN_NATIVE}
