"""A plain reference decoder for scoring: JSGF rule → word graph → phone graph → Viterbi over CTC scores."""

import numpy as np

from jsgf import Expression, Grammars


class Graph:
    """One state for every phone of every pronunciation, each with an optional blank after it."""

    def __init__(self, grammars: Grammars, rule: str, lexicon: dict[str, list[list[str]]], tokens: list[str]):
        self.grammars, self.lexicon = grammars, lexicon
        self.ids = {t: i for i, t in enumerate(tokens)}
        self.skips: list[set[int]] = []
        self.arcs: list[tuple[int, int, str]] = []
        begin, end = self._build(("rule", rule), "")
        self._lay_out(begin, end)

    def _node(self) -> int:
        self.skips.append(set())
        return len(self.skips) - 1

    def _build(self, e: Expression, home: str) -> tuple[int, int]:
        begin, end = self._node(), self._node()
        if isinstance(e, str):
            self.arcs.append((begin, end, e))
            return begin, end
        kind, body = e
        parts = [body] if kind in ("rule", "opt", "many") else body
        if kind == "rule":
            full = self.grammars.resolve(body, home) if home else body
            parts, home = [self.grammars.rules[full]], self.grammars.home[full]
        last = begin
        for part in parts:
            a, b = self._build(part, home)
            self.skips[begin if kind == "alt" else last].add(a)
            if kind == "alt":
                self.skips[b].add(end)
            last = b
            if kind == "many":
                self.skips[b].add(a)
        if kind != "alt":
            self.skips[last].add(end)
        if kind == "opt":
            self.skips[begin].add(end)
        return begin, end

    def _reach(self, node: int) -> set[int]:
        seen, todo = {node}, [node]
        while todo:
            for n in self.skips[todo.pop()] - seen:
                seen.add(n)
                todo.append(n)
        return seen

    def _lay_out(self, begin: int, end: int) -> None:
        label: list[int] = [0]  # state 0: blank before the first word
        self.word: list[str | None] = [None]
        edges: set[tuple[int, int]] = {(0, 0)}
        heads: dict[int, list[int]] = {}
        tails: list[tuple[int, int]] = []

        def link(phone: int, following: int) -> None:
            edges.add((phone + 1, following))
            if label[phone] != label[following]:
                edges.add((phone, following))

        for a, b, word in self.arcs:
            for phones in self.lexicon[word]:
                previous = -1
                for phone in phones:
                    state = len(label)
                    label += [self.ids.get(phone, self.ids.get(phone.rstrip("1"), 0)), 0]
                    self.word += [None, None]
                    edges |= {(state, state), (state, state + 1), (state + 1, state + 1)}
                    if previous < 0:
                        heads.setdefault(a, []).append(state)
                    else:
                        link(previous, state)
                    previous = state
                self.word[previous] = word
                tails.append((previous, b))
        self.starts = [0] + [h for n in self._reach(begin) for h in heads.get(n, [])]
        edges |= {(0, h) for h in self.starts}
        finals = []
        for state, node in tails:
            reached = self._reach(node)
            for n in reached:
                for h in heads.get(n, []):
                    link(state, h)
            if end in reached:
                finals += [state, state + 1]
        self.label, self.finals = np.array(label), np.array(finals)
        ordered = np.array(sorted(edges, key=lambda e: e[1]))
        self.source, target = ordered[:, 0], ordered[:, 1]
        self.first = np.flatnonzero(np.r_[True, np.diff(target) > 0])
        self.target = target[self.first]
        self.spread = np.diff(np.r_[self.first, len(target)])

    def decode(self, logs: np.ndarray) -> tuple[str, float]:
        """Best sentence, and how far per frame its path lies below the best unconstrained one (≤ 0)."""
        states = len(self.label)
        score = np.full(states, -1e9)
        score[self.starts] = logs[0][self.label[self.starts]]
        back = np.zeros((len(logs), states), np.int32)
        index = np.arange(len(self.source))
        for t in range(1, len(logs)):
            offered = score[self.source]
            best = np.maximum.reduceat(offered, self.first)
            winner = np.minimum.reduceat(np.where(offered >= np.repeat(best, self.spread), index, len(index)), self.first)
            score = np.full(states, -1e9)
            score[self.target] = best + logs[t][self.label[self.target]]
            back[t, self.target] = self.source[winner]
        state = int(self.finals[np.argmax(score[self.finals])])
        distance = (score[state] - logs.max(1).sum()) / len(logs)
        words, following = [], -1
        for t in range(len(logs) - 1, -1, -1):
            if state != following and self.word[state]:
                words.append(self.word[state])
            following, state = state, int(back[t, state])
        return " ".join(reversed(words)), float(distance)
