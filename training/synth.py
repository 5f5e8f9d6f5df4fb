"""Synthesise training speech: `python3 synth.py --out DIR --minutes M --jobs N --seed S`.

Each worker draws a text, a speaker and a way of speaking, and writes shards of a few hundred utterances as they are
made, so that training may begin on the first ones. A shard holds 16 kHz int16 sound end to end, and for each utterance
its length, its tokens and what was said. The same seed, worker count and number of utterances give the same data;
a time limit only cuts the sequence short.
"""

import argparse
import json
import os
import random
import re
import subprocess
import sys
import time
import wave
from multiprocessing import Process

import numpy as np

import lexicon
import voices
from text import REDUCED, Writer

RATE = 16000
SHARD = 256
ENV = dict(os.environ, LD_LIBRARY_PATH=os.path.join(lexicon.TOOLS, "lib"), ESPEAK_DATA_PATH=voices.DATA)

IPA = {"tʃ": "CH", "dʒ": "JH", "aɪ": "AY", "aʊ": "AW", "eɪ": "EY", "ɔɪ": "OY", "oʊ": "OW", "əʊ": "OW", "iː": "IY",
       "uː": "UW", "ɔː": "AO", "ɑː": "AA", "ɜː": "ER", "i": "IY", "ɪ": "IH", "ᵻ": "IH", "e": "EH", "ɛ": "EH",
       "æ": "AE", "a": "AE", "ɒ": "AO", "ɔ": "AO", "ʌ": "AH", "ə": "AH", "ɐ": "AH", "ɚ": "ER", "ɜ": "ER", "ʊ": "UH",
       "u": "UW", "o": "OW", "ɹ": "R", "r": "R", "ŋ": "NG", "θ": "TH", "ð": "DH", "ʃ": "SH", "ʒ": "ZH", "ɡ": "G",
       "j": "Y", "ɾ": "T", "ʔ": "T", "h": "HH", "x": "K", **{c: c.upper() for c in "bdfgklmnpstvwz"}}
IPA_PATTERN = re.compile("|".join(sorted(IPA, key=len, reverse=True)))


class Speaker:
    """One synthesiser voice in one manner of speaking."""

    def __init__(self, dev: bool):
        self.espeak = dev or random.random() < 0.46
        self.voice, self.options = voices.draw_espeak(dev) if self.espeak else voices.draw_flite()

    def say(self, text: str, path: str) -> tuple[np.ndarray, list[str]]:
        """Sound at 16 kHz and the phones the synthesiser says it spoke."""
        if self.espeak:
            command = ["espeak-ng", "-v", self.voice, *self.options, "--ipa", "-w", path, text]
        else:
            command = ["flite", "-voice", self.voice, *self.options, "-ps", "-t", text, "-o", path]
        command[0] = os.path.join(lexicon.TOOLS, "bin", command[0])
        done = subprocess.run(command, env=ENV, check=True, capture_output=True, timeout=20)
        spoken = done.stdout.decode("utf8", "ignore")
        if self.espeak:
            phones = [IPA[m] for m in IPA_PATTERN.findall(spoken)]
        else:
            phones = ["AH" if p == "ax" else p.upper() for p in spoken.split() if p != "pau"]
        return read(path), phones


def read(path: str) -> np.ndarray:
    with wave.open(path) as w:
        rate, sound = w.getframerate(), np.frombuffer(w.readframes(w.getnframes()), np.int16).astype(np.float32) / 32768
    return sound if rate == RATE else resample(sound, rate)


def resample(x: np.ndarray, rate: int) -> np.ndarray:
    """Band-limited change of rate through the spectrum of the whole clip."""
    n = int(len(x) * RATE / rate)
    spectrum = np.fft.rfft(x)
    bins = n // 2 + 1
    spectrum = spectrum[:bins] if len(spectrum) >= bins else np.pad(spectrum, (0, bins - len(spectrum)))
    return (np.fft.irfft(spectrum, n) * (n / len(x))).astype(np.float32)


def trimmed(x: np.ndarray) -> np.ndarray:
    """Cut close: without the silence at the ends but for some hundredths of a second, in which an f may still fade."""
    frames = np.abs(x[: len(x) // 160 * 160]).reshape(-1, 160).max(1, initial=0)
    loud = np.flatnonzero(frames > frames.max(initial=0) * 0.012)
    if len(loud) == 0:
        return x
    begin = max(0, int(loud[0]) * 160 - random.randrange(0, 500))
    return x[begin : int(loud[-1]) * 160 + 160 + random.randrange(0, 800)]


def word_by_word(speaker: Speaker, words: list[str], path: str) -> tuple[np.ndarray, list[str]]:
    """Each word spoken alone and joined with gaps, as people dictate numbers."""
    gap = random.choice([0.0, random.uniform(0, 0.15), random.uniform(0.1, 0.5)])
    parts, phones = [], []
    for word in words:
        sound, spoken = speaker.say(word, path)
        parts += [trimmed(sound) * random.uniform(0.6, 1), np.zeros(int(RATE * gap * random.uniform(0.3, 1)), np.float32)]
        phones += spoken
    return np.concatenate(parts), phones


def slurred(words: list[str]) -> list[str]:
    """As people say it in one breath: small words reduced, sounds run together. The labels stay those of the whole words."""
    if random.random() < 0.45:
        return words
    lazy = random.uniform(0.2, 0.8)
    return [random.choice(REDUCED[w]) if w in REDUCED and random.random() < lazy else w for w in words]


def utterance(writer: Writer, path: str, dev: bool) -> tuple[np.ndarray, list[int], str, str]:
    text = writer.draw()
    speaker = Speaker(dev)
    words = text.split()
    if len(words) <= 6 and random.random() < 0.28:
        sound, spoken = word_by_word(speaker, words, path)
    else:
        sound, spoken = speaker.say(" ".join(words if dev else slurred(words)), path)
        sound = trimmed(sound)
    tokens = lexicon.nearest([writer.lexicon[w] for w in words], spoken)
    return sound, [lexicon.TOKEN_ID[t] for t in tokens], text, speaker.voice


def write_shard(folder: str, name: str, made: list) -> None:
    arrays = {"sound": np.concatenate([m[0] for m in made]), "lengths": np.array([len(m[0]) for m in made]),
              "tokens": np.concatenate([np.array(m[1], np.int16) for m in made]),
              "token_counts": np.array([len(m[1]) for m in made])}
    said = json.dumps([{"text": m[2], "voice": m[3]} for m in made])
    partial = os.path.join(folder, f"partial-{name}.tmp")
    with open(partial, "wb") as f:
        np.savez(f, said=np.frombuffer(said.encode(), np.uint8), **arrays)
    os.rename(partial, os.path.join(folder, f"shard-{name}.npz"))


def worker(index: int, folder: str, seed: int, until: float, limit: int, dev: bool) -> None:
    os.nice(5)
    writer = Writer(lexicon.load())
    path = os.path.join(folder, f"worker-{index}.wav")
    made, shard, failed = [], 0, 0
    for n in range(limit):
        if time.time() > until:
            break
        random.seed(f"{seed}/{index}/{n}")
        try:
            sound, tokens, text, voice = utterance(writer, path, dev)
        except (subprocess.SubprocessError, OSError, wave.Error, EOFError):
            failed += 1
            continue
        peak = float(np.abs(sound).max()) if len(sound) else 0
        if not 0.15 * RATE < len(sound) < 7.5 * RATE or peak < 0.01 or len(tokens) * 0.035 * RATE > len(sound):
            continue
        made.append(((sound / peak * 30000).astype(np.int16), tokens, text, voice))
        if len(made) == (SHARD if shard else 48):
            write_shard(folder, f"{index:02d}-{shard:04d}", made)
            made, shard = [], shard + 1
    if made:
        write_shard(folder, f"{index:02d}-{shard:04d}", made)
    if failed:
        print(f"worker {index}: {failed} utterances failed", file=sys.stderr)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", required=True)
    parser.add_argument("--minutes", type=float, default=6, help="stop after this long")
    parser.add_argument("--jobs", type=int, default=os.cpu_count())
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--utterances", type=int, default=10**9, help="at most this many in all")
    parser.add_argument("--dev", action="store_true", help="with the voices kept for choosing between networks")
    args = parser.parse_args()
    os.makedirs(args.out, exist_ok=True)
    until = time.time() + args.minutes * 60
    team = [Process(target=worker, args=(i, args.out, args.seed, until, -(-args.utterances // args.jobs), args.dev))
            for i in range(args.jobs)]
    for p in team:
        p.start()
    for p in team:
        p.join()
    open(os.path.join(args.out, "complete"), "w").close()


if __name__ == "__main__":
    main()
