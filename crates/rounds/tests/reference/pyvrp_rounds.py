"""Makes synthetic rounds and solves them with PyVRP 0.14.1 (PyPI); writes pyvrp_rounds.json beside this file.

    python -m venv venv && venv/bin/pip install pyvrp==0.14.1 && venv/bin/python pyvrp_rounds.py

One vehicle that starts at the shift's start, prize collecting, cost = seconds until it is back + prizes left out.
Worths are points and an hour costs 3600 points, so that a point is a second. A site's window is for the whole work;
PyVRP's is for its start. Several windows: one PyVRP client per window in a group of which at most one is served.
Families: `windows` (a window each), `split` (several windows), `reload` (several trips, base limited, loading time).
"""

import json
import math
import pathlib
import random

from pyvrp import Model
from pyvrp.stop import MaxRuntime

SECONDS = 8
SEEDS = (1, 2)
START = 7 * 3600


def instance(family, sites, hours, seed):
    draw = random.Random(f"{family}-{sites}-{seed}")
    points = [(draw.uniform(0, 20), draw.uniform(0, 20)) for _ in range(sites + 1)]
    if seed % 2:  # clustered
        centres = [(draw.uniform(0, 20), draw.uniform(0, 20)) for _ in range(4)]
        points[1:] = [tuple(c + draw.gauss(0, 1.5) for c in draw.choice(centres)) for _ in range(sites)]
    travel = [[math.ceil(math.dist(a, b) * 90) for b in points] for a in points]  # 40 km/h
    end = START + hours * 3600
    listed = []
    for _ in range(sites):
        service = draw.randrange(600, 2400)
        windows = []
        if family == "windows" and draw.random() < 0.7 or family == "split":
            at = START + draw.randrange(0, hours * 1800)
            for _ in range(1 if family == "windows" else 2):
                to = at + service + draw.randrange(1200, 2 * 3600)
                windows.append([at, to])
                at = to + draw.randrange(600, 5400)
        else:
            windows.append([START, end])
        listed.append(
            {
                "service_s": service,
                "windows": windows,
                "worth": draw.randrange(600, 7200),
                "base_l": draw.randrange(50, 600) if family == "reload" else 0,
            }
        )
    return {
        "name": f"{family}-{sites}-{hours}h-{seed}",
        "shift": [START, end],
        "loading_s": 900 if family == "reload" else 0,
        "base_room_l": 2000 if family == "reload" else None,
        "travel_s": travel,
        "sites": listed,
    }


def solve(data, run_seconds=SECONDS, seeds=SEEDS):
    best = None
    for seed in seeds:
        model = Model()
        locations = [model.add_location(0, 0) for _ in data["travel_s"]]
        depot = model.add_depot(locations[0], service_duration=data["loading_s"])
        room = data["base_room_l"]
        model.add_vehicle_type(
            1,
            capacity=[room] if room else [10**9],
            start_depot=depot,
            end_depot=depot,
            tw_early=data["shift"][0],
            tw_late=data["shift"][1],
            start_late=data["shift"][0],
            unit_distance_cost=0,
            unit_duration_cost=1,
            reload_depots=[depot] if room else [],
        )
        for place, site in enumerate(data["sites"], start=1):
            group = model.add_client_group(required=False) if len(site["windows"]) > 1 else None
            for from_, to in site["windows"]:
                model.add_client(
                    locations[place],
                    delivery=[site["base_l"]],
                    service_duration=site["service_s"],
                    tw_early=from_,
                    tw_late=to - site["service_s"],
                    prize=site["worth"],
                    required=False,
                    group=group,
                )
        for i, row in enumerate(data["travel_s"]):
            for j, seconds in enumerate(row):
                model.add_edge(locations[i], locations[j], distance=seconds, duration=seconds)
        result = model.solve(MaxRuntime(run_seconds), seed=seed, display=False)
        assert result.is_feasible()
        # of a site's clients at most one is served: the prizes of the others are left out in any case
        cost = result.cost() - sum((len(site["windows"]) - 1) * site["worth"] for site in data["sites"])
        best = cost if best is None else min(best, cost)
    return best


def main():
    rows = []
    for family in ("windows", "split", "reload"):
        for sites, hours in ((15, 8), (25, 8), (25, 12), (40, 10), (40, 16)):
            data = instance(family, sites, hours, len(rows))
            data["pyvrp_objective"] = solve(data)
            print(data["name"], data["pyvrp_objective"], sum(s["worth"] for s in data["sites"]), flush=True)
            rows.append(data)
    text = "[\n" + ",\n".join(json.dumps(row, separators=(",", ":")) for row in rows) + "\n]\n"
    pathlib.Path(__file__).with_name("pyvrp_rounds.json").write_text(text)


if __name__ == "__main__":
    main()
