"""Score networks on the held-out sets, side by side: `python3 score.py --heldout heldout.npz PROOF.onnx NEW.onnx …`.

Each network runs in the project's own runtime (logits.mjs), on the same clips with the same noise, with the same
decoder. Its one constant, the blank's handicap, is chosen for each network on the `dev` set, whose voices are neither
trained on nor reported. "Quiet" has white noise at 30 dB under every clip. Hum is a kind of noise training never saw;
the babble is made of real speech training never saw. The last column is a paired test (exact, two-sided) of each
network against the first: the chance that the clips on which they differ fall so by luck.
"""

import argparse
import json
import math
import os
import subprocess
import tempfile

import numpy as np

import lexicon
from decode import Graph
from jsgf import Grammars

RULES = {"commands": "judge.commands", "dev": "judge.commands", "chatter": "judge.commands",
         "numbers": "numbers.amount", "digits": "digits.string"}
CONDITIONS = {"commands": ["quiet", "water 10", "water 0", "babble 5", "hum 5"], "dev": ["water 5"],
              "numbers": ["quiet", "water 5"], "digits": ["quiet"], "chatter": ["quiet"]}
HANDICAPS = [0.0, -1.0, -2.0, -3.0]


def noise(kind: str, n: int, rng: np.random.Generator, talk: list[np.ndarray]) -> np.ndarray:
    time = np.arange(n) / 16000
    if kind == "quiet":
        made = rng.standard_normal(n)
    elif kind == "babble":
        made = np.zeros(n)
        for _ in range(5):
            voice = talk[rng.integers(len(talk))]
            made += np.resize(np.roll(voice, rng.integers(len(voice))), n) / (voice.std() + 1e-6)
    elif kind == "hum":
        made = 0.05 * rng.standard_normal(n) + 0.3 * np.sin(2 * np.pi * 1210 * time)
        for k in range(1, 12):
            made += np.sin(2 * np.pi * 50 * k * time + rng.uniform(0, 6.28)) / k**0.7
    else:  # water: pink noise that gurgles
        spectrum = np.fft.rfft(rng.standard_normal(n))
        made = np.fft.irfft(spectrum / np.sqrt(np.maximum(np.arange(len(spectrum)), 20)), n)
        made *= 1 + 0.5 * np.interp(time, np.arange(0, time[-1] + 0.2, 0.05), rng.standard_normal(int((time[-1] + 0.2) / 0.05) + 1)[: len(np.arange(0, time[-1] + 0.2, 0.05))])
    return made / (made.std() + 1e-9)


def run(model: str, clips: list[np.ndarray]) -> tuple[list[np.ndarray], float]:
    """Log-probabilities of every clip, and the median milliseconds for a second of sound."""
    with tempfile.TemporaryDirectory() as folder:
        paths = [os.path.join(folder, n) for n in ("sound", "lengths", "out")]
        np.concatenate([(c - c.mean()) / np.sqrt(c.var() + 1e-7) for c in clips]).astype(np.float32).tofile(paths[0])
        json.dump([len(c) for c in clips], open(paths[1], "w"))
        command = ["node", os.path.join(lexicon.HERE, "logits.mjs"), model, *paths]
        said = json.loads(subprocess.run(command, check=True, capture_output=True).stdout)
        scores = np.fromfile(paths[2], np.float32).reshape(-1, said["tokens"])
    pace = [ms / len(c) * 16000 for ms, c in zip(said["ms"], clips)]
    return np.split(scores, np.cumsum(said["frames"])[:-1]), float(np.median(pace))


def handicapped(scores: np.ndarray, handicap: float) -> np.ndarray:
    scores = scores.copy()
    scores[:, 0] += handicap
    top = scores.max(1, keepdims=True)
    return scores - top - np.log(np.exp(scores - top).sum(1, keepdims=True))


def tokens_of(model: str) -> list[str]:
    folder = os.path.dirname(model)
    beside = [os.path.join(f, "phones.json") for f in (folder, os.path.dirname(folder))]
    return json.load(open(next(p for p in beside if os.path.exists(p)), encoding="utf8"))


def paired(first: list[bool], other: list[bool]) -> float:
    gained = sum(o and not f for f, o in zip(first, other))
    lost = sum(f and not o for f, o in zip(first, other))
    n = gained + lost
    return min(1.0, 2 * sum(math.comb(n, k) for k in range(min(gained, lost) + 1)) / 2**n) if n else 1.0


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--heldout", required=True)
    parser.add_argument("--every", type=int, default=1, help="take each n-th command and prompt, for a quicker look")
    parser.add_argument("--sets", nargs="*", default=["commands", "numbers", "digits", "chatter"])
    parser.add_argument("models", nargs="+")
    args = parser.parse_args()

    archive = np.load(args.heldout)
    what = json.loads(bytes(archive["what"]))
    sounds = [s.astype(np.float32) / 32768 for s in np.split(archive["sound"], np.cumsum(archive["lengths"])[:-1])]
    talk = [s for w, s in zip(what, sounds) if w[0] == "chatter" and len(s) > 32000]
    grammars, words = Grammars(os.path.join(lexicon.HERE, "heldout")), lexicon.load()
    table: dict[str, list] = {}
    for model in args.models:
        graphs = {rule: Graph(grammars, rule, words, tokens_of(model)) for rule in set(RULES.values())}
        chosen, confidence = 0.0, []
        for which in ["dev", *args.sets]:
            rows = [(w, s) for w, s in zip(what, sounds) if w[0] == which][:: args.every if which in ("commands", "chatter") else 1]
            for condition in CONDITIONS[which]:
                kind, _, decibel = condition.partition(" ")
                rng = np.random.default_rng(5)
                level = 10 ** (-float(decibel or 30) / 20)
                clips = [s + (noise(kind, len(s), rng, talk) * np.sqrt((s**2).mean()) * level).astype(np.float32) for _, s in rows]
                scores, pace = run(model, clips)
                graph = graphs[RULES[which]]
                if which == "dev":
                    right = {h: sum(graph.decode(handicapped(x, h))[0] == w[2] for (w, _), x in zip(rows, scores)) for h in HANDICAPS}
                    chosen = max(HANDICAPS, key=lambda h: right[h])
                    print(f"{model}: handicap {chosen} of {right}, {pace:.1f} ms for a second of sound", flush=True)
                    continue
                heard = [graph.decode(handicapped(x, chosen)) for x in scores]
                if which == "chatter":
                    limit = sorted(confidence)[len(confidence) // 100]
                    marks = [c < limit for _, c in heard]
                else:
                    marks = [h == w[2] for (w, _), (h, _) in zip(rows, heard)]
                    if which == "commands" and condition == "quiet":
                        confidence = [c for m, (_, c) in zip(marks, heard) if m]
                table.setdefault(f"{which}, {condition}", []).append(marks)
                if which == "commands":
                    for voice in sorted({w[1] for w, _ in rows}):
                        mine = [m for m, (w, _) in zip(marks, rows) if w[1] == voice]
                        table.setdefault(f"  {voice}, {condition}", []).append(mine)
                if which in ("numbers", "digits"):
                    wrong = [(w[2], h) for (w, _), (h, _) in zip(rows, heard) if h != w[2]]
                    print(f"   {which}, {condition}: {wrong[:12]}", flush=True)
    print("| set | " + " | ".join(args.models) + " | chance |\n|---|" + "---|" * (len(args.models) + 1))
    for name, columns in table.items():
        chances = ", ".join(f"{paired(columns[0], c):.3g}" for c in columns[1:])
        print(f"| {name} | " + " | ".join(f"{sum(c)}/{len(c)}" for c in columns) + f" | {chances} |")


if __name__ == "__main__":
    main()
