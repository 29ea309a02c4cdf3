"""Reference values for trends and rate ratios: what scipy says of the inputs that the tests of domain/outcomes use.

Run with trends.requirements.txt installed; its output is kept in trends.txt.
"""
from scipy.stats import binomtest, theilslopes

SERIES = [
    ("falling", [0, 2, 4, 7, 9, 12, 14, 17], [18, 15, 16, 12, 11, 9, 10, 6]),
    ("level", [0, 1, 3, 4, 6, 8, 9, 11], [10, 12, 9, 11, 10, 12, 9, 11]),
    ("rising, with ties", [0, 3, 5, 8, 10, 13, 15], [4, 4, 5, 7, 7, 9, 12]),
    ("two on one day", [0, 0, 2, 4, 4, 6, 9], [12, 10, 11, 8, 9, 7, 5]),
    ("many ties", [0, 1, 2, 3, 4, 5, 6, 7, 8, 9], [6, 4, 6, 6, 6, 4, 5, 6, 4, 6]),
    ("five", [0, 1, 2, 3, 4], [9, 7, 8, 5, 4]),
]
for name, x, y in SERIES:
    slope, _, low, high = theilslopes(y, x, 0.95)
    print(f"theilslopes {name}: {slope:.6f} {low:.6f} {high:.6f}")
for x, n in [(81, 263), (15, 148), (0, 20), (1, 29), (5, 18), (9, 10), (20, 20), (300, 1200)]:
    ci = binomtest(x, n).proportion_ci(0.95, method="exact")
    print(f"exact {x}/{n}: {ci.low:.6f} {ci.high:.6f}")
