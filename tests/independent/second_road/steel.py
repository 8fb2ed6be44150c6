"""W shapes as beams, pipe and square tube as posts: AISC 360-16, allowable strength design."""

import re
from math import inf, pi, sqrt

from .printed_tables import figure, rows
from .wood_beam import free_below, pushes, worst

BEGINS = re.compile(r"(W|Pipe|HSS)\s*\d", re.IGNORECASE)


def names(text):
    """Whether a trade text names a steel shape."""
    return BEGINS.match(text.strip()) is not None


def shape(text):
    """The figures of a shape: "W8X18 A992", "Pipe 3STD", "HSS3X3X1/4"."""
    text = text.strip()
    if text[0].upper() == "W":
        name, _, steel = text.partition(" ")
        found = next(r for r in rows("sections/steel_w") if r["shape"].lower() == name.lower())
        line = _weakest(("A36", "A992"), steel)
        columns = ("A", "d", "b_f", "t_w", "t_f", "k_des", "I_x", "S_x", "Z_x", "r_y", "r_ts", "J", "h_o", "h_tw")
        figures = {column: float(found[column]) for column in columns} | {"b": float(found["b_f"])}
    else:
        found = next(r for r in rows("sections/steel_posts") if r["shape"].lower() == text.lower())
        line = _weakest(("A53",) if text[0].upper() == "P" else ("A500",), "")
        figures = {"A": float(found["A"]), "b": float(found["width"]), "d": float(found["depth"])}
        figures |= {"t": float(found["t_des"]), "r": float(found["r"]), "I_x": float(found["I_x"])}
        figures |= {"S_x": float(found["S_x"]), "round": text[0].upper() == "P"}
    strength = {"F_y": 1000 * float(line["F_y"]), "E": 1000 * float(line["E"])}
    return {"kind": "steel", "plies": 1, "b_ply": figures["b"], "W": float(found["W"]) / 12, **figures, **strength}


def _weakest(family, named):
    steels = [r for r in rows("aisc360_16/materials") if r["steel"].startswith(family)]
    steels = [r for r in steels if r["steel"].startswith(named)]
    return min(steels, key=lambda r: float(r["F_y"]))


def omega(clause, item="Omega"):
    """Safety factor of a limit state."""
    return figure("aisc360_16/factors", "value", clause=clause, item=item)


def moment_allowed(s, L_b):
    """M_n over Omega (F2, F3); C_b = 1.0."""
    E, F_y, S, h = s["E"], s["F_y"], s["S_x"], s["h_o"]
    M_p = F_y * s["Z_x"]
    M_n = M_p
    if L_b is not None:
        L_p = 1.76 * s["r_y"] * sqrt(E / F_y)
        turn = s["J"] / (S * h)
        L_r = 1.95 * s["r_ts"] * E / (0.7 * F_y) * sqrt(turn + sqrt(turn**2 + 6.76 * (0.7 * F_y / E) ** 2))
        if L_b > L_r:
            slender = L_b / s["r_ts"]
            M_n = min(M_p, S * pi**2 * E / slender**2 * sqrt(1 + 0.078 * turn * slender**2))
        elif L_b > L_p:
            M_n = M_p - (M_p - 0.7 * F_y * S) * (L_b - L_p) / (L_r - L_p)
    flange, compact, slender = s["b_f"] / 2 / s["t_f"], 0.38 * sqrt(E / F_y), sqrt(E / F_y)
    if flange > compact:
        M_n = min(M_n, M_p - (M_p - 0.7 * F_y * S) * (flange - compact) / (slender - compact))
    return M_n / omega("F1")


def shear_allowed(s):
    """V_n over Omega (G2.1)."""
    stocky = s["h_tw"] <= 2.24 * sqrt(s["E"] / s["F_y"])
    C_v1 = min(1.0, 1.10 * sqrt(5.34 * s["E"] / s["F_y"]) / s["h_tw"])
    return 0.6 * s["F_y"] * s["d"] * s["t_w"] * C_v1 / omega("G2", "Omega, stocky web" if stocky else "Omega")


def check_beam(s, cases, combos, given):
    """Utilisations of a W shape by key; ``given`` as for wood."""
    found, key, line = {}, given["key"], cases.line
    solved = [cases.summed(factors, pattern)[0] for factors, _ in combos for pattern in cases.patterns(factors)]
    tops, lows = zip(*[cases.moments(pieces) for pieces in solved], strict=True)
    M_top, M_low = max(M for M, _ in tops), min(M for M, _ in lows)
    found[f"{key}.bending_sagging"] = M_top / moment_allowed(s, given["top"])
    if M_low < -1e-6:
        found[f"{key}.bending_hogging"] = -M_low / moment_allowed(s, free_below(line))
    found[f"{key}.flange"] = s["b_f"] / 2 / s["t_f"] / sqrt(s["E"] / s["F_y"])
    V = max(
        abs(cases.shear(pieces, x, side)) for pieces in solved for x in cases.stations for side in ("left", "right")
    )
    found[f"{key}.shear"] = V / shear_allowed(s)
    most = [max(R) for R in zip(*[pushes(cases, factors) for factors, _ in combos], strict=True)]
    for k, (l_b, breadth, _) in enumerate(given["seats"]):
        if l_b is not None and breadth is not None:
            _bearing(found, s, (key, k + 1), most[k], (l_b, breadth, _to_end(line, k)))
    _under_points(found, s, combos, given, line)
    _deflection(found, s, cases, combos, given)
    return found


def _under_points(found, s, combos, given, line):
    """J10.2, J10.3 under each thing on the top flange, with all that presses on it nearer than d, foot to foot."""
    things = given["points"]
    for n, (at, l_b, own) in enumerate(things, 1):
        most = 0.0
        for factors, _ in combos:
            P = sum(factors.get(kind, 0.0) * size for kind, size in own)
            for k, (there, reach, others) in enumerate(things, 1):
                if k != n and abs(there - at) - (reach + l_b) / 2 < s["d"]:
                    P += sum(factors.get(kind, 0.0) * max(0.0, size) for kind, size in others)
            most = max(most, P)
        if most > 0:
            R_y, R_c = _web(s, l_b, min(at - line.start, line.end - at))
            key = f"{given['key']}.point[{n}].web"
            found |= {f"{key}_yielding": most / R_y, f"{key}_crippling": most / R_c}


def _to_end(line, k):
    return min(line.supports[k] - line.start, line.end - line.supports[k])


def _bearing(found, s, which, R, rests):
    """J10.2, J10.3, and the bottom flange as its own bearing plate."""
    key, n = which
    l_b, breadth, to_end = rests
    R_y, R_c = _web(s, l_b, to_end)
    found[f"{key}.web_yielding[{n}]"] = R / R_y
    found[f"{key}.web_crippling[{n}]"] = R / R_c
    reach = max(0.0, breadth / 2 - s["k_des"])
    found[f"{key}.flange[{n}]"] = reach * sqrt(2 * R / (breadth * l_b) * omega("F1") / s["F_y"]) / s["t_f"]


def _web(s, l_b, to_end):
    """What the web takes in yielding and in crippling (J10.2, J10.3), so far from the beam's end."""
    F_y, t_w, t_f, d = s["F_y"], s["t_w"], s["t_f"], s["d"]
    R_y = F_y * t_w * ((5 if to_end > d else 2.5) * s["k_des"] + l_b) / omega("J10 yielding")
    ratio = (t_w / t_f) ** 1.5
    if to_end >= d / 2:
        lead, share = 0.80, 3 * l_b / d
    else:
        lead, share = 0.40, 3 * l_b / d if l_b / d <= 0.2 else 4 * l_b / d - 0.2
    R_c = lead * t_w**2 * (1 + share * ratio) * sqrt(s["E"] * F_y * t_f / t_w) / omega("J10 crippling")
    return R_y, R_c


def _deflection(found, s, cases, combos, given):
    kinds = [name for name in ("L", "Lr", "S") if any(kind == name for kind, _, _ in cases.columns)]
    for bay, (a, b) in enumerate(cases.line.bays):
        span = cases.line.is_span(bay)
        reach, down = (b - a if span else 2 * (b - a)), {}
        for name in ("D", *kinds):
            both = [cases.deflections(cases.summed({name: 1.0}, p)[0], bay) for p in cases.patterns({name: 1.0})]
            down[name] = max(most if span else max(most, -least) for most, least in both) / (s["E"] * s["I_x"])
        for what, n in given["limits"]:
            key = f"{given['key']}.deflection_{what}_L{n:.0f}"
            passing = [down[name] for name in kinds]
            if what == "total":
                passing = [sum(g * down[name] for name, g in factors.items()) for factors, _ in combos]
            for size in passing:
                worst(found, key, size / (reach / n))


def check_post(s, key, height, cases, e):
    """Utilisations of a pipe or tube: E2, E3, B4.1, and H1 with the load e off its centre (None: a sixth of b)."""
    slender = height / s["r"]
    F_e = s["E"] * (pi / slender) ** 2
    F_cr = 0.877 * F_e
    if slender <= 4.71 * sqrt(s["E"] / s["F_y"]):
        F_cr = 0.658 ** (s["F_y"] / F_e) * s["F_y"]
    wall = _wall(s) / (0.11 * s["E"] / s["F_y"] if s["round"] else 1.40 * sqrt(s["E"] / s["F_y"]))
    found = {f"{key}.slenderness": slender / 200, f"{key}.wall": wall}
    if wall <= 1:
        P_c, M_c = F_cr * s["A"] / omega("E3"), _tube_moment(s) / omega("F1")
        away = s["d"] / 6 if e is None else e
        for P, _ in cases:
            worst(found, f"{key}.column", P / P_c)
            left = 1 - 1.6 * P / (pi**2 * s["E"] * s["I_x"] / height**2)
            bent = P * away / left / M_c if left > 1e-6 else inf if P * away else 0.0
            worst(found, f"{key}.eccentric", P / P_c + bent * 8 / 9 if P / P_c >= 0.2 else P / P_c / 2 + bent)
    return found


def _wall(s):
    return s["b"] / s["t"] if s["round"] else s["b"] / s["t"] - 3


def _tube_moment(s):
    """M_n of a pipe (F8) or a square tube (F7), corners of 2 t and t; Z by what each corner lacks of a square."""
    E, F_y, b, t, S = s["E"], s["F_y"], s["b"], s["t"], s["S_x"]
    if s["round"]:
        M_p = F_y * (b**3 - (b - 2 * t) ** 3) / 6
        return M_p if _wall(s) <= 0.07 * E / F_y else min(M_p, (0.021 * E / _wall(s) + F_y) * S)
    Z = 0.0
    for side, r, sign in ((b, 2 * t, 1), (b - 2 * t, t, -1)):
        # a corner lacks (1 - pi/4) r^2, whose centre lies r (10 - 3 pi)/(12 - 3 pi) from both sides
        lacks, centre = (1 - pi / 4) * r**2, r * (10 - 3 * pi) / (12 - 3 * pi)
        Z += sign * (side**3 / 4 - 4 * lacks * (side / 2 - centre))
    M_p, root = F_y * Z, sqrt(E / F_y)
    if _wall(s) <= 4.0 / 3.57 * root:
        return M_p
    return M_p - (M_p - F_y * S) * (3.57 * _wall(s) / root - 4.0)
