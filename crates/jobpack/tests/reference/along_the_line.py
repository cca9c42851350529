"""Places at a chainage and a distance across along lines, by geographiclib 2.0 (PyPI). Invented lines only.

    python3 -m venv venv && venv/bin/pip install geographiclib==2.0
    venv/bin/python along_the_line.py > along_the_line.json
"""

import json
import random

from geographiclib.geodesic import Geodesic

WGS84 = Geodesic.WGS84
draw = random.Random(11)


def case():
    lat = draw.uniform(-65, 65)
    lon = draw.uniform(-179, 179)
    line = [(lon, lat)]
    azimuth = draw.uniform(0, 360)
    lengths = []
    for _ in range(draw.randint(1, 6)):
        azimuth += draw.uniform(-40, 40)
        length = draw.uniform(30, 900)
        end = WGS84.Direct(line[-1][1], line[-1][0], azimuth, length)
        line.append((round(end["lon2"], 9), round(end["lat2"], 9)))
    azimuths = []
    for (lon1, lat1), (lon2, lat2) in zip(line, line[1:]):
        found = WGS84.Inverse(lat1, lon1, lat2, lon2)
        lengths.append(found["s12"])
        azimuths.append(found["azi1"])
    # On a segment, not on a corner: there two azimuths meet.
    segment = draw.randrange(len(lengths))
    along = draw.uniform(0.02, 0.98) * lengths[segment]
    across = draw.choice([0.0, 3.2, -4.4, 7.5])
    place = WGS84.Direct(line[segment][1], line[segment][0], azimuths[segment], along)
    beside = WGS84.Direct(place["lat2"], place["lon2"], place["azi2"] + 90, across)
    return {
        "line": [list(p) for p in line],
        "chainage_m": sum(lengths[:segment]) + along,
        "across_m": across,
        "lon": beside["lon2"],
        "lat": beside["lat2"],
    }


print(json.dumps({"source": "geographiclib 2.0", "cases": [case() for _ in range(24)]}, indent=1))
