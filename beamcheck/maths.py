"""Roots, extremes and choices that read alike for numbers, arrays, quantities and symbols.

Clauses use these instead of ``math``, ``numpy`` or ``sympy`` so that the same line of arithmetic serves a
study (floats), a sweep (numpy arrays), a unit test (pint quantities) and the calculation sheet (sympy symbols).
Neither numpy nor sympy is imported unless the argument is one of theirs already.
"""

import math
from typing import Any

_NUMBER = (float, int)


def sqrt(x: Any) -> Any:
    """Square root; keeps sympy exact."""
    if isinstance(x, _NUMBER):
        return math.sqrt(x)
    if _is_symbolic(x):
        import sympy

        return sympy.sqrt(x, evaluate=False)
    return x**0.5


def cos(degrees: Any) -> Any:
    """Cosine of an angle in degrees."""
    return _turned("cos", degrees)


def tan(degrees: Any) -> Any:
    """Tangent of an angle in degrees."""
    return _turned("tan", degrees)


def erfc(x: Any) -> Any:
    """Complement of the error function: twice the tail of the normal distribution beyond x times the root of two."""
    if isinstance(x, _NUMBER):
        return math.erfc(x)
    if _is_symbolic(x):
        import sympy

        return sympy.erfc(x)
    import numpy as np

    if hasattr(x, "units"):
        return math.erfc(x.to("dimensionless").magnitude)
    found = np.frompyfunc(math.erfc, 1, 1)(x)
    return found.astype(float) if isinstance(found, np.ndarray) else found


def least(a: Any, b: Any) -> Any:
    """The smaller of two, element by element for arrays."""
    if isinstance(a, _NUMBER) and isinstance(b, _NUMBER):
        return min(a, b)
    if _is_symbolic(a) or _is_symbolic(b):
        import sympy

        return sympy.Min(a, b, evaluate=False)
    return where(a <= b, a, b)


def most(a: Any, b: Any) -> Any:
    """The greater of two, element by element for arrays."""
    if isinstance(a, _NUMBER) and isinstance(b, _NUMBER):
        return max(a, b)
    if _is_symbolic(a) or _is_symbolic(b):
        import sympy

        return sympy.Max(a, b, evaluate=False)
    return where(a >= b, a, b)


def where(condition: Any, then: Any, other: Any) -> Any:
    """``then`` where the condition holds, else ``other``. Both are evaluated, so neither may divide by zero."""
    if condition is True or condition is False:
        return then if condition else other
    if _is_symbolic(condition):
        import sympy

        return sympy.Piecewise((then, condition), (other, True), evaluate=False)
    import numpy as np

    if hasattr(then, "units") or hasattr(other, "units"):
        return then if bool(condition) else other
    return np.where(condition, then, other)


def everywhere(condition: Any) -> bool:
    """Whether a condition holds, for an array in every lane."""
    return condition if isinstance(condition, bool) else bool(condition.all())


def _is_symbolic(x: Any) -> bool:
    return hasattr(x, "free_symbols")


def _turned(name: str, degrees: Any) -> Any:
    if isinstance(degrees, _NUMBER):
        return getattr(math, name)(math.radians(degrees))
    if _is_symbolic(degrees):
        import sympy

        return getattr(sympy, name)(sympy.Mul(degrees, sympy.pi / 180, evaluate=False), evaluate=False)
    import numpy as np

    if hasattr(degrees, "units"):
        return getattr(np, name)(degrees.to("radian"))
    return getattr(np, name)(np.radians(degrees))
