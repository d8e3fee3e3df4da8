"""Pages -> the bytes of a PDF. The only user of the PDF library; no clock, no random names.

Everything on a page is written as literal operators: a drawing becomes one form object that is
placed with a single matrix; a run of text is encoded once and shown wherever it stands. Numbers
are points with two decimals (3.5 micrometres), y up.
"""

import hashlib
import math
import zlib
from collections.abc import Iterable
from dataclasses import dataclass, field
from typing import Any

from printkit.forms import Form, color_operator, form_of, paint_operator, short
from printkit.pieces import Box, Color, Dot, Drawing, Hollow, Line, Mark, Picture, Run, Text, Traced
from printkit.resources import resource
from printkit.sheets.model import Page
from printkit.units import POINTS_PER_MM as K

CUT_COLOR: Color = (0.6,)
CUT_LINE = 0.15
CUT_DASH = (1.0, 1.2)
_UNSEEN = frozenset("\u00ad\u200b\u200c\u200d\u200e\u200f\u2060\ufeff")
_ARC = 0.5522847498
_MAKER = "printkit"


@dataclass(frozen=True, kw_only=True, slots=True)
class Written:
    """A PDF, and the sha256 of its objects before compression (the same on every platform)."""

    data: bytes
    content: str


def write(
    pages: Iterable[Page], *, title: str, language: str, duplex: str = "none", label: str = ""
) -> Written:
    """The PDF of `pages`; `duplex` ('long', 'short', 'none') is asked of the printer.

    The file asks viewers not to scale (ISO 32000-1, table 150), shows its title, names its language,
    embeds its fonts. With a `label` viewers call the pages '<label> 1', '<label> 2', ... (12.4.2).
    """
    from reportlab.pdfbase import pdfdoc

    document = _Document(pdfdoc, language)
    for page in pages:
        document.add_page(page)
    return document.finish(title, duplex, label)


@dataclass(slots=True)
class _FontUse:
    """The glyphs of one face that a document uses: glyph id -> its place in the subset.

    `texts` is what a glyph stands for, `hints` what it stood for beside others that told it together.
    """

    name: str
    places: dict[int, int] = field(default_factory=dict)
    texts: dict[int, str] = field(default_factory=dict)
    hints: dict[int, str] = field(default_factory=dict)
    advances: dict[int, float] = field(default_factory=dict)


class _Document:
    """Collects pages, forms and fonts of one file."""

    def __init__(self, pdfdoc: Any, language: str):
        self.lib = pdfdoc
        self.doc = pdfdoc.PDFDocument(invariant=1, lang=language, pdfVersion=(1, 7))
        self.forms: dict[int, str] = {}
        self.forms_by_value: dict[Drawing, str] = {}
        self.kept: list[Drawing] = []
        self.fonts: dict[str, _FontUse] = {}
        self.encoded: dict[int, tuple[Run, str]] = {}
        self.states: dict[tuple[float, float], str] = {}
        self.xobjects: dict[str, Any] = {}
        self.resources = self.doc.Reference(pdfdoc.PDFDictionary({}), "resources")
        self.bookmarks: list[tuple[int, str, int, float]] = []
        self.count = 0

    # --- pages ---

    def add_page(self, page: Page) -> None:
        width, height = page.width * K, page.height * K
        out: list[str] = []
        for cut in page.cuts:
            _cut_line(
                out,
                max(cut.x1, page.margin),
                max(cut.y1, page.margin),
                min(cut.x2, page.width - page.margin),
                min(cut.y2, page.height - page.margin),
                height,
            )
        self.draw(out, page.marks, 0.0, height)
        for placed in page.placed:
            box = placed.box
            if placed.turn == 0:
                self.draw(out, placed.marks, box.left * K, height - box.top * K)
            else:
                out.append(f"q {_turned(placed.turn, box, height)} cm")
                self.draw(out, placed.marks, 0.0, 0.0)
                out.append("Q")
        stream = self.stream("\n".join(out), {}, f"content{self.count}")
        sheet = self.lib.PDFPage()
        sheet.Override_default_compilation = 1
        # The page is the paper: nothing is cropped, nothing bleeds over its edge (14.11.2).
        paper = self.numbers(0, 0, width, height)
        sheet.MediaBox = sheet.CropBox = sheet.BleedBox = sheet.TrimBox = paper
        sheet.Parent = self.doc.Reference(self.doc.Pages)
        sheet.Contents = stream
        sheet.Resources = self.resources
        for bookmark in page.bookmarks:
            self.bookmarks.append((bookmark.level, bookmark.title, self.count, height))
        self.doc.addPage(sheet)
        self.count += 1

    def draw(self, out: list[str], marks: Iterable[Mark], left: float, top: float) -> None:
        """Appends the operators of `marks` of a face whose top left corner is (left, top) in points."""
        for mark in marks:
            kind = type(mark)
            if kind is Picture:
                self.picture(out, mark, left, top)
            elif kind is Text:
                out.append(
                    f"{color_operator(mark.color, 'rg', 'g')} BT {self.text(mark.run)} "
                    f"{left + mark.x * K:.2f} {top - mark.y * K:.2f} Td {self.shown(mark.run)} ET"
                )
            elif kind is Traced:
                self.traced(out, mark, left, top)
            elif kind is Hollow:
                out.append(self.hollow(mark, left, top))
            elif kind is Line:
                out.append(_line(mark, left, top))
            elif kind is Box:
                out.append(_box(mark, left, top))
            elif kind is Dot:
                out.append(_dot(mark, left, top))
            else:
                raise TypeError(f"no way to draw {kind.__name__}")

    def traced(self, out: list[str], mark: Traced, left: float, top: float) -> None:
        """Each letter's form where it stands, and over them the word, unseen."""
        x, y = left + mark.x * K, top - mark.y * K
        for drawing, dx, dy in mark.letters:
            name = self.forms.get(id(drawing)) or self.form(drawing)
            out.append(
                f"q {K:.5f} 0 0 {K:.5f} {x + dx * K:.2f} {y - (dy + drawing.height) * K:.2f} cm /{name} Do Q"
            )
        out.append(f"q 3 Tr BT {self.text(mark.run)} {x:.2f} {y:.2f} Td {self.shown(mark.run)} ET Q")

    def hollow(self, mark: Hollow, left: float, top: float) -> str:
        """A line round the letters, then the letters in white, as their contours overlap inside."""
        shown = (
            f"{self.text(mark.run)} {left + mark.x * K:.2f} {top - mark.y * K:.2f} Td {self.shown(mark.run)}"
        )
        pen = f"{color_operator(mark.color, 'RG', 'G')} {2 * mark.width * K:.2f} w 1 j"
        return f"q {pen} 1 g BT 1 Tr {shown} ET BT 0 Tr {shown} ET Q"

    # --- pictures ---

    def picture(self, out: list[str], mark: Picture, left: float, top: float) -> None:
        drawing = mark.drawing
        name = self.forms.get(id(drawing)) or self.form(drawing)
        a, d = mark.width * K / drawing.width, mark.height * K / drawing.height
        x, y = left + mark.x * K, top - (mark.y + mark.height) * K
        if not mark.turn and not mark.mirror:
            out.append(f"q {a:.4f} 0 0 {d:.4f} {x:.2f} {y:.2f} cm /{name} Do Q")
            return
        # About the middle: mirror first, then turn clockwise.
        angle = math.radians(-mark.turn)
        cos, sin = math.cos(angle), math.sin(angle)
        flip = -1.0 if mark.mirror else 1.0
        half_w, half_h = drawing.width / 2, drawing.height / 2
        m = (flip * a * cos, flip * a * sin, -d * sin, d * cos)
        e = x + a * half_w - (m[0] * half_w + m[2] * half_h)
        f = y + d * half_h - (m[1] * half_w + m[3] * half_h)
        turned = " ".join(f"{value + 0.0:.5f}" for value in m)
        out.append(f"q {turned} {e:.2f} {f:.2f} cm /{name} Do Q")

    def form(self, drawing: Drawing) -> str:
        """The name of the drawing's form object, made at its first use."""
        name = self.forms_by_value.get(drawing)
        if name is None:
            name = f"D{len(self.forms_by_value)}"
            self.forms_by_value[drawing] = name
            self.xobjects[name] = (
                self.raster_form(drawing, name) if drawing.raster else self.shape_form(form_of(drawing), name)
            )
        self.forms[id(drawing)] = name
        self.kept.append(drawing)
        return name

    def shape_form(self, form: Form, name: str) -> Any:
        """The object of a form, after those of the groups and masks within it."""
        lib = self.lib
        inner = {inside: self.shape_form(each, name + inside) for inside, each in form.groups}
        states = {
            inside: lib.PDFObjectReference(self.state(*opacities)) for inside, opacities in form.opacities
        }
        for inside, each in form.masks:
            mask = {"S": "/Luminosity", "G": self.shape_form(each, name + inside)}
            states[inside] = lib.PDFDictionary({"Type": "/ExtGState", "SMask": lib.PDFDictionary(mask)})
        kinds = {
            "ExtGState": states,
            "XObject": inner,
            "Pattern": dict(form.patterns),
            "Shading": dict(form.shadings),
        }
        resources = {kind: lib.PDFDictionary(names) for kind, names in kinds.items() if names}
        entries = self.form_entries(form.width, form.height, resources)
        if form.upright:
            entries["Matrix"] = self.numbers(1, 0, 0, -1, 0, form.height)
        if form.kind:
            space = "/CS /DeviceGray " if form.kind == "mask" else ""
            entries["Group"] = f"<< /S /Transparency {space}>>"
        return self.stream(form.content, entries, name)

    def raster_form(self, drawing: Drawing, name: str) -> Any:
        raster = drawing.raster
        entries = {
            "Type": "/XObject",
            "Subtype": "/Image",
            "Width": raster.width_px,
            "Height": raster.height_px,
            "BitsPerComponent": 8,
        }
        picture = entries | {
            "ColorSpace": "/DeviceGray" if raster.channels == 1 else "/DeviceRGB",
            "Filter": f"/{raster.filter}",
        }
        if raster.mask is not None:
            mask = entries | {"ColorSpace": "/DeviceGray", "Filter": "/FlateDecode"}
            picture["SMask"] = self.encoded_stream(raster.mask, mask, f"{name}mask")
        image = self.encoded_stream(raster.data, picture, f"{name}image")
        out = f"{short(drawing.width)} 0 0 {short(drawing.height)} 0 0 cm /I Do"
        resources = {"XObject": self.lib.PDFDictionary({"I": image})}
        return self.stream(out, self.form_entries(drawing.width, drawing.height, resources), name)

    def form_entries(self, width: float, height: float, resources: dict[str, Any]) -> dict[str, Any]:
        return {
            "Type": "/XObject",
            "Subtype": "/Form",
            "BBox": self.numbers(0, 0, width, height),
            "Resources": self.lib.PDFDictionary(resources),
        }

    def state(self, fill: float, stroke: float) -> str:
        name = self.states.get((fill, stroke))
        if name is None:
            name = self.states[fill, stroke] = f"G{len(self.states)}"
            entries = {"Type": "/ExtGState", "ca": f"{fill:.3f}", "CA": f"{stroke:.3f}"}
            self.doc.Reference(self.lib.PDFDictionary(entries), name)
        return name

    # --- text ---

    def text(self, run: Run) -> str:
        return f"/{self.use(run.font).name} {run.size * K:.2f} Tf"

    def use(self, font: str) -> _FontUse:
        known = self.fonts.get(font)
        if known is None:
            known = self.fonts[font] = _FontUse(f"F{len(self.fonts)}")
        return known

    def shown(self, run: Run) -> str:
        """The operators that show a run: glyph places in hexadecimal, with the shaper's own distances."""
        known = self.encoded.get(id(run))
        if known is None:
            known = self.encoded[id(run)] = (run, self.encode(run))
        return known[1]

    def encode(self, run: Run) -> str:
        if not run.spans:
            return self.encode_glyphs(run.glyphs, run.font, run.size)[0]
        out: list[str] = []
        start, shift = 0, 0.0
        for span in run.spans:
            size = run.size * span.scale
            glyphs = [
                (glyph, advance / span.scale, dx / span.scale, dy / span.scale, text)
                for glyph, advance, dx, dy, text in run.glyphs[start : start + span.glyphs]
            ]
            start += span.glyphs
            out.append(f"/{self.use(span.font).name} {size * K:.2f} Tf")
            shown, left = self.encode_glyphs(glyphs, span.font, size, shift / span.scale, alone=not span.said)
            shift = left * span.scale
            out.append(_said(span.said, shown) if span.said else shown)
        return " ".join(out)

    def encode_glyphs(
        self,
        glyphs: Iterable[tuple[int, float, float, float, str]],
        font: str,
        size: float,
        shift: float = 0.0,
        *,
        alone: bool = True,
    ) -> tuple[str, float]:
        """The operators that show glyphs of one face, `shift` off the pen, and what is left to shift.

        Glyphs that do not tell their text alone only give a hint of it.
        """
        use = self.use(font)
        texts = use.texts if alone else use.hints
        widths = _face_advances(font)
        shows: list[str] = []
        parts: list[str] = []
        codes: list[str] = []
        rise = 0.0
        for glyph, advance, dx, dy, text in glyphs:
            # What the typeface lacks is white of its width, never a box or another letter.
            if not glyph or text in _UNSEEN:
                shift += advance
                continue
            place = use.places.setdefault(glyph, len(use.places) + 1)
            use.advances[glyph] = widths(glyph)
            if text and not texts.get(glyph):
                texts[glyph] = text
            if codes and (abs(shift + dx) > 0.05 or abs(dy - rise) > 0.05):
                parts.append(f"<{''.join(codes)}>")
                codes = []
            if abs(dy - rise) > 0.05:
                shows += [f"[{''.join(parts)}] TJ"] if parts else []
                shows.append(f"{dy * size * K / 1000:.2f} Ts")
                parts, rise = [], dy
            if abs(shift + dx) > 0.05:
                parts.append(f"{-(shift + dx):.1f}")
            codes.append(f"{place:04X}")
            shift = advance - widths(glyph) - dx
        parts.append(f"<{''.join(codes)}>")
        shows.append(f"[{''.join(parts)}] TJ")
        return " ".join([*shows, "0 Ts"] if rise else shows), shift

    def add_font(self, font: str, use: _FontUse) -> Any:
        """The face reduced to the glyphs used, as a composite font whose codes are glyph places."""
        from reportlab.pdfbase.ttfonts import TTFontFile

        lib = self.lib
        face = TTFontFile(str(resource(f"fonts/{font}.ttf")))
        glyphs = list(use.places)
        face.charToGlyph = dict(enumerate(glyphs, 1))
        subset = face.makeSubset(list(range(1, len(glyphs) + 1)))
        tag = "".join(chr(65 + byte % 26) for byte in hashlib.sha256(repr(glyphs).encode()).digest()[:6])
        base = f"/{tag}+{font}"
        file = self.stream(subset, {"Length1": len(subset)}, f"{use.name}file")
        descriptor = {
            "Type": "/FontDescriptor",
            "FontName": base,
            "Flags": 4,
            "FontBBox": self.numbers(*face.bbox),
            "ItalicAngle": 0,
            "Ascent": short(face.ascent),
            "Descent": short(face.descent),
            "CapHeight": short(face.capHeight),
            "StemV": 80,
            "FontFile2": file,
        }
        widths = " ".join(short(use.advances[glyph]) for glyph in glyphs)
        inner = {
            "Type": "/Font",
            "Subtype": "/CIDFontType2",
            "BaseFont": base,
            "CIDSystemInfo": "<< /Registry (Adobe) /Ordering (Identity) /Supplement 0 >>",
            "CIDToGIDMap": "/Identity",
            "FontDescriptor": self.doc.Reference(lib.PDFDictionary(descriptor), f"{use.name}about"),
            "W": f"[1 [{widths}]]",
        }
        outer = {
            "Type": "/Font",
            "Subtype": "/Type0",
            "BaseFont": base,
            "Encoding": "/Identity-H",
            "DescendantFonts": lib.PDFArray(
                [self.doc.Reference(lib.PDFDictionary(inner), f"{use.name}inner")]
            ),
            "ToUnicode": self.stream(_to_unicode(use), {}, f"{use.name}text"),
        }
        return self.doc.Reference(lib.PDFDictionary(outer), use.name)

    # --- the file ---

    def finish(self, title: str, duplex: str, label: str) -> Written:
        lib, doc = self.lib, self.doc
        fonts = {use.name: self.add_font(font, use) for font, use in self.fonts.items()}
        shared = doc.idToObject["resources"]
        shared["Font"] = lib.PDFDictionary(fonts)
        shared["XObject"] = lib.PDFDictionary(self.xobjects)
        turn = {"long": "/DuplexFlipLongEdge", "short": "/DuplexFlipShortEdge"}
        doc.Catalog.ViewerPreferences = lib.PDFDictionary(
            {
                "PrintScaling": "/None",
                "DisplayDocTitle": "true",
                "Duplex": turn.get(duplex, "/Simplex"),
            }
        )
        if label:
            numbered = {"P": lib.PDFString(f"{label} "), "S": "/D"}
            labels = {"Nums": lib.PDFArray([0, lib.PDFDictionary(numbered)])}
            doc.Catalog.PageLabels = lib.PDFDictionary(labels)
        doc.signature.update(title.encode())
        # No date, as no clock is asked, and no author: the pages are the family's own.
        about = {
            "Title": lib.PDFString(title),
            "Creator": lib.PDFString(_MAKER),
            "Producer": lib.PDFString(_MAKER),
        }
        doc.info = lib.PDFDictionary(about)
        doc.Reference(doc.Catalog)
        doc.Reference(doc.info)
        doc.Catalog.Outlines = self.outline() if self.bookmarks else None
        data = doc.format()
        return Written(data=data, content=self.digest())

    def outline(self) -> Any:
        """The bookmarks as linked dictionaries, two levels deep."""
        lib = self.lib
        top: dict[str, Any] = {"Type": "/Outlines"}
        items: list[dict[str, Any]] = []
        parents: list[int] = []
        for level, title, page, height in self.bookmarks:
            parent = -1
            if level and any(not bookmark_level for bookmark_level, *_ in self.bookmarks):
                parent = max((i for i, p in enumerate(parents) if p == -1), default=-1)
            where = [lib.PDFObjectReference(f"Page{page + 1}"), "/XYZ", 0, f"{height:.2f}", 0]
            items.append({"Title": lib.PDFString(title), "Dest": lib.PDFArray(where)})
            parents.append(parent)
        refs = [lib.PDFObjectReference(f"mark{i}") for i in range(len(items))]
        root = lib.PDFObjectReference("marks")
        for parent, entries, ref in [
            (-1, top, root),
            *((i, items[i], refs[i]) for i in range(len(items))),
        ]:
            children = [i for i, p in enumerate(parents) if p == parent]
            for before, child, after in zip([None, *children], children, [*children[1:], None], strict=False):
                items[child]["Parent"] = ref
                if before is not None:
                    items[child]["Prev"] = refs[before]
                if after is not None:
                    items[child]["Next"] = refs[after]
            if children:
                entries |= {"First": refs[children[0]], "Last": refs[children[-1]]}
                entries["Count"] = len(children) if parent == -1 else -len(children)
        for i, entries in enumerate(items):
            self.doc.Reference(lib.PDFDictionary(entries), f"mark{i}")
        return self.doc.Reference(lib.PDFDictionary(top), "marks")

    def digest(self) -> str:
        """sha256 over the objects in the order of their numbers, of streams the entries and the sha256 of
        what they hold before compression."""
        sha = hashlib.sha256()
        for number in sorted(self.doc.numberToId):
            item = self.doc.idToObject[self.doc.numberToId[number]]
            held = getattr(item, "held", b"")
            sha.update(self.lib.format(item.dictionary if held else item, self.doc) + held + b"\n")
        return sha.hexdigest()

    def stream(self, content: str | bytes, entries: dict[str, Any], name: str) -> Any:
        raw = content.encode("latin-1") if isinstance(content, str) else content
        packed = zlib.compress(raw, 6)
        return self.add_stream(packed, entries | {"Filter": "/FlateDecode"}, name, raw)

    def encoded_stream(self, data: bytes, entries: dict[str, Any], name: str) -> Any:
        flate = entries["Filter"] == "/FlateDecode"
        return self.add_stream(data, entries, name, zlib.decompress(data) if flate else data)

    def add_stream(self, data: bytes, entries: dict[str, Any], name: str, raw: bytes) -> Any:
        item = self.lib.PDFStream(self.lib.PDFDictionary(entries), data + b"\n")
        item.held = hashlib.sha256(raw).digest()
        return self.doc.Reference(item, name)

    def numbers(self, *values: float) -> str:
        return f"[{' '.join(short(value) for value in values)}]"


# --- operators -------------------------------------------------------------------------------


def _dash(dash: tuple[float, float] | None) -> str:
    return f"[{dash[0] * K:.2f} {dash[1] * K:.2f}] 0 d" if dash else "[] 0 d"


def _cut_line(out: list[str], x1: float, y1: float, x2: float, y2: float, height: float) -> None:
    if not out:
        out.append(f"{color_operator(CUT_COLOR, 'RG', 'G')} {CUT_LINE * K:.2f} w {_dash(CUT_DASH)} 0 J")
    out.append(f"{x1 * K:.2f} {height - y1 * K:.2f} m {x2 * K:.2f} {height - y2 * K:.2f} l S")


def _turned(turn: int, box: Any, height: float) -> str:
    """The matrix under which an upright face with its top left at (0, 0) fills the box, turned clockwise."""
    left, top, right, bottom = (
        box.left * K,
        height - box.top * K,
        box.right * K,
        height - box.bottom * K,
    )
    if turn == 90:
        return f"0 -1 1 0 {right:.2f} {top:.2f}"
    if turn == 180:
        return f"-1 0 0 -1 {right:.2f} {bottom:.2f}"
    return f"0 1 -1 0 {left:.2f} {bottom:.2f}"


def _line(mark: Line, left: float, top: float) -> str:
    cap = 1 if mark.round_ends else 0
    return (
        f"{color_operator(mark.color, 'RG', 'G')} {mark.line * K:.2f} w {cap} J {_dash(mark.dash)} "
        f"{left + mark.x1 * K:.2f} {top - mark.y1 * K:.2f} m "
        f"{left + mark.x2 * K:.2f} {top - mark.y2 * K:.2f} l S"
    )


def _pen(mark: Box | Dot) -> str:
    parts = []
    if mark.fill is not None:
        parts.append(color_operator(mark.fill, "rg", "g"))
    if mark.stroke is not None:
        parts.append(f"{color_operator(mark.stroke, 'RG', 'G')} {mark.line * K:.2f} w 0 J {_dash(mark.dash)}")
    return " ".join(parts)


def _box(mark: Box, left: float, top: float) -> str:
    x, y = left + mark.x * K, top - (mark.y + mark.height) * K
    width, height = mark.width * K, mark.height * K
    paint = paint_operator(mark.fill is not None, mark.stroke is not None)
    if not mark.radius:
        return f"{_pen(mark)} {x:.2f} {y:.2f} {width:.2f} {height:.2f} re {paint}"
    r = min(mark.radius * K, width / 2, height / 2)
    k = r * (1 - _ARC)
    x2, y2 = x + width, y + height
    path = (
        f"{x + r:.2f} {y:.2f} m {x2 - r:.2f} {y:.2f} l "
        f"{x2 - k:.2f} {y:.2f} {x2:.2f} {y + k:.2f} {x2:.2f} {y + r:.2f} c "
        f"{x2:.2f} {y2 - r:.2f} l {x2:.2f} {y2 - k:.2f} {x2 - k:.2f} {y2:.2f} {x2 - r:.2f} {y2:.2f} c "
        f"{x + r:.2f} {y2:.2f} l {x + k:.2f} {y2:.2f} {x:.2f} {y2 - k:.2f} {x:.2f} {y2 - r:.2f} c "
        f"{x:.2f} {y + r:.2f} l {x:.2f} {y + k:.2f} {x + k:.2f} {y:.2f} {x + r:.2f} {y:.2f} c h"
    )
    return f"{_pen(mark)} {path} {paint}"


def _dot(mark: Dot, left: float, top: float) -> str:
    x, y, r = left + mark.x * K, top - mark.y * K, mark.radius * K
    k = r * _ARC
    path = (
        f"{x + r:.2f} {y:.2f} m "
        f"{x + r:.2f} {y + k:.2f} {x + k:.2f} {y + r:.2f} {x:.2f} {y + r:.2f} c "
        f"{x - k:.2f} {y + r:.2f} {x - r:.2f} {y + k:.2f} {x - r:.2f} {y:.2f} c "
        f"{x - r:.2f} {y - k:.2f} {x - k:.2f} {y - r:.2f} {x:.2f} {y - r:.2f} c "
        f"{x + k:.2f} {y - r:.2f} {x + r:.2f} {y - k:.2f} {x + r:.2f} {y:.2f} c h"
    )
    return f"{_pen(mark)} {path} {paint_operator(mark.fill is not None, mark.stroke is not None)}"


def _face_advances(font: str) -> Any:
    from printkit.letters.faces import glyph_advance

    return lambda glyph: glyph_advance(font, glyph)


def _said(text: str, shown: str) -> str:
    """What is shown, with the text that it says as a whole."""
    return f"/Span <</ActualText {_utf16(chr(0xFEFF) + text)}>> BDC {shown} EMC"


def _utf16(text: str) -> str:
    return f"<{text.encode('utf-16-be').hex().upper()}>"


def _to_unicode(use: _FontUse) -> str:
    """The map from codes to text, so that a word can be searched, copied and read aloud."""
    texts = use.hints | use.texts
    rows = [f"<{place:04X}> {_utf16(texts[glyph])}" for glyph, place in use.places.items() if glyph in texts]
    groups = [rows[i : i + 100] for i in range(0, len(rows), 100)]
    blocks = "\n".join(f"{len(group)} beginbfchar\n" + "\n".join(group) + "\nendbfchar" for group in groups)
    return (
        "/CIDInit /ProcSet findresource begin\n12 dict begin\nbegincmap\n"
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def\n"
        "/CMapName /Adobe-Identity-UCS def\n/CMapType 2 def\n"
        "1 begincodespacerange\n<0000> <FFFF>\nendcodespacerange\n"
        f"{blocks}\nendcmap\nCMapName currentdict /CMap defineresource pop\nend\nend\n"
    )
