"""An export of an invented city, read and its repeats found, beside general-purpose peers on the same file in the same run:

    intake_peers.py <bench> [rows] [seed]

needs shapely and numpy. The peer reads with Python's csv, holds places against the island's box, and asks shapely's STRtree
for all pairs within the reach of two reports of the public, 120 days apart at most. It says nothing of what is wrong and
makes no holes of the pairs: rows that are in a pair are counted, which are a few more than those in our holes, since in a
hole every row must fit every other. Each peer in a process of its own, for its memory.
"""

import csv
import datetime
import json
import math
import pathlib
import resource
import subprocess
import sys
import tempfile
import time

BENCH = sys.argv[1]
ROWS, SEED = (sys.argv[2:] + ["1000000", "1"][len(sys.argv) - 2 :])[:2]


def peer(path):
    import numpy
    import shapely

    start = time.perf_counter()
    lon, lat, day = [], [], []
    rows = 0
    with open(path, newline="", encoding="utf-8") as file:
        for row in csv.DictReader(file):
            rows += 1
            try:
                x, y = float(row["Longitude"]), float(row["Latitude"])
            except ValueError:
                continue
            if -28.7 <= x <= -28.1 and 47.1 <= y <= 47.5:
                lon.append(x)
                lat.append(y)
                day.append(datetime.datetime.fromisoformat(row["Opened"]).toordinal())
    read = time.perf_counter() - start
    lon, lat, day = numpy.array(lon), numpy.array(lat), numpy.array(day)
    metres = math.pi / 180 * 6371008.8
    points = shapely.points(lon * numpy.cos(numpy.radians(47.3)) * metres, lat * metres)
    one, other = shapely.STRtree(points).query(points, predicate="dwithin", distance=math.hypot(6, 6))
    near = (one < other) & (numpy.abs(day[one] - day[other]) <= 120)
    paired = numpy.unique(numpy.concatenate([one[near], other[near]]))
    print(json.dumps({
        "rows": rows,
        "used": len(lon),
        "seconds_read": read,
        "seconds": time.perf_counter() - start,
        "pairs": int(near.sum()),
        "rows_in_pairs": len(paired),
        "memory_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        "shapely": shapely.__version__,
    }))


def run(*command):
    return json.loads(subprocess.run(command, capture_output=True, check=True, text=True).stdout)


if BENCH == "--peer":
    peer(sys.argv[2])
    sys.exit()
with tempfile.TemporaryDirectory() as folder:
    path = str(pathlib.Path(folder) / "export.csv")
    own = run(BENCH, "intake", "--rows", ROWS, "--seed", SEED, "--file", path, "--json")
    theirs = run(sys.executable, __file__, "--peer", path)
    size = pathlib.Path(path).stat().st_size / 1e6
    geojson = run(BENCH, "intake", "--rows", ROWS, "--seed", SEED, "--file", path, "--format", "geojson", "--json")
    geojson_size = pathlib.Path(path).stat().st_size / 1e6
print(f"| {int(ROWS):,} rows | ours | Python csv, shapely {theirs['shapely']} STRtree |")
print("|---|---|---|")
print(f"| CSV, {size:.0f} MB: read | {own['seconds_read']:.2f} s | {theirs['seconds_read']:.2f} s |")
print(f"| read and matched | {own['seconds']:.2f} s | {theirs['seconds']:.2f} s |")
print(f"| most memory | {own['memory_mb']:.0f} MB | {theirs['memory_mb']:.0f} MB |")
print(f"| rows used | {own['rows'] - own['refused']:,} | {theirs['used']:,} |")
print(f"| rows of holes told more than once | {own['repeats'] + own['holes_told_again']:,} | {theirs['rows_in_pairs']:,} in pairs |")
print(f"| GeoJSON, {geojson_size:.0f} MB: read and matched | {geojson['seconds']:.2f} s, {geojson['memory_mb']:.0f} MB | |")
sys.exit(own["rows"] - own["refused"] != theirs["used"])
