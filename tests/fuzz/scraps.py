"""Scraps of text of which spoilt surveys and unit strings are made."""

NUMBERS = ("0", "-0", "1", "-1", "1e9", "-1e9", "1e400", "nan", "inf", "-inf", "0.0000001", "99999999999999999999999")
NUMBERS += ("1_000", "0x10", "1,5", "1,000", "1/0", "0/0", "7/8", "12-3/4", "½", "٣", "1e", "--1", "+1", ".5", "5.")
UNITS = (
    "in",
    "ft",
    "ft in",
    "psf",
    "plf",
    "lb",
    "kip",
    "mm",
    "m",
    "km",
    "kN",
    "kPa",
    "psi",
    "deg",
    ":12",
    "%",
    "",
    "ft^2",
)
UNITS += ("sq ft", "parsec", "furlong", "kg", "banana", "in^3", "lb/in", "'", '"', "′", "dB", "degC", "1", "ft*lb")
WORDS = (
    "",
    " ",
    "unknown",
    "Unknown",
    "yes",
    "no",
    "nan",
    "none",
    "None",
    "null",
    "true",
    "x" * 401,
    "é" * 50,
    "\\u0000",
)
WORDS += (
    "..",
    "../../etc/passwd",
    "<script>",
    "{{7*7}}",
    "%s%n",
    "$(id)",
    "a,b,,c",
    ",",
    "\\",
    "'",
    "\\t",
    "😀",
    "post 1",
)
VALUES = ("1", "-1", "1.5", "nan", "inf", "-inf", "true", "[]", "[[]]", "{}", "{ value = 1 }", "1979-05-27", "07:32:00")
VALUES += ('["12 ft"]', '{ value = "12 ft", trust = "sure" }', '{ trust = "unknown" }', '{ value = "unknown" }', '""')
VALUES += (
    '{ value = "12 ft", low = "13 ft" }',
    '{ value = { value = "12 ft" } }',
    "0xff",
    "1e400",
    "-0.0",
    '"""\nx\n"""',
)
VALUES += (
    '{ value = "9 ft", low = "1 ft", high = "99 ft" }',
    '{ note = "only" }',
    '{ value = "9 ft", trust = "assumed" }',
)
MEMBERS = (
    "2x4 Hem-Fir No.2",
    "6-ply 2x12 Southern Pine No.1",
    "9-ply 2x4 SPF Stud",
    "0-ply 2x4 SPF No.2",
    "6x12 unknown",
)
MEMBERS += ("3-ply 1-3/4x14 LVL", "3-1/2x11-7/8 PSL", "W8x18 A992", "Pipe 3STD", "HSS3x3x1/8", "5-1/8x12 glulam 24F-V4")
MEMBERS += (
    "5-1/8x12 glulam 24F-1.8E header",
    "full 8x8 Douglas Fir-Larch No.1",
    "2x4x6 SPF",
    "0x0 SPF No.2",
    "99x99 LVL",
)
MEMBERS += (
    "1/2x48 Hem-Fir No.2",
    "2x8 Hem-Fir Stud",
    "-1x4 SPF No.2",
    "2x4",
    "LVL",
    "2x4 oak",
    "W8x18 A500",
    "full 2x4 unknown",
)
ENCODINGS = ("utf-16", "utf-8-sig", "latin-1", "utf-32", "cp1252", "utf-7", "cp037")
SCRAPS = (*NUMBERS, *UNITS, " ", "-", "/", "x", "feet", "inches", " per ", "^2", "**", "(", "e5", "pound", "foot", "\t")
