"""
A cord under its own weight
===========================

The solver alone against the elastic catenary (H. M. Irvine, Cable Structures, 1981, ch. 1; from memory). The number:
the order at which the error falls.
"""

import matplotlib.pyplot as plt
import numpy as np
from scipy.optimize import brentq

from tautlay.solver import STANDARD_GRAVITY, Cable, Structure, relax

SPAN, LENGTH, WEIGHT, EA = 4.0, 4.4, 2.0, 5000.0  # m, m, N/m, N
GRAVITY = -STANDARD_GRAVITY[2]


def miss(pull):
    """Return by how much the closed form misses the span with a horizontal tension, m."""
    return LENGTH * pull / EA + 2 * pull / WEIGHT * np.arcsinh(WEIGHT * LENGTH / (2 * pull)) - SPAN


pull = brentq(miss, 0.1, 1000.0, xtol=1e-12)
sag = WEIGHT * LENGTH**2 / (8 * EA) + (np.hypot(pull, WEIGHT * LENGTH / 2) - pull) / WEIGHT
counts, errors = np.array([4, 8, 16, 32, 64]), []
for count in counts:
    along = np.linspace(0.0, 1.0, count + 1)
    start = np.stack([SPAN * along, 0 * along, -np.sin(np.pi * along)], axis=1)
    segments = np.stack([np.arange(count), np.arange(1, count + 1)], axis=1)
    cord = Cable(segments, EA, LENGTH / count, mass=WEIGHT / GRAVITY)
    held = np.isin(np.arange(count + 1), (0, count))
    state = relax(Structure(start, [cord], fixed=held), tolerance=1e-10)
    errors.append(abs(-state.positions[:, 2].min() / sag - 1))
print(f"order {np.log2(errors[-2] / errors[-1]):.2f}")

figure, axes = plt.subplots(figsize=(5, 3.2), layout="constrained")
axes.loglog(counts, errors, "o-", label="sag")
axes.loglog(counts, errors[0] * (counts[0] / counts) ** 2, "0.6", label="second order")
axes.set(xlabel="segments", ylabel="relative error")
axes.legend()
plt.show()
