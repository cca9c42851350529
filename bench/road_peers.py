"""Driving times of a road file against general-purpose peers on the same graph, in the same run:

    road_peers.py <bench> <file.osm.pbf> [places] [seed]

needs networkx and pandana (each a general library of graphs). Times of 1,000 random pairs must be those of networkx; the
matrix is timed against pandana's contraction hierarchies (C++). pandana takes one number for a weight and writes it as
whole thousandths, so it is given seconds. One thread each, unless OMP_NUM_THREADS says otherwise.
"""

import csv
import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import time
import warnings

os.environ.setdefault("OMP_NUM_THREADS", "1")

import networkx
import numpy
import pandana
import pandas

# pandana lists every pair that no road joins.
warnings.simplefilter("ignore")
BENCH, FILE = sys.argv[1:3]
PLACES, SEED = (sys.argv[3:] + ["500", "1"][len(sys.argv) - 3 :])[:2]
UNREACHABLE = 2**32 - 1


def read(path):
    with open(path, newline="") as file:
        return list(csv.reader(file))


with tempfile.TemporaryDirectory() as folder:
    command = [BENCH, "matrix", FILE, "--places", PLACES, "--seed", SEED, "--json", "--graph", folder]
    own = json.loads(subprocess.run(command, capture_output=True, check=True, text=True).stdout)
    folder = pathlib.Path(folder)
    nodes = pandas.read_csv(folder / "nodes.csv")
    arcs = pandas.read_csv(folder / "arcs.csv")
    places = pandas.read_csv(folder / "places.csv")
    times = [[int(cell) for cell in row] for row in read(folder / "times.csv")]

graph = networkx.DiGraph()
for tail, head, ms in arcs.itertuples(index=False):
    known = graph.get_edge_data(tail, head)
    graph.add_edge(tail, head, weight=min(ms, known["weight"]) if known else ms)
pairs = random.Random(int(SEED))
wrong = 0
start = time.perf_counter()
for _ in range(1000):
    row, column = pairs.randrange(len(places)), pairs.randrange(len(places))
    try:
        ms = networkx.bidirectional_dijkstra(graph, places.out[row], places["into"][column])[0]
    except networkx.NetworkXNoPath:
        ms = UNREACHABLE
    if times[row][column] != ms:
        wrong += 1
        print(f"{row} -> {column}: {times[row][column]} ms, networkx {ms} ms")
seconds_networkx = time.perf_counter() - start

start = time.perf_counter()
network = pandana.Network(
    nodes.lon, nodes.lat, arcs["from"], arcs["to"], pandas.DataFrame({"s": arcs.ms / 1000.0}), twoway=False
)
peer_prepare = time.perf_counter() - start
sources = numpy.repeat(places.out.to_numpy(), len(places))
targets = numpy.tile(places["into"].to_numpy(), len(places))
start = time.perf_counter()
lengths = network.shortest_path_lengths(sources, targets, imp_name="s")
peer_matrix = time.perf_counter() - start
own_seconds = numpy.array(times, dtype=float).ravel() / 1000.0
reached = own_seconds < UNREACHABLE / 1000.0
differs = float(numpy.abs(numpy.array(lengths)[reached] - own_seconds[reached]).max())

print(f"| what | ours | pandana {pandana.__version__} |")
print("|---|---|---|")
print(f"| {own['file']}: {own['sections']} sections made ready | {own['seconds_prepare']:.3f} s (with junctions and index) | {peer_prepare:.3f} s |")
print(f"| {PLACES} x {PLACES} driving times | {own['seconds_matrix']:.4f} s | {peer_matrix:.3f} s (furthest from ours: {differs * 1000:.0f} ms) |")
print(f"| 1,000 random pairs | {1000 - wrong} equal | networkx {networkx.__version__}: {seconds_networkx:.1f} s |")
sys.exit(wrong > 0)
