"""Reference values for the mark-out tests, from shapely (GEOS).

    python3 -m venv venv && venv/bin/pip install shapely==2.2.0
    venv/bin/python shapely_rectangles.py > shapely_rectangles.json

All outlines are synthetic. Per outline: its points; the area of the least rectangle around it; the same around the
outline grown by 25 mm (round joins of 256 chords a quarter, so within about 1e-6 of the true one); and the furthest
distance from that bare rectangle's ring to the outline, sampled every millimetre (none where another
rectangle on a side of the hull has the same area within 0.1 %, as on triangles). Per group: points of two or three
outlines that overlap, and the area they cover together.
"""

import json
import math
import random

import numpy
import shapely
from shapely.geometry import Polygon

random.seed(20161)
MARGIN_M = 0.025


def star(count, size, along, across):
    """A simple outline: random radii at rising angles, stretched and turned."""
    stretch, turn = random.uniform(0.3, 1.0), random.uniform(0, math.pi)
    angles = sorted(random.uniform(0, 2 * math.pi) for _ in range(count))
    points = []
    for angle in angles:
        radius = size * random.uniform(0.5, 1.0)
        x, y = radius * math.cos(angle), stretch * radius * math.sin(angle)
        points.append([
            round(along + x * math.cos(turn) - y * math.sin(turn), 6),
            round(across + x * math.sin(turn) + y * math.cos(turn), 6),
        ])
    return points


def farthest(outer, outline):
    ring = outer.exterior
    steps = numpy.arange(0.0, ring.length, 0.001)
    return float(shapely.distance(shapely.line_interpolate_point(ring, steps), outline.exterior).max())


def is_unique(outline):
    """Whether no second rectangle on a side of the hull comes within 0.1 % of the least area."""
    hull = numpy.array(outline.convex_hull.exterior.coords)
    sides = numpy.diff(hull, axis=0)
    sides /= numpy.hypot(*sides.T)[:, None]
    along, across = hull @ sides.T, hull @ numpy.array([-sides[:, 1], sides[:, 0]])
    areas = numpy.sort(numpy.ptp(along, axis=0) * numpy.ptp(across, axis=0))
    return areas[1] > 1.001 * areas[0]


outlines = []
while len(outlines) < 200:
    points = star(random.choice([3, 4, 5, 8, 20, 60]), random.uniform(0.1, 2.0), random.uniform(0, 5000), random.uniform(-3, 3))
    outline = Polygon(points)
    if not outline.is_valid or outline.area < 1e-3:
        continue
    rectangle = outline.minimum_rotated_rectangle
    grown = outline.buffer(MARGIN_M, quad_segs=256).minimum_rotated_rectangle
    outlines.append({
        "points": points,
        "area_m2": rectangle.area,
        "grown_area_m2": grown.area,
        "farthest_m": farthest(rectangle, outline) if is_unique(outline) else None,
    })

groups = []
while len(groups) < 40:
    rings = [star(12, 0.8, 100 + random.uniform(-0.5, 0.5), random.uniform(-0.5, 0.5)) for _ in range(random.choice([2, 3]))]
    polygons = [Polygon(ring) for ring in rings]
    if not all(p.is_valid for p in polygons) or shapely.union_all(polygons).geom_type != "Polygon":
        continue
    groups.append({"rings": rings, "union_area_m2": shapely.union_all(polygons).area})

print(json.dumps({"shapely": shapely.__version__, "outlines": outlines, "groups": groups}))
