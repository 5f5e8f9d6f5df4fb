"""Shards of synthesised speech, held end to end in one tensor on the training device, and drawn in batches.

A row of a batch is one utterance or several in one breath (`Row`), played at one speed, with a little room around it.
Rows of like length go together, and sizes are rounded, so that little of a batch is silence and few shapes occur.
"""

import glob
import os
import queue
import random
import threading
import time
from dataclasses import dataclass

import numpy as np
import torch

from augment import Dice

RATE = 16000
LONGEST = 8.0  # s, of a row of several utterances
SPEEDS = (0.82, 1.26)
GRAIN = 2000  # samples; widths of batches are multiples of it
ROOM = [1200, 1200, 1200, 4800, 4800, 12000]  # samples of silence before and after, at most, each as often
GROUP = 16  # numbers of rows are multiples of it


@dataclass
class Row:
    """Utterances played one after another at `speed`, from `starts` (samples before the change of speed)."""

    parts: list[int]
    starts: list[int]
    speed: float
    samples: int  # as heard


class Speech:
    """All utterances so far; a thread reads shards as they appear, `refresh` takes in what it has read."""

    def __init__(self, folder: str, hours: float, device: torch.device):
        self.folder, self.device = folder, device
        self.sound = torch.zeros(int(hours * 3600 * RATE), dtype=torch.int16, device=device)
        self.filled = 0
        self.offsets: list[int] = []
        self.lengths: list[int] = []
        self.tokens: list[np.ndarray] = []
        self.read: queue.Queue[tuple[np.ndarray, np.ndarray, list[np.ndarray]]] = queue.Queue(256)
        self.all_read = threading.Event()
        threading.Thread(target=self._watch, daemon=True).start()

    def _watch(self) -> None:
        known: set[str] = set()
        while True:
            complete = os.path.exists(os.path.join(self.folder, "complete"))
            fresh = [f for f in sorted(glob.glob(os.path.join(self.folder, "shard-*.npz"))) if f not in known]
            if not fresh and complete:
                break
            for path in fresh:
                known.add(path)
                with np.load(path) as shard:
                    tokens = np.split(shard["tokens"].astype(np.int64), np.cumsum(shard["token_counts"])[:-1])
                    self.read.put((shard["sound"], shard["lengths"], tokens))
            time.sleep(0.5)
        self.all_read.set()

    @property
    def growing(self) -> bool:
        return not (self.all_read.is_set() and self.read.empty())

    def refresh(self) -> None:
        while not self.read.empty():
            sound, lengths, tokens = self.read.get()
            if self.filled + len(sound) > len(self.sound):
                continue
            self.sound[self.filled : self.filled + len(sound)] = torch.from_numpy(sound).to(self.device)
            starts = self.filled + np.concatenate([[0], np.cumsum(lengths)[:-1]])
            self.offsets += starts.tolist()
            self.lengths += lengths.tolist()
            self.tokens += tokens
            self.filled += len(sound)

    def rows(self, joined: float, speeds: tuple[float, float] = SPEEDS) -> list[Row]:
        """Every utterance once, in random order; this share of the rows holds several with hardly a pause between."""
        order = list(range(len(self.lengths)))
        random.shuffle(order)
        rows: list[Row] = []
        while order:
            speed = speeds[0] * (speeds[1] / speeds[0]) ** random.random()
            parts, starts = [order.pop()], [0]
            end = self.lengths[parts[0]]
            wanted = random.randrange(2, 7) if random.random() < joined else 1
            while order and len(parts) < wanted and (end + self.lengths[order[-1]]) / speed < LONGEST * RATE:
                starts.append(end + int(RATE * random.choice([0, 0, random.uniform(0, 0.1), random.uniform(0, 0.4)])))
                parts.append(order.pop())
                end = starts[-1] + self.lengths[parts[-1]]
            rows.append(Row(parts, starts, speed, int(end / speed)))
        return rows

    def plan(self, rows: list[Row], seconds: float, most_rows: int) -> list[list[Row]]:
        """Batches of rows of like length, each of about `seconds` of sound, in random order."""
        rows = sorted(rows, key=lambda row: row.samples * random.uniform(0.95, 1.05))
        batches: list[list[Row]] = []
        at = 0
        while at < len(rows):
            fitting = int(seconds / (rows[min(at + 64, len(rows) - 1)].samples / RATE + 0.5))
            count = max(GROUP, min(most_rows, fitting) // GROUP * GROUP)
            if len(rows) - at - count < GROUP:
                count = len(rows) - at
            batches.append(rows[at : at + count])
            at += count
        random.shuffle(batches)
        return batches

    def batch(self, rows: list[Row]) -> tuple[torch.Tensor, torch.Tensor, torch.Tensor, torch.Tensor]:
        """(sound in a little silence, padded tokens, token counts, speeds), on the device."""
        lead, tail = ([random.randrange(random.choice(ROOM)) for _ in rows] for _ in range(2))
        need = [row.samples + a + b for row, a, b in zip(rows, lead, tail)]
        # some long leads must not make the whole batch wait: these rows give up part of their silence
        size = max(sorted(need)[int(len(need) * 0.7)], max(row.samples for row in rows) + 800)
        size += -size % GRAIN
        lead = [min(a, size - row.samples - 400) for row, a in zip(rows, lead)]
        lead = [a + random.randrange(0, max(1, size - row.samples - a)) * (random.random() < 0.3) for row, a in zip(rows, lead)]
        column = lambda values: torch.tensor(values, device=self.device)[:, None]
        # a speed that wanders by some per cent
        drift = Dice(len(rows), self.device).smooth(max(2, size // 4000), size, 0.03).clamp(-0.1, 0.1)
        time_line = torch.cumsum(1 + drift, 1)
        time_line = time_line / time_line[:, -1:] * (size - 1)
        speed = column([row.speed for row in rows])
        played = (time_line - column(lead)) * speed
        sound = torch.zeros(len(rows), size, device=self.device)
        for k in range(max(len(row.parts) for row in rows)):
            part = [row.parts[k] if k < len(row.parts) else row.parts[0] for row in rows]
            start = column([row.starts[k] if k < len(row.parts) else 10**9 for row in rows])
            at = played - start
            inside = (at >= 0) & (at < column([self.lengths[p] for p in part]) - 1)
            at = torch.where(inside, at, torch.zeros_like(at))
            left = at.long()
            index = column([self.offsets[p] for p in part]) + left
            share = at - left
            value = self.sound[index].float() * (1 - share) + self.sound[(index + 1).clamp(max=len(self.sound) - 1)].float() * share
            sound = sound + value / 32768 * inside
        tokens = [np.concatenate([self.tokens[p] for p in row.parts]) for row in rows]
        padded = np.zeros((len(rows), max(map(len, tokens))), np.int64)
        for j, t in enumerate(tokens):
            padded[j, : len(t)] = t
        counts = torch.tensor([len(t) for t in tokens], device=self.device)
        return sound, torch.from_numpy(padded).to(self.device), counts, speed
