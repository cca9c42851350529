"""Water of a repair in weather that dries a stock that is too wet: quantiles over the growth of the cut, by numpy.

Invented cut and weather; formulas of handbook/methods/growth.md, layers-and-fill.md and water.md, rules as shipped.
Prints the values that `moisture.rs` holds the program to.
"""

import numpy as np

length, width, depth = 1.2, 0.9, 0.22
dry_density, stock, optimum, greatest_layer, crown = 0.98 * 2200.0, 0.076, 0.065, 0.150, 0.007
warm, wind, humidity, hours = 38.0, 30.0, 0.10, 1.0
median, mean_weight, sigma, spread_weight, depth_share = 1.20, 5.0, 0.215, 12.0, 0.60

chance = np.random.default_rng(2026)
t = chance.standard_t(spread_weight, 4_000_000)
g = np.exp(np.log(median) + sigma * np.sqrt(1.0 + 1.0 / mean_weight) * t)
d, a = depth * g**depth_share, length * width * g ** (1.0 - depth_share)
layers = np.maximum(1.0, np.ceil(d / greatest_layer))
dry = (a * d + a * crown / 2.0) * dry_density
loss = 5e-6 * (1.0 - humidity) * (warm + 18.0) ** 2.5 * (wind + 4.0) * hours * a * layers
short = dry * (optimum - stock)
for name, water in [("to add", np.maximum(0.0, short + loss)), ("to dry", np.maximum(0.0, -short - loss))]:
    print(name, *(f"{value:.3f}" for value in np.quantile(water, [0.10, 0.50, 0.90])))
