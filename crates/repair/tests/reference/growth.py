"""Reference values for the growth on cutting. numpy 2, scipy 1.15 or later.

    python growth.py > growth.json

1. `quantiles`: Student's t by scipy.stats.t.ppf.
2. `updates`: the belief after records, by brute force: prior density of (mean, variance) times likelihood on a grid,
   summed numerically; no conjugate formula is used.
3. `sums`: a million draws each of sums over holes, with a stand-in for a repair's quantities: V = a g plus a step.
"""

import json
import math

import numpy as np
from scipy import stats


def quantiles():
    rows = []
    for freedom in (3.0, 4.5, 12.0, 40.0, 1000.0):
        for p in (0.001, 0.1, 0.25, 0.5, 0.9, 0.95, 0.999):
            rows.append({"p": p, "freedom": freedom, "t": float(stats.t.ppf(p, freedom))})
    return rows


def update(prior, records):
    """Posterior of one normal's mean and variance on a grid, and what it says of the next record."""
    mean, mean_weight, sigma, spread_weight = prior
    alpha, beta = spread_weight / 2, spread_weight * sigma**2 / 2
    records = np.array(records)
    # Wide, fine grid; the variance on a log scale.
    mus = np.linspace(-1.6, 1.6, 3201)
    logs = np.linspace(math.log(1e-4), math.log(4.0), 1601)
    variances = np.exp(logs)
    mu, variance = np.meshgrid(mus, variances, indexing="ij")
    density = stats.invgamma.logpdf(variance, alpha, scale=beta) + np.log(variance)
    density = density + stats.norm.logpdf(mu, mean, np.sqrt(variance / mean_weight))
    for record in records:
        density = density + stats.norm.logpdf(record, mu, np.sqrt(variance))
    weight = np.exp(density - density.max())
    weight /= weight.sum()
    posterior_mean = float((weight * mu).sum())
    # E[1/variance] = alpha/beta = 1/sigma^2 in our words.
    precision = float((weight / variance).sum())
    # The next record's quantiles, from its distribution function on the grid.
    of_variance = weight.sum(axis=0)
    found = {}
    for p in (0.1, 0.5, 0.9):
        low, high = -4.0, 4.0
        for _ in range(45):
            middle = (low + high) / 2
            below = float((weight * stats.norm.cdf(middle, mu, np.sqrt(variance))).sum())
            low, high = (middle, high) if below < p else (low, middle)
        found[f"p{int(p * 100)}"] = (low + high) / 2
    assert abs(of_variance.sum() - 1) < 1e-9
    return {"prior": dict(zip(("mean", "mean_weight", "sigma", "spread_weight"), prior)),
            "records": records.tolist(), "mean": posterior_mean, "sigma": precision**-0.5, **found}


def sums(rng, roads, rho, belief, volumes, draws=1_000_000):
    """Quantiles of a sum: base volume a g of each hole."""
    mean, mean_weight, sigma, spread_weight = belief
    spread = sigma * np.sqrt(spread_weight / rng.chisquare(spread_weight, draws))
    mu = mean + spread / math.sqrt(mean_weight) * rng.standard_normal(draws)
    common = {road: rng.standard_normal(draws) for road in sorted(set(roads))}
    total = np.zeros(draws)
    for road, volume in zip(roads, volumes):
        z = math.sqrt(rho) * common[road] + math.sqrt(1 - rho) * rng.standard_normal(draws)
        total += volume * np.exp(mu + spread * z)
    p10, p50, p90 = (float(v) for v in np.quantile(total, (0.1, 0.5, 0.9)))
    return {"roads": roads, "rho": rho, "volumes_m3": volumes, "p10": p10, "p50": p50, "p90": p90}


def main():
    rng = np.random.default_rng(20261125)
    shipped = (math.log(1.2), 5.0, 0.215, 12.0)
    updates = [
        update(shipped, [0.3, 0.1, 0.45, 0.2]),
        update(shipped, [0.0] * 10),
        update((0.2, 1.0, 0.3, 4.0), rng.normal(0.35, 0.2, 25).round(4).tolist()),
    ]
    volumes = [0.10, 0.25, 0.05, 0.40, 0.12, 0.18, 0.30, 0.08]
    groups = [[0, 0, 1, 1, 1, 2, 3, 4], [0] * 8, list(range(8))]
    json.dump({
        "made_by": f"growth.py, numpy {np.__version__}, scipy {__import__('scipy').__version__}",
        "quantiles": quantiles(),
        "updates": updates,
        "sums": [sums(rng, roads, rho, shipped, volumes) for rho in (0.0, 0.5, 1.0) for roads in groups],
    }, __import__("sys").stdout, indent=1)


main()
