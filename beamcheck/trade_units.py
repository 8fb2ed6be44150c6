"""The trade units and the marks of trade lengths, as data for `units`.

Factors are exact by definition: 1 in = 25.4 mm, 1 lb = 0.45359237 kg, standard gravity 9.80665 m/s^2.
"""

import math
from collections.abc import Mapping
from types import MappingProxyType

_N = 4.4482216152605  # newtons in a pound-force: 0.45359237 kg at 9.80665 m/s^2, exact by definition
_G = 9.80665

# unit: (base, up, down), read as 1 unit = up / down base; exact, so 40 psf stays 40 psf
CUSTOMARY: Mapping[str, tuple[str, float, float]] = MappingProxyType({
    "in": ("in", 1, 1), "ft": ("in", 12, 1),
    "in^2": ("in^2", 1, 1), "ft^2": ("in^2", 144, 1), "sf": ("in^2", 144, 1),
    "in^3": ("in^3", 1, 1), "in^4": ("in^4", 1, 1), "lb*in^2": ("lb*in^2", 1, 1),
    "lb": ("lb", 1, 1), "kip": ("lb", 1000, 1),
    "lb*in": ("lb*in", 1, 1), "in*lb": ("lb*in", 1, 1), "lb*ft": ("lb*in", 12, 1), "ft*lb": ("lb*in", 12, 1),
    "kip*in": ("lb*in", 1000, 1), "in*kip": ("lb*in", 1000, 1),
    "kip*ft": ("lb*in", 12000, 1), "ft*kip": ("lb*in", 12000, 1),
    "lb/in": ("lb/in", 1, 1), "lb/ft": ("lb/in", 1, 12), "plf": ("lb/in", 1, 12),
    "kip/ft": ("lb/in", 1000, 12), "klf": ("lb/in", 1000, 12),
    "psi": ("psi", 1, 1), "lb/in^2": ("psi", 1, 1), "ksi": ("psi", 1000, 1), "kip/in^2": ("psi", 1000, 1),
    "psf": ("psi", 1, 144), "lb/ft^2": ("psi", 1, 144), "lb/sf": ("psi", 1, 144),
    "ksf": ("psi", 1000, 144), "kip/ft^2": ("psi", 1000, 144),
    "pcf": ("pcf", 1, 1), "lb/ft^3": ("pcf", 1, 1),
    "deg": ("deg", 1, 1), "1": ("1", 1, 1), "%": ("1", 1, 100),
})  # fmt: skip
METRIC: Mapping[str, tuple[str, float, float]] = MappingProxyType({
    "mm": ("in", 1, 25.4), "cm": ("in", 1, 2.54), "m": ("in", 1, 0.0254),
    "mm^2": ("in^2", 1, 645.16), "cm^2": ("in^2", 1, 6.4516), "m^2": ("in^2", 1, 0.00064516),
    "mm^3": ("in^3", 1, 16387.064), "cm^3": ("in^3", 1, 16.387064),
    "mm^4": ("in^4", 1, 416231.4256), "cm^4": ("in^4", 1, 41.62314256),
    "N": ("lb", 1, _N), "kN": ("lb", 1000, _N), "kgf": ("lb", _G, _N),
    "N*m": ("lb*in", 1, _N * 0.0254), "kN*m": ("lb*in", 1000, _N * 0.0254),
    "N*mm^2": ("lb*in^2", 1, _N * 645.16), "kN*m^2": ("lb*in^2", 1000, _N * 0.00064516),
    "N/m": ("lb/in", 0.0254, _N), "kN/m": ("lb/in", 25.4, _N), "N/mm": ("lb/in", 25.4, _N),
    "Pa": ("psi", 0.00064516, _N), "N/m^2": ("psi", 0.00064516, _N),
    "kPa": ("psi", 0.64516, _N), "kN/m^2": ("psi", 0.64516, _N),
    "MPa": ("psi", 645.16, _N), "N/mm^2": ("psi", 645.16, _N), "GPa": ("psi", 645160, _N),
    "kN/m^3": ("pcf", 28.316846592, _N), "kg/m^3": ("pcf", 0.028316846592, 0.45359237),
    "rad": ("deg", 180, math.pi),
})  # fmt: skip
TRADE_UNITS: Mapping[str, tuple[str, float, float]] = MappingProxyType({**CUSTOMARY, **METRIC})

# no unit written is the plain number's unit; a written "1" is a second number, so it is not here
FOLDED: Mapping[str, str] = MappingProxyType(
    {"" if name == "1" else name.lower(): name for name in TRADE_UNITS},
)
WORDS: Mapping[str, str] = MappingProxyType({
    "'": "ft", '"': "in",
    "foot": "ft", "feet": "ft", "inch": "in", "inches": "in", "ins": "in",
    "metre": "m", "metres": "m", "meter": "m", "meters": "m",
    "lbs": "lb", "lbf": "lb", "pound": "lb", "pounds": "lb", "kips": "kip",
    "degree": "deg", "degrees": "deg",
})  # fmt: skip
MARKS = str.maketrans({
    "½": " 1/2", "⅓": " 1/3", "⅔": " 2/3", "¼": " 1/4", "¾": " 3/4", "⅕": " 1/5", "⅖": " 2/5", "⅗": " 3/5",
    "⅘": " 4/5", "⅙": " 1/6", "⅚": " 5/6", "⅛": " 1/8", "⅜": " 3/8", "⅝": " 5/8", "⅞": " 7/8", "⁄": "/",
    "′": "'", "‘": "'", "’": "'", "″": '"', "“": '"', "”": '"',
    "–": "-", "—": "-", "‑": "-", "−": "-", "·": "*", "⋅": "*", "×": "*",
    "²": "^2", "³": "^3", "⁴": "^4", "°": " deg", "\u00a0": " ", "\u2009": " ", "\u202f": " ",
})  # fmt: skip
