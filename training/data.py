"""Shards of synthesised speech, held end to end in one tensor on the training device, and drawn in batches."""

import glob
import os
import queue
import random
import threading
import time

import numpy as np
import torch

RATE = 16000
STRETCH = 0.79  # `augment.resample` slows a clip by up to this factor


class Speech:
    """All utterances so far; a thread reads shards as they appear, `refresh` takes in what it has read."""

    def __init__(self, folder: str, hours: float, device: torch.device):
        self.folder, self.device = folder, device
        self.sound = torch.zeros(int(hours * 3600 * RATE), dtype=torch.int16, device=device)
        self.filled = 0
        self.offsets: list[int] = []
        self.lengths: list[int] = []
        self.tokens: list[np.ndarray] = []
        self.read: queue.Queue[tuple[np.ndarray, np.ndarray, list[np.ndarray]]] = queue.Queue(64)
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

    def plan(self, seconds: float, most_rows: int) -> list[list[int]]:
        """Batches of utterances of like length, each of about `seconds` of padded sound, in random order."""
        order = sorted(range(len(self.lengths)), key=lambda i: self.lengths[i] * random.uniform(0.9, 1.1))
        batches: list[list[int]] = []
        batch: list[int] = []
        for i in order:
            if batch and ((self.lengths[i] / RATE + 1) * (len(batch) + 1) > seconds or len(batch) >= most_rows):
                batches.append(batch)
                batch = []
            batch.append(i)
        random.shuffle(batches)
        return batches or [batch]

    def batch(self, rows: list[int], stretch: float = STRETCH) -> tuple[torch.Tensor, torch.Tensor, torch.Tensor]:
        """(sound with random silence around it, padded tokens, token counts), on the device."""
        offsets = torch.tensor([self.offsets[i] for i in rows], device=self.device)
        lengths = torch.tensor([self.lengths[i] for i in rows], device=self.device)
        lead = torch.randint(200, 5000, (len(rows),), device=self.device)
        size = int((max(self.lengths[i] for i in rows) + 5000) / stretch) + random.randrange(800, 5000)
        at = torch.arange(size, device=self.device)[None] - lead[:, None]
        inside = (at >= 0) & (at < lengths[:, None])
        index = (offsets[:, None] + at).clamp(0, self.filled - 1)
        sound = self.sound[index].float() / 32768 * inside
        counts = [len(self.tokens[i]) for i in rows]
        tokens = np.zeros((len(rows), max(counts)), np.int64)
        for j, i in enumerate(rows):
            tokens[j, : counts[j]] = self.tokens[i]
        return sound, torch.from_numpy(tokens).to(self.device), torch.tensor(counts, device=self.device)
