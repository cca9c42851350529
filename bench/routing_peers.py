"""PyVRP beside our search on the same VRPLIB file, at the same time, each on one processor core and for so many seconds of it:

    routing_peers.py BENCH SECONDS FILE.vrp [FILE.vrp ...]

Prints a row of the table in README.md a file. PyVRP reads its distances as its own collection of instances says: rounded to
whole numbers, or times ten and cut off; costs are brought to the unit of the best known one.
"""

import json
import os
import pathlib
import subprocess
import sys
import time

SEED = 1
ROUNDING = {"VRPTW": "dimacs", "PCVRPTW": "dimacs", "MTVRPTWR": "dimacs", "MDVRPTW": "exact", "HFVRP": "exact", "VRPB": "round"}
SCALE = {"round": 1, "dimacs": 10, "exact": 1000}


def peer(file, seconds):
    import pyvrp
    rounding = ROUNDING.get(pathlib.Path(file).parent.name, "round")
    problem = pyvrp.read(file, round_func=rounding)
    result = pyvrp.solve(problem, stop=lambda _: time.process_time() > seconds, seed=SEED, display=False)
    cost = result.cost() / SCALE[rounding] if result.is_feasible() else None
    print(json.dumps({"cost": cost, "routes": result.best.num_routes()}))


def best_known(file):
    text = pathlib.Path(file).with_suffix(".sol").read_text()
    return next(float(line.split()[-1]) for line in text.splitlines() if line.lower().startswith("cost"))


def scaled_alike(cost, best):
    """Published costs of a set may be in tenths or thousandths of the unit of its distances."""
    return min((cost * factor for factor in (0.001, 0.01, 0.1, 1, 10, 100, 1000)), key=lambda value: abs(value - best))


def main(bench, seconds, files):
    print("| instance | best known | ours | gap | PyVRP | gap |\n|---|---|---|---|---|---|", flush=True)
    for file in files:
        start = time.monotonic()
        commands = [
            [bench, "cvrp", file, "--cpu-seconds", seconds, "--seed", str(SEED), "--json"],
            [sys.executable, __file__, "peer", file, seconds],
        ]
        running = [
            subprocess.Popen(["taskset", "-c", str(core % os.cpu_count()), *command], stdout=subprocess.PIPE, text=True)
            for core, command in enumerate(commands)
        ]
        ours, theirs = (json.loads(process.communicate()[0]) for process in running)
        best = best_known(file)
        cells = []
        for found in (ours, theirs):
            if found["cost"] is None:
                cells += ["no plan that holds", ""]
                continue
            cost = scaled_alike(found["cost"], best)
            cells += [f"{cost:.10g}, {found['routes']} routes", f"{(cost / best - 1) * 100:.2f} %"]
        print(f"| {pathlib.Path(file).stem} | {best:.10g} | {' | '.join(cells)} |", flush=True)
        print(f"{file}: {time.monotonic() - start:.0f} s", file=sys.stderr)


if sys.argv[1] == "peer":
    peer(sys.argv[2], float(sys.argv[3]))
else:
    main(sys.argv[1], sys.argv[2], sys.argv[3:])
