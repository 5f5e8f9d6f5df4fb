"""Recordings of people → a shard beside synth.py's: `python3 recorded.py --list FILE.jsonl --out DIR --copies N`.

Each line of the list: {"sound": path of 16 kHz int16 without a header, "from": sample, "to": sample, "text": "the words said"}.
"""

import argparse
import json
import os

import numpy as np

import lexicon
from synth import write_shard


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--list", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--copies", type=int, default=1)
    args = parser.parse_args()
    words = lexicon.load()
    made, skipped = [], 0
    for line in open(args.list):
        row = json.loads(line)
        said = row["text"].split()
        if any(w not in words for w in said):
            skipped += 1
            continue
        sound = np.fromfile(row["sound"], np.int16)[row["from"] : row["to"]].astype(np.float32)
        tokens = [lexicon.TOKEN_ID[t] for w in said for t in words[w][0]]
        made.append(((sound / max(1.0, np.abs(sound).max()) * 30000).astype(np.int16), tokens, row["text"], "people"))
    os.makedirs(args.out, exist_ok=True)
    for n in range(args.copies):
        write_shard(args.out, f"recorded-{n:03d}", made)
    print(f"{len(made)} recordings, {skipped} skipped")


if __name__ == "__main__":
    main()
