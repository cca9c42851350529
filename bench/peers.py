"""General-purpose peers for the stages, measured in the same run. Called by run.sh:

    peers.py <lengthsman> <bench>
"""

import json
import math
import pathlib
import subprocess
import sys
import tempfile
import time

import networkx
import shapely

LENGTHSMAN, BENCH = sys.argv[1:3]
ROOT = pathlib.Path(__file__).resolve().parent.parent
REFERENCE = ROOT / "crates/rounds/tests/reference"
sys.path.append(str(REFERENCE))
from pyvrp_rounds import solve  # noqa: E402  the peer's model of a round is written once, beside its check values

SIDE = 60


def ours(stage):
    best = None
    for _ in range(5):
        seconds = [float(word) for word in subprocess.run([BENCH, stage], capture_output=True, check=True).stdout.split()]
        best = seconds if best is None else [min(a, b) for a, b in zip(best, seconds)]
    return best


def outlines():
    rings = []
    for hole in range(1000):
        ring = []
        for index in range(100):
            angle = math.tau * index / 100
            radius = 0.3 + 0.15 * math.sin(3 * angle + hole) + 0.02 * math.cos(17 * angle)
            ring.append((5.0 * hole + radius * math.cos(angle), radius * math.sin(angle)))
        rings.append(shapely.Polygon(ring))
    start = time.perf_counter()
    shapely.minimum_rotated_rectangle(rings)
    return time.perf_counter() - start


def matrix():
    start = time.perf_counter()
    graph = networkx.DiGraph()

    def metres(a, b):
        dx = (a[0] - b[0]) * 0.003 * 111_320 * math.cos(math.radians(47.26))
        return math.hypot(dx, (a[1] - b[1]) * 0.002 * 111_200)

    for x in range(SIDE):
        for y in range(SIDE):
            for to in ((x + 1, y), (x, y + 1)):
                if max(to) < SIDE:
                    a, b = x * SIDE + y, to[0] * SIDE + to[1]
                    seconds = metres((x, y), to) / ((30 + (a * 7 + b * 13) % 60) / 3.6)
                    graph.add_edge(a, b, weight=seconds)
                    graph.add_edge(b, a, weight=seconds)
    ready = time.perf_counter() - start
    places = [((i * 37) % SIDE) * SIDE + (i * 23) % SIDE for i in range(80)]
    start = time.perf_counter()
    for place in places:
        networkx.single_source_dijkstra_path_length(graph, place)
    return ready, time.perf_counter() - start


def round_file(data):
    start, end = data["shift"]
    room = data["base_room_l"] or 10**6
    return {
        "shift_start_s": start,
        "shift_end_s": end,
        "loading_s": data["loading_s"],
        "points_per_hour": 3600.0,
        "payload_kg": 1e9,
        "capacity": {"base_m3": room / 1000},
        "travel_s": data["travel_s"],
        "sites": [
            {
                "service_s": site["service_s"],
                "worth": site["worth"],
                "windows_s": site["windows"],
                "needs": {"base_m3": site["base_l"] / 1000},
            }
            for site in data["sites"]
        ],
    }


def rounds():
    rows = json.loads((REFERENCE / "pyvrp_rounds.json").read_text())
    for data in [row for row in rows if len(row["sites"]) == 40]:
        with tempfile.NamedTemporaryFile("w", suffix=".json") as file:
            json.dump(round_file(data), file)
            file.flush()
            start = time.perf_counter()
            answer = subprocess.run([LENGTHSMAN, "round", file.name], capture_output=True, check=True).stdout
            seconds = time.perf_counter() - start
        yield data["name"], json.loads(answer)["objective_points"], seconds, solve(data, max(seconds, 0.5), seeds=(1,))


(own,) = ours("outlines")
print(f"| 1,000 outlines of 100 points to cuts | {own:.3f} s | shapely {shapely.__version__} minimum_rotated_rectangle {outlines():.3f} s |")
ready, many = ours("matrix")
their_ready, their_many = matrix()
print(f"| 3,600 junctions made ready | {ready:.3f} s | networkx {networkx.__version__} graph built {their_ready:.3f} s |")
print(f"| 80 x 80 driving times | {many:.3f} s | networkx 80 Dijkstra runs {their_many:.3f} s |")
for name, objective, seconds, peer in rounds():
    print(f"| round {name}: cost (lower is better) | {objective:.0f} in {seconds:.2f} s | PyVRP, the same time (0.5 s at least) {peer:.0f} |")
