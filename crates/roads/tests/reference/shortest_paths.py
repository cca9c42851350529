"""Writes shortest_paths.json: a made-up road network and the driving times between some of its roads.

Independent of the crate: lengths by geographiclib (PyPI), shortest paths by networkx (PyPI).
    pip install networkx geographiclib && python shortest_paths.py
"""

import json
import random
from pathlib import Path

import networkx
from geographiclib.geodesic import Geodesic

SIDE = 45
random.seed(20261125)


def main():
    nodes = [
        (round(21_000_000 + 4_000 * (x + random.uniform(-0.35, 0.35))), round(-14_000_000 + 4_000 * (y + random.uniform(-0.35, 0.35))))
        for y in range(SIDE)
        for x in range(SIDE)
    ]
    arcs = []  # from node, to node, km/h: each a one-way road
    for y in range(SIDE):
        for x in range(SIDE):
            for dx, dy in ((1, 0), (0, 1)):
                if x + dx < SIDE and y + dy < SIDE:
                    here, there = y * SIDE + x, (y + dy) * SIDE + x + dx
                    # One direction or the other may be missing, and some have a second road beside the first.
                    for a, b in ((here, there), (there, here)):
                        for _ in range(random.choices((0, 1, 2), (20, 75, 5))[0]):
                            arcs.append((a, b, random.randint(12, 90)))
    # Five nodes that no road joins to the others, and one that is only led to.
    first = len(nodes)
    nodes += [(21_300_000 + 5_000 * i, -14_000_000) for i in range(6)]
    arcs += [(first + i, first + (i + 1) % 5, 50) for i in range(5)] + [(7, first + 5, 30)]

    graph = networkx.DiGraph()
    graph.add_nodes_from(range(len(nodes)))
    length = {}
    times = []
    for a, b, kmh in arcs:
        metres = Geodesic.WGS84.Inverse(nodes[a][1] / 1e6, nodes[a][0] / 1e6, nodes[b][1] / 1e6, nodes[b][0] / 1e6)["s12"]
        length[a, b] = metres
        times.append(round(metres / (kmh / 3.6) * 1000))
        if not graph.has_edge(a, b) or graph[a][b]["weight"] > times[-1]:
            graph.add_edge(a, b, weight=times[-1])

    places = sorted(random.sample(range(len(arcs) - 6), 50)) + [len(arcs) - 6, len(arcs) - 3, len(arcs) - 1]
    milliseconds, metres = [], []
    for i in places:
        tail, head, _ = arcs[i]
        distances, paths = networkx.single_source_dijkstra(graph, head)
        row_ms, row_m = [], []
        for j in places:
            target = arcs[j][0]
            if i == j:
                row_ms.append(0), row_m.append(0)
            elif target not in distances:
                row_ms.append(None), row_m.append(None)
            else:
                # The place is at the start of its road: out along the whole of it, in over nothing.
                row_ms.append(times[i] + distances[target])
                path = paths[target]
                row_m.append(round(length[tail, head] + sum(length[pair] for pair in zip(path, path[1:])), 2))
        milliseconds.append(row_ms)
        metres.append(row_m)

    text = json.dumps(
        {"nodes_microdegrees": nodes, "arcs": arcs, "places": places, "milliseconds": milliseconds, "metres": metres},
        separators=(",", ":"),
    )
    Path(__file__).with_name("shortest_paths.json").write_text(text + "\n")


main()
