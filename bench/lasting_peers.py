"""Curves and log-rank of made lives by group, beside lifelines and scikit-survival on the same lives in the same run:

    lasting_peers.py <bench> [lives] [groups]

needs lifelines; scikit-survival where it is installed. Each peer reads the lives as raw columns, which is not timed, fits a curve
for each group with its bands and tests between all groups. Each in a process of its own, for its memory.
"""

import importlib.util
import json
import pathlib
import resource
import subprocess
import sys
import tempfile
import time

BENCH = sys.argv[1]
LIVES, GROUPS = (sys.argv[2:] + ["10000000", "4"][len(sys.argv) - 2 :])[:2]


def lifelines(durations, failed, groups):
    import numpy
    from lifelines import KaplanMeierFitter
    from lifelines.statistics import multivariate_logrank_test

    medians, at_a_year = [], []
    for group in numpy.unique(groups):
        mine = groups == group
        curve = KaplanMeierFitter().fit(durations[mine], failed[mine])
        curve.confidence_interval_
        medians.append(float(curve.median_survival_time_))
        at_a_year.append(float(curve.predict(365.0)))
    yield medians, at_a_year
    yield float(multivariate_logrank_test(durations, groups, failed).test_statistic)


def sksurv(durations, failed, groups):
    import numpy
    from sksurv.compare import compare_survival
    from sksurv.nonparametric import kaplan_meier_estimator
    from sksurv.util import Surv

    failed = failed.astype(bool)
    medians, at_a_year = [], []
    for group in numpy.unique(groups):
        mine = groups == group
        times, survival, _ = kaplan_meier_estimator(failed[mine], durations[mine], conf_type="log-log")
        medians.append(float(times[numpy.argmax(survival <= 0.5)]))
        at_a_year.append(float(survival[numpy.searchsorted(times, 365.0, side="right") - 1]))
    yield medians, at_a_year
    yield float(compare_survival(Surv.from_arrays(failed, durations), groups)[0])


PEERS = {"lifelines": lifelines, "sksurv": sksurv}


def peer(name, folder):
    import numpy

    importlib.import_module(name)
    read = lambda file, kind: numpy.fromfile(pathlib.Path(folder) / file, kind)
    columns = read("durations.f64", "<f8"), read("failed.u8", "u1"), read("groups.u8", "u1")
    start = time.perf_counter()
    steps = PEERS[name](*columns)
    medians, at_a_year = next(steps)
    curves = time.perf_counter() - start
    chi2 = next(steps)
    print(json.dumps({
        "curves": curves,
        "seconds": time.perf_counter() - start,
        "memory_mb": resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
        "medians": medians,
        "survival_at_365": at_a_year,
        "chi2": chi2,
    }))


if BENCH == "--peer":
    peer(*sys.argv[2:4])
    sys.exit()

there = [name for name in PEERS if importlib.util.find_spec(name)]
with tempfile.TemporaryDirectory() as folder:
    ask = [BENCH, "lasting", "--lives", LIVES, "--groups", GROUPS, "--json"]
    ours = json.loads(subprocess.check_output([*ask, "--write", folder]))
    asked = ([sys.executable, __file__, "--peer", name, folder] for name in there)
    theirs = [json.loads(subprocess.check_output(ask)) for ask in asked]
for name, their in zip(there, theirs):
    assert ours["medians"] == their["medians"], (name, ours["medians"], their["medians"])
    for a, b in zip(ours["survival_at_365"] + [ours["chi2"]], their["survival_at_365"] + [their["chi2"]]):
        assert abs(a - b) <= 1e-6 * max(1.0, abs(b)), (name, a, b)
print(f"| {int(LIVES):,} lives in {GROUPS} groups | ours | {' | '.join(there)} |")
print("|---|---|" + "---|" * len(there))
times = [f"{their['seconds']:.2f} s (curves {their['curves']:.2f} s)" for their in theirs]
print(f"| curves, bands, log-rank | {ours['seconds']:.2f} s | {' | '.join(times)} |")
memory = [f"{their['memory_mb']:.0f} MB" for their in theirs]
print(f"| most memory, the lives included | {ours['memory_mb']:.0f} MB | {' | '.join(memory)} |")
