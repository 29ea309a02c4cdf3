"""Figures from reference libraries, for the tests beside the modules to compare with.

Regenerate, in a virtual environment outside the tree, then look at what changed:

    python -m venv /tmp/reference && /tmp/reference/bin/pip install -r tests/reference/requirements.txt
    /tmp/reference/bin/python tests/reference/reference.py

heat_index.csv   MetPy's heat index with both adjustments. MetPy takes up the regression from 79 °F of the simple
                 formula (the NWS: from 80 °F) and gives the air temperature at 40 °F and below. Rows where that decides
                 are left out: simple formula from 79 to below 80 °F, or air at most 40 °F.
wilson.csv       statsmodels' proportion_confint(method="wilson"), 95 %.
limits.csv       The smallest limit on a grid of 0.05 whose chance of a false signal within the horizon is small enough.
chances.csv      The chance of a signal of a learning-curve CUSUM within so many attempts, by a Markov chain over the
                 scores that can be reached, as a sparse matrix (Brook & Evans 1972, Biometrika 59:539–549).
run_lengths.csv  Mean attempts to the signal of the same charts, by solving (I − R) a = 1; and of the rising chart (Page
                 1954), which watches for decline, at p0 .2, p1 .4, h 2.5 and at the smallest limit on the grid that
                 keeps false alarms 200 attempts apart.
lattice.csv      The same for a CUSUM with whole weights, where the chain is small and exact.
"""

import csv
import math
from collections import deque
from pathlib import Path

import numpy as np
from metpy.calc import heat_index
from metpy.units import units
from scipy.sparse import csr_array, identity
from scipy.sparse.linalg import spsolve
from statsmodels.stats.proportion import proportion_confint

HERE = Path(__file__).parent


def write(name, header, rows):
    with open(HERE / name, "w", newline="") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(header)
        writer.writerows(rows)


def heat():
    rows = []
    for celsius in np.arange(5, 60.5, 2.5):
        fahrenheit = celsius * 1.8 + 32
        for percent in sorted({*range(0, 101, 10), 3, 12, 13, 14, 85, 86, 93}):
            simple = 0.5 * (fahrenheit + 61 + (fahrenheit - 68) * 1.2 + percent * 0.094)
            if fahrenheit <= 40 or 79 <= simple < 80:
                continue
            found = heat_index(fahrenheit * units.degF, percent * units.percent, mask_undefined=False)
            rows.append((f"{celsius:g}", percent, f"{found.to('degF').magnitude.item():.6f}"))
    write("heat_index.csv", ("air_c", "humidity_percent", "heat_index_f"), rows)


def wilson():
    rows = []
    for attempts in (1, 2, 3, 5, 8, 10, 12, 15, 16, 20, 29, 30, 50, 83, 100, 263, 395, 1000):
        for met in sorted({0, 1, attempts // 3, attempts // 2, attempts * 4 // 5, attempts - 1, attempts}):
            low, high = proportion_confint(met, attempts, alpha=0.05, method="wilson")
            rows.append((met, attempts, f"{low:.10f}", f"{high:.10f}"))
    write("wilson.csv", ("met", "attempts", "low", "high"), rows)


class Chart:
    """A learning-curve CUSUM as a chain: the score rises when the criterion is met, falls when missed, stays at 0 or above."""

    def __init__(self, rise, fall, limit, miss, depth):
        self.miss = miss
        self.states = {0: 0}
        score = [0.0]
        steps = []
        waiting = deque([(0, 0)])
        while waiting:
            at, used = waiting.popleft()
            for weight, chance in ((rise, 1 - miss), (-fall, miss)):
                value = max(score[at] + weight, 0.0)
                if value >= limit - 1e-9:
                    continue
                key = round(value * 1e9)
                if key not in self.states:
                    if used >= depth:
                        continue
                    self.states[key] = len(score)
                    score.append(value)
                    waiting.append((self.states[key], used + 1))
                steps.append((at, self.states[key], chance))
        size = len(score)
        rows, columns, chances = zip(*steps) if steps else ((), (), ())
        self.chain = csr_array((chances, (rows, columns)), shape=(size, size))

    def chances(self, within):
        alive = np.zeros(self.chain.shape[0])
        alive[0] = 1.0
        found = [0.0]
        for _ in range(within):
            alive = self.chain.T @ alive
            found.append(max(0.0, 1.0 - alive.sum()))
        return found

    def run_length(self):
        size = self.chain.shape[0]
        return spsolve((identity(size, format="csr") - self.chain).tocsc(), np.ones(size))[0]


def weights(ready, not_ready):
    return math.log((1 - ready) / (1 - not_ready)), math.log(not_ready / ready)


def learning_curve(ready, not_ready, limit, miss, depth):
    return Chart(*weights(ready, not_ready), limit, miss, depth)


def rising(ready, not_ready, limit, miss):
    met, missed = weights(ready, not_ready)
    return Chart(missed, met, limit, 1 - miss, 4000).run_length()


def smallest_limit(ready, not_ready, horizon, most):
    for point in range(1, 201):
        chart = learning_curve(ready, not_ready, point * 0.05, not_ready, horizon + 1)
        if chart.chances(horizon)[-1] <= most:
            return point * 0.05
    raise ValueError("no limit on the grid")


CLASSES = {"ordinary": (0.20, 0.40, 50, 0.20), "safety": (0.05, 0.20, 50, 0.05)}
AT = (1, 9, 10, 11, 20, 23, 24, 30, 40, 50, 51, 75, 100, 150, 200, 300, 400, 500)


def readiness():
    limits, chances, lengths = [], [], []
    for name, (ready, not_ready, horizon, most) in CLASSES.items():
        rise, fall = weights(ready, not_ready)
        limit = smallest_limit(ready, not_ready, horizon, most)
        limits.append((name, ready, not_ready, horizon, most, f"{rise:.12f}", f"{-fall:.12f}", f"{limit:.2f}"))
        for miss in (not_ready, ready):
            chart = learning_curve(ready, not_ready, limit, miss, 501)
            found = chart.chances(500)
            chances += [(name, miss, attempts, f"{found[attempts]:.10f}") for attempts in AT]
            chart = learning_curve(ready, not_ready, limit, miss, 4000)
            lengths.append(("learning_curve", name, f"{limit:.2f}", miss, f"{chart.run_length():.6f}"))
        apart = next(p * 0.05 for p in range(1, 201) if rising(ready, not_ready, p * 0.05, ready) >= 200)
        for limit in sorted({apart, 2.5}):
            for miss in (ready, not_ready):
                length = rising(ready, not_ready, limit, miss)
                lengths.append(("rising", name, f"{limit:.2f}", miss, f"{length:.6f}"))
    head = ("class", "ready_misses", "not_ready_misses", "horizon", "most", "weight_met", "weight_missed", "limit")
    write("limits.csv", head, limits)
    write("chances.csv", ("class", "misses", "attempts", "chance"), chances)
    write("run_lengths.csv", ("chart", "class", "limit", "misses", "attempts"), lengths)


def lattice():
    rows = []
    for up, down, limit in ((1, 2, 5), (1, 1, 5), (1, 3, 5), (9, 1, 20), (2, 1, 7)):
        for chance_up in (0.05, 0.1, 0.2, 0.5, 0.6, 0.8, 0.9):
            chart = Chart(up, down, limit, 1 - chance_up, 10_000)
            rows.append((up, down, limit, chance_up, f"{chart.run_length():.6f}"))
    write("lattice.csv", ("up", "down", "limit", "chance_up", "attempts"), rows)


if __name__ == "__main__":
    heat()
    wilson()
    readiness()
    lattice()
