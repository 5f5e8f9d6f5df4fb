"""Learns what counts how much for what a line means (src/language/open/ranker.ts): a conditional logit over the rows of
ranker-rows.mjs, drawn to that file's weights (PRIOR). Rows of ranker-kept.mjs are to stay as likely as they were. Two minutes of
one core; Python 3 with numpy and scipy.

    python3 training/ranker.py KEYED KEPT WEIGHTS.json      writes the weights
    python3 training/ranker.py KEYED KEPT --leave-out       each writer judged by what the others teach
"""

import json
import re
import sys
from collections import Counter

import numpy as np
from scipy.optimize import minimize
from scipy.sparse import csr_matrix

PRIOR = {
    name: float(value)
    for name, value in re.findall(
        r"^  (\w+): (-?[\d.]+),$",
        open("src/language/open/ranker.ts").read().split("PRIOR = {")[1].split("};")[0],
        re.M,
    )
}
LEAST_LINES = 4
"""what fewer lines have counts for nothing"""
DRAW = {"said": 2.0, "other": 1.0}
"""how strongly weights are drawn to the prior, by what they are of"""
KEPT = 8.0
"""how many keyed lines a line counts for that is to stay as it is"""
LEAST_WEIGHT = 0.03


def keyed(path):
    return json.load(open(path))


def kept(path):
    """Lines that no longer differ in anything count once; `score` is what made out how likely each meaning was."""
    lines = {line for line in open(path) if '"words":""' not in line}
    rows = [json.loads(line) for line in sorted(lines)]
    return [row for row in rows if len(row["of"]) > 1]


class Rows:
    def __init__(self, learnt, held):
        rows = learnt + held
        lines = Counter(name for row in rows for name in {n for c in row["of"] for n in c["features"]})
        names = [n for n, count in lines.items() if n in PRIOR or count >= LEAST_LINES]
        self.names = {name: i for i, name in enumerate(names)}
        of = [(i, c) for i, row in enumerate(rows) for c in row["of"]]
        cells = [
            (value, at, self.names[name])
            for at, (_, c) in enumerate(of)
            for name, value in c["features"].items()
            if name in self.names
        ]
        values, at, columns = zip(*cells)
        self.X = csr_matrix((values, (at, columns)), shape=(len(of), len(names)))
        self.row = np.array([i for i, _ in of])
        self.right = np.array([bool(c.get("right")) for _, c in of])
        self.held = np.array([i >= len(learnt) for i in range(len(rows))])
        scores = np.array([c.get("score", 0.0) for _, c in of])
        self.was = softmax(scores, self.row, len(rows))
        self.prior = np.array([PRIOR.get(n, 0.0) for n in names])
        self.draw = np.array([DRAW["said" if " said " in n else "other"] for n in names])
        self.writer = np.array([row.get("set", "") for row in rows])

    def fit(self, without=None):
        use = (self.writer != without)[self.row]
        X, right, was = self.X[use], self.right[use], self.was[use]
        ids, row = np.unique(self.row[use], return_inverse=True)
        n = len(ids)
        has = (np.bincount(row, right, n) > 0).astype(float)
        stays = np.where(self.held[ids], KEPT, 0.0)

        def loss(w):
            p = softmax(X @ w, row, n)
            meant = np.bincount(row, p * right, n) + 1e-9
            lost = -(np.log(meant) * has).sum() - (stays[row] * was * np.log(p + 1e-12)).sum()
            off = (p - np.where(right, p, 0) / meant[row]) * has[row] + stays[row] * (p - was)
            away = w - self.prior
            return lost + (self.draw * away**2).sum(), X.T @ off + 2 * self.draw * away

        return minimize(loss, self.prior.copy(), jac=True, method="L-BFGS-B", options={"maxiter": 400}).x


def softmax(scores, row, n):
    most = np.full(n, -np.inf)
    np.maximum.at(most, row, scores)
    e = np.exp(scores - most[row])
    return e / np.bincount(row, e, n)[row]


def judged(rows, p):
    """Lines in all, lines whose likeliest meaning is right, mean log loss."""
    of = np.flatnonzero(~rows.held)
    meant = np.bincount(rows.row, p * rows.right, len(rows.held))[of]
    best = np.zeros(len(rows.held))
    np.maximum.at(best, rows.row, p)
    first = np.zeros(len(rows.held), bool)
    np.logical_or.at(first, rows.row, rows.right & (p == best[rows.row]))
    has = meant > 0
    return len(of), first[of].sum(), -np.log(meant[has] + 1e-9).sum() / len(of)


def main():
    learnt, held, out = keyed(sys.argv[1]), kept(sys.argv[2]), sys.argv[3]
    rows = Rows(learnt, held)
    if out != "--leave-out":
        weights = {
            name: round(float(w), 2)
            for name, w in sorted(zip(rows.names, rows.fit()))
            if name in PRIOR or abs(w) >= LEAST_WEIGHT
        }
        json.dump(weights, open(out, "w"), indent=0, ensure_ascii=False)
        print(len(weights), "weights")
        return
    before = softmax(rows.X @ rows.prior, rows.row, len(rows.held))
    print("the prior: of %d lines %d right first, log loss %.3f" % judged(rows, before))
    after = before.copy()
    for writer in sorted({row["set"] for row in learnt}):
        mine = (rows.writer == writer)[rows.row]
        scores = rows.X @ rows.fit(without=writer)
        after[mine] = softmax(scores, rows.row, len(rows.held))[mine]
    print("by the others: of %d lines %d right first, log loss %.3f" % judged(rows, after))


main()
