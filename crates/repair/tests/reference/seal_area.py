"""Sealed areas of seeded cuts by shapely (GEOS): mitred buffer, clipped to the pavement.

Run in an environment with shapely 2: `python seal_area.py > seal_area.json`. All shapes are invented.
"""

import json
import math
import random

import shapely
from shapely import affinity
from shapely.geometry import Polygon, box

SHAPES = [
    [(0, 0), (1, 0), (1, 1), (0, 1)],
    [(0, 0), (1, 0), (1, 0.4), (0.5, 0.4), (0.5, 1), (0, 1)],
    [(0, 0), (1, 0), (1, 0.5), (0.7, 0.5), (0.7, 1), (0.3, 1), (0.3, 0.5), (0, 0.5)],
    [(0, 0), (1, 0), (1, 1), (0.65, 1), (0.65, 0.6), (0.35, 0.6), (0.35, 1), (0, 1)],
]


def case(chance):
    """One cut: stretched, turned and set anywhere on a road up to 60 km long."""
    ring = Polygon(chance.choice(SHAPES))
    ring = affinity.scale(ring, chance.uniform(0.3, 4), chance.uniform(0.3, 2), origin=(0, 0))
    ring = affinity.rotate(ring, chance.uniform(-90, 90), origin="centroid")
    ring = affinity.translate(ring, chance.uniform(0, 60_000), chance.uniform(-4, 3))
    overlap = chance.uniform(0.02, 0.3)
    grown = ring.buffer(overlap, join_style="mitre", mitre_limit=5)
    edge = math.ceil(10 * max(abs(ring.bounds[1]), abs(ring.bounds[3]))) / 10
    pavement = [-edge, edge] if chance.random() < 0.7 else None
    if pavement:
        grown = grown.intersection(box(-10, pavement[0], 70_000, pavement[1]))
    corners = [list(point) for point in ring.exterior.coords[:-1]]
    return {"corners": corners, "pavement": pavement, "overlap": overlap, "area": grown.area}


def main():
    chance = random.Random(7)
    cases = [case(chance) for _ in range(60)]
    lines = ",\n".join(json.dumps(case) for case in cases)
    print(f'{{"shapely": "{shapely.__version__}", "geos": "{shapely.geos_version_string}", "cases": [\n{lines}\n]}}')


main()
