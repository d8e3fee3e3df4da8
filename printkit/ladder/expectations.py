"""Published expectations, each told in our own words with its source.

'S': seen in a public copy, often one that repeats the standard. 'M': from memory of the named source,
to be verified. Frameworks tie some of these to a school year or an age; we do not.
"""

from printkit.ladder.rungs import Expectation

_CCSSM = "US Common Core State Standards for Mathematics (2010)"
_EYFS = "England, Early Years Foundation Stage (2021)"
_NC = "England, National Curriculum (2013)"
_ELOF = "US Head Start Early Learning Outcomes Framework (2015)"
_ACARA = "Australian Curriculum v9"
_MEXICO = "Mexico, Aprendizajes clave, preschool (2017)"
_DOE = "doe.mass.edu/frameworks"
_VERMONT = "vels.education.vermont.gov"
_PAGE = "CCSSM p. 15, seen on a public standards listing"
_WOKINGHAM = "wsh.wokingham.gov.uk, early years foundation stage, mathematics"
_ECLKC = "eclkcdev.eclkc.info/school-readiness/article/math-preschool"
_LISTING = "a public listing of the framework"
_MEMORY = "from memory of the framework, to be verified"


def _expects(framework: str, code: str, says: str, status: str, source: str) -> Expectation:
    return Expectation(framework=framework, code=code, says=says, status=status, source=source)


COUNT_IN_LINE = _expects(_ELOF, "P-MATH 3", "counts small groups laid in a line", "S", _ECLKC)
NUMERALS_TO_5 = _expects(_ELOF, "P-MATH 5", "matches things with numerals 0 to 5", "S", _LISTING)
SEE_TO_5 = _expects(_EYFS, "ELG Number", "sees up to 5 without counting", "S", _WOKINGHAM)
SEE_TO_5_AU = _expects(
    _ACARA, "AC9MFN02", "sees up to 5 without counting", "S", "stage.f10.vcaa.vic.edu.au, mathematics"
)
SAME_HOWEVER_LAID = _expects(
    _CCSSM, "K.CC.B.4", "the last number named is how many, however the things lie", "S", _DOE
)
SCATTERED_5 = _expects(_ELOF, "P-MATH 3", "counts up to 5 scattered things", "S", _ECLKC)
COUNT_TO_10 = _expects(_ELOF, "P-MATH 3", "says how many for about 10 things", "S", _ECLKC)
DOUBLES_WITHIN_10 = _expects(
    _EYFS, "ELG Numerical Patterns", "sees evens, odds and doubles within 10", "S", _WOKINGHAM
)
SCATTERED_10 = _expects(
    _CCSSM,
    "K.CC.B.5",
    "says how many for up to 10 scattered things, 20 in a line or an array",
    "S",
    _DOE,
)
ZERO = _expects(_CCSSM, "K.CC.A.3", "writes 0 to 20; 0 stands for no things", "S", _VERMONT)
WRITE_TO_10 = _expects(_MEXICO, "Pensamiento matemático", "writes numerals 1 to 10", "S", "dokumen.tips")
TEN_AND_ONES = _expects(_CCSSM, "K.NBT.A.1", "makes 11 to 19 of ten ones and some more", "S", _DOE)
COUNT_TO_20 = _expects(_CCSSM, "K.CC.B.5", "counts out up to 20 things", "S", _DOE)
READ_TO_20 = _expects(
    _NC, "Year 1, number", "reads and writes 1 to 20 in numerals and words", "S",
    "a page copy of the framework (online.flipbuilder.com/ruih/llti)",
)  # fmt: skip
COUNT_TO_30 = _expects(
    _MEXICO, "Pensamiento matemático", "explores the written numbers 1 to 30", "S", "dokumen.tips"
)
COUNT_FROM_ANY = _expects(_CCSSM, "K.CC.A.2", "counts on from a given number", "S", _VERMONT)
COUNT_TO_100 = _expects(_CCSSM, "K.CC.A.1", "counts to 100 by ones and by tens", "S", _VERMONT)
TO_100 = _expects(
    _NC, "Year 1, number", "counts to and across 100, by tens too", "S",
    "a page copy of the framework (online.flipbuilder.com/ruih/llti)",
)  # fmt: skip

WITHIN_5 = _expects(_CCSSM, "K.OA.A.5", "adds and subtracts within 5 with ease", "S", _DOE)
BONDS_TO_5 = _expects(
    _EYFS, "ELG Number", "knows the parts of numbers to 5, taking away too", "S", _WOKINGHAM
)
CHANGE = _expects(
    _CCSSM, "Table 1", "finds how many were added or taken (2 + ? = 5)", "S",
    "docsbay.net/table-1-common-addition-and-subtraction-situations",
)  # fmt: skip
START = _expects(
    _CCSSM, "Table 1", "finds how many there were at the start (? + 3 = 5)", "S",
    "docsbay.net/table-1-common-addition-and-subtraction-situations",
)  # fmt: skip
MAKE_TEN = _expects(_CCSSM, "K.OA.A.4", "finds what makes 10 with a number from 1 to 9", "S", _DOE)
WITHIN_10 = _expects(_CCSSM, "K.OA.A.2", "adds and subtracts within 10", "S", _DOE)
UNKNOWN_ADDEND = _expects(
    _CCSSM, "1.OA.B.4", "takes away by asking what is added (10 - 8 as 8 + ? = 10)", "S",
    "public standards listings",
)  # fmt: skip
EASE_TO_10 = _expects(_CCSSM, "1.OA.C.6", "adds and subtracts within 10 with ease", "S", _PAGE)
DOUBLES = _expects(_EYFS, "ELG Number", "knows doubles among the parts to 10", "S", _WOKINGHAM)
NEAR_DOUBLES = _expects(_CCSSM, "1.OA.C.6", "builds on doubles (6 + 7 = 6 + 6 + 1)", "S", _PAGE)
BRIDGE = _expects(_CCSSM, "1.OA.C.6", "goes through ten (8 + 6 = 8 + 2 + 4)", "S", _PAGE)
BRIDGE_BACK = _expects(_CCSSM, "1.OA.C.6", "goes back through ten (13 - 4 = 13 - 3 - 1)", "S", _PAGE)
WITHIN_20 = _expects(
    _NC, "Year 1, addition and subtraction", "adds and subtracts within 20, zero too", "S",
    "issuu.com/schudio1, a school copy of the framework",
)  # fmt: skip
ANY_UNKNOWN = _expects(
    _CCSSM, "1.OA.A.1", "solves within 20 with the unknown in all positions", "S",
    "CCSSM p. 15, seen on several public standards listings",
)  # fmt: skip
EQUATION = _expects(
    _CCSSM, "1.OA.D.8", "finds the unknown number of an equation (8 + ? = 11, 5 = ? - 3)", "S",
    "public standards listings",
)  # fmt: skip

SORT = _expects(_CCSSM, "K.MD.B.3", "sorts things into kinds", "M", _MEMORY)
SIZE = _expects(_CCSSM, "K.MD.A.2", "compares two things by what can be measured", "M", _MEMORY)
PARTS = _expects(_CCSSM, "K.G.B.4", "tells what is alike and what differs, part by part", "M", _MEMORY)
TURNED = _expects(_CCSSM, "K.G.A.2", "knows a shape however it is turned", "M", _MEMORY)
COUNT_OUT = _expects(_CCSSM, "K.CC.B.5", "counts out as many things as are asked for", "S", _DOE)

GRIP = _expects(_EYFS, "ELG Fine Motor Skills", "holds a pencil well and draws with care", "M", _MEMORY)
SOME_NUMERALS = _expects(_ELOF, "P-MATH 5", "knows, and with help writes, some numerals to 10", "S", _LISTING)
DIGITS = _expects(
    _NC, "Year 1, handwriting", "forms letters and the digits 0 to 9 rightly", "S",
    "pcfs.cheviotlt.co.uk, a school copy of the framework",
)  # fmt: skip
WIDE_LINES = _expects(
    "US ruled primary paper", "line heights", "28.6 mm, then 16 to 19 mm from line to line", "M",
    "ruled-paper conventions, from memory",
)  # fmt: skip
LINES_13 = _expects(
    "US ruled primary paper", "line heights", "12.7 mm from line to line", "M",
    "ruled-paper conventions, from memory",
)  # fmt: skip
SHORT_5 = _expects(
    "UK handwriting association", "guidance", "short letters of 4 or 5 mm, tall ones about twice that", "S",
    "text of the association (address not kept)",
)  # fmt: skip
SIZE_OF_LETTERS = _expects(
    _NC, "Year 2, handwriting", "letters of the right size beside one another", "S",
    "pcfs.cheviotlt.co.uk, a school copy of the framework",
)  # fmt: skip
