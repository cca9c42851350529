"""Curves and log-rank of made lives by group, beside lifelines on the same lives in the same run:

    lasting_peers.py <bench> [lives] [groups]

needs lifelines. The peer reads the lives as raw columns, which is not timed, fits a curve for each group with its bands and
tests between all groups. Each in a process of its own, for its memory.
"""

import json
import pathlib
import resource
import subprocess
import sys
import tempfile
import time

BENCH = sys.argv[1]
LIVES, GROUPS = (sys.argv[2:] + ["10000000", "4"][len(sys.argv) - 2 :])[:2]


def peer(folder):
    import numpy
    from lifelines import KaplanMeierFitter
    from lifelines.statistics import multivariate_logrank_test

    read = lambda name, kind: numpy.fromfile(pathlib.Path(folder) / name, kind)
    durations, failed, groups = read("durations.f64", "<f8"), read("failed.u8", "u1"), read("groups.u8", "u1")
    start = time.perf_counter()
    medians, at_a_year = [], []
    for group in numpy.unique(groups):
        mine = groups == group
        curve = KaplanMeierFitter().fit(durations[mine], failed[mine])
        curve.confidence_interval_
        medians.append(float(curve.median_survival_time_))
        at_a_year.append(float(curve.predict(365.0)))
    curves = time.perf_counter() - start
    test = multivariate_logrank_test(durations, groups, failed)
    print(json.dumps({
        "curves": curves,
        "seconds": time.perf_counter() - start,
        "memory_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        "medians": medians,
        "survival_at_365": at_a_year,
        "chi2": float(test.test_statistic),
    }))


if BENCH == "--peer":
    peer(sys.argv[2])
    sys.exit()

with tempfile.TemporaryDirectory() as folder:
    ask = [BENCH, "lasting", "--lives", LIVES, "--groups", GROUPS, "--json"]
    ours = json.loads(subprocess.check_output([*ask, "--write", folder]))
    theirs = json.loads(subprocess.check_output([sys.executable, __file__, "--peer", folder]))
assert ours["medians"] == theirs["medians"], (ours["medians"], theirs["medians"])
for a, b in zip(ours["survival_at_365"] + [ours["chi2"]], theirs["survival_at_365"] + [theirs["chi2"]]):
    assert abs(a - b) <= 1e-6 * max(1.0, abs(b)), (a, b)
print(f"| {int(LIVES):,} lives in {GROUPS} groups | ours | lifelines |")
print("|---|---|---|")
print(f"| curves, bands, log-rank | {ours['seconds']:.2f} s | {theirs['seconds']:.2f} s (curves {theirs['curves']:.2f} s) |")
print(f"| most memory, the lives included | {ours['memory_mb']:.0f} MB | {theirs['memory_mb']:.0f} MB |")
