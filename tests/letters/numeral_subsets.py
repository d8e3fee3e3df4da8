"""Makes the two typefaces of East Asian number words from the published files; run by hand, never by a test.

    python tests/letters/numeral_subsets.py JAPANESE.woff2 KOREAN.woff2 FOLDER

takes `noto-sans-jp-japanese-400-normal.woff2` and `noto-sans-kr-korean-400-normal.woff2` out of the npm
packages @fontsource/noto-sans-jp and @fontsource/noto-sans-kr, both 5.3.0, and needs the package
`brotli` beside fontTools. The outlines stay as they are; left out are the letters that no number word
needs. The full typefaces weigh megabytes.
"""

import sys
from pathlib import Path

KANJI = "零〇一二三四五六七八九十百千万" + "日本語" + "ー々、。・"
HIRAGANA = "".join(map(chr, range(0x3041, 0x3097)))
KATAKANA = "".join(map(chr, range(0x30A1, 0x30FB)))
JAPANESE = "".join(sorted({*KANJI, *HIRAGANA, *KATAKANA}))

SINO_KOREAN = "영공일이삼사오육륙칠팔구십백천만"
NATIVE_KOREAN = "하나둘셋넷다섯여섯일곱여덟아홉열한두세네스물스무서른마흔쉰예순일흔여든아흔"
KOREAN = "".join(sorted({*SINO_KOREAN, *NATIVE_KOREAN, *"한국어"}))

FACES = {"NotoSansJP-numerals": JAPANESE, "NotoSansKR-numerals": KOREAN}


def reduced(source: Path, characters: str, name: str, target: Path) -> None:
    """Writes the typeface with these characters only, under a family name of its own."""
    from fontTools import subset
    from fontTools.ttLib import TTFont

    options = subset.Options()
    options.layout_features = []
    options.hinting = False
    options.name_IDs = ["*"]
    options.notdef_outline = True
    options.drop_tables += ["STAT", "BASE", "GPOS", "GSUB", "vhea", "vmtx"]
    font = TTFont(source, recalcTimestamp=False)
    font.flavor = None
    subsetter = subset.Subsetter(options)
    subsetter.populate(unicodes=[ord(char) for char in characters])
    subsetter.subset(font)
    lacking = {ord(char) for char in characters} - set(font.getBestCmap())
    if lacking:
        raise SystemExit(f"{source} lacks {', '.join(f'U+{code:04X}' for code in sorted(lacking))}")
    # The published file is cut from a variable typeface and still calls itself Thin.
    family = name.replace("-", " ")
    for record in font["name"].names:
        said = {1: family, 2: "Regular", 3: name, 4: family, 6: name}.get(record.nameID)
        if said is not None:
            record.string = said
    font["name"].names = [record for record in font["name"].names if record.nameID not in (16, 17, 25, 257)]
    font.save(target)


if __name__ == "__main__":
    *sources, folder = map(Path, sys.argv[1:])
    for source, (name, characters) in zip(sources, FACES.items(), strict=True):
        reduced(source, characters, name, folder / f"{name}.ttf")
