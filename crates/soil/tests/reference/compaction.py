"""Reference for the least-squares peaks: numpy.polyfit with its covariance, scipy's Student's t.

Run: python3 compaction.py > compaction.json   (numpy and scipy; versions are written into the file)

The specimens are made up: seeded, around an invented parabola or cubic.
"""

import json

import numpy
import scipy
from scipy.stats import t as student

random = numpy.random.default_rng(20261125)


def peak(moisture, density, degree):
    spare = len(moisture) - degree - 1
    # Scaled about the middle for numpy's sake: the same curve, another way of writing it.
    middle, half = moisture.mean(), numpy.ptp(moisture) / 2
    x = (moisture - middle) / half
    if spare > 0:
        constants, covariance = numpy.polyfit(x, density, degree, cov=True)
    else:
        constants, covariance = numpy.polyfit(x, density, degree), None
    curve = numpy.poly1d(constants)
    first, second = curve.deriv(), curve.deriv(2)
    tops = [float(r.real) for r in first.roots if abs(r.imag) < 1e-12 and second(r.real) < 0]
    if len(tops) != 1:
        return None
    top = tops[0]
    found = {"at": middle + half * top, "value": float(curve(top)), "spare": spare}
    if covariance is not None:
        powers = numpy.arange(degree, -1, -1)
        of_value = numpy.array([top**p for p in powers])
        of_place = numpy.array([-(p * top ** (p - 1) if p else 0.0) / second(top) for p in powers])
        found["value_error"] = float(numpy.sqrt(of_value @ covariance @ of_value))
        found["at_error"] = float(numpy.sqrt(of_place @ covariance @ of_place)) * half
        found["t90"] = float(student.ppf(0.9, spare))
        residuals = density - curve(x)
        found["scatter"] = float(numpy.sqrt(residuals @ residuals / spare))
    return found


cases = []
while len(cases) < 60:
    count = int(random.integers(3, 10))
    degree = int(random.integers(2, 4))
    if count < degree + 1:
        continue
    optimum = random.uniform(0.05, 0.14)
    moisture = optimum + numpy.sort(random.uniform(-0.035, 0.035, count))
    if numpy.min(numpy.diff(moisture)) < 0.002:
        continue
    deviation = 100 * (moisture - optimum)
    density = random.uniform(1700, 2200) - random.uniform(6, 14) * deviation**2 - random.uniform(0, 1.5) * deviation**3
    density = density + random.normal(0, 8, count)
    found = peak(moisture, density, degree)
    if found is None:
        continue
    cases.append({"degree": degree, "moisture": moisture.tolist(), "density": density.tolist(), **found})

print(json.dumps({"numpy": numpy.__version__, "scipy": scipy.__version__, "cases": cases}, indent=1))
