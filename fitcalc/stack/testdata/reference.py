"""Writes reference.csv: survival function and mean excess of sums of normal, uniform and triangular terms.

The corner sum with general widths, term for term, in 400-digit arithmetic, where its cancellation does no harm.
Needs mpmath; 1.3.0 was used:  python3 reference.py > reference.csv
Widths (upper limit - lower limit) and offsets from the mean in picometres; excess in millimetres.
"""
import itertools
from mpmath import mp, mpf, erfc, exp, sqrt, pi, nstr

mp.dps = 400


def normal_tails(order, z, s):
    """T_0 .. T_order of a normal of deviation s at z, E[max(W - z, 0)^m]/m!."""
    if s == 0:
        return [(max(-z, 0) ** m / mp.factorial(m)) if z < 0 else mpf(0) for m in range(order + 1)]
    before, now = exp(-(z / s) ** 2 / 2) / (s * sqrt(2 * pi)), erfc(z / s / sqrt(2)) / 2
    out = [now]
    for m in range(1, order + 1):
        before, now = now, (s * s * before - z * now) / m
        out.append(now)
    return out


def tails(terms, offset):
    s2, h = mpf(0), []
    for shape, width in terms:
        w = mpf(width) / 10**9
        if shape == "N":
            s2 += (w / 6) ** 2
        elif shape == "U":
            h.append(w / 2)
        else:
            h += [w / 4, w / 4]
    s, k, z = sqrt(s2), len(h), mpf(offset) / 10**9
    # equal half-widths share corners: weight -> coefficient
    corners = {mpf(0): 1}
    for x in h:
        step = {}
        for at, c in corners.items():
            step[at + x] = step.get(at + x, 0) + c
            step[at - x] = step.get(at - x, 0) - c
        corners = step
    above = excess = mpf(0)
    for at, c in corners.items():
        if c:
            t = normal_tails(k + 1, z - at, s)
            above += c * t[k]
            excess += c * t[k + 1]
    scale = mpf(1)
    for x in h:
        scale *= 2 * x
    return above / scale, excess / scale


def variance(terms):
    return sum(float(w) ** 2 / {"N": 36, "U": 12, "T": 24}[s] for s, w in terms)


def rows():
    base = 10**8  # 0.1 mm
    ratios = [1, 10, 1000, 10**6]
    for count in (1, 2, 3, 4):
        for shapes in itertools.combinations_with_replacement("NUT", count):
            for r in (ratios if count > 1 else [1]):
                for second in ([1, r] if count > 2 else [1]):
                    widths = [base, base // r, base // second // 2, base * 3 // 4 // r][:count]
                    yield list(zip(shapes, widths))
    for r in (3, 7, 30, 10**4, 10**5):
        yield [("N", base), ("U", base // r)]
        yield [("U", base), ("N", base // r)]
        yield [("U", base), ("T", base // r), ("N", base // r // 9)]
    yield [("U", base)] * 8
    yield [("T", base)] * 8
    yield [("T", base)] * 7 + [("N", base // 20)]
    yield [("T", base)] * 7 + [("N", base * 30)]
    yield [("U", base), ("U", base // 10), ("U", base // 100), ("U", base // 1000), ("N", base // 300)]
    yield [("U", base // 3**i) for i in range(7)] + [("N", base // 50)]
    yield [("T", base // 5**i) for i in range(6)]


seen = set()
print("terms,offset_pm,above,excess_mm")
for terms in rows():
    terms = [(s, w // 2 * 2) for s, w in terms]  # even, so that every mean is a whole picometre
    name = " ".join(f"{s}{w}" for s, w in terms)
    if name in seen:
        continue
    seen.add(name)
    sd = variance(terms) ** 0.5
    for t in (-2.5, -0.3, 0, 0.07, 1, 1.7, 2.9, 6, 12):
        offset = round(t * sd)
        a, e = tails(terms, offset)
        if a < mpf(10) ** -100:
            continue
        print(f"{name},{offset},{nstr(a, 20)},{nstr(e, 20)}")
