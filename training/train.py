"""Train a network: `python3 train.py --data DIR --dev DIR --out DIR --network conv --minutes M`.

Time-boxed and resumable: started again with the same --out it goes on where it stood, with what is left of --minutes.
Training may begin while synthesis still writes shards into --data. The weights kept are a running average (EMA).
"""

import argparse
import copy
import math
import os
import random
import time

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

import augment
from data import Speech
from denoise import Denoiser
from model import Network, build, packed, unpack


RATE_HOUR = 16000 * 3600


def ctc(scores: torch.Tensor, tokens: torch.Tensor, counts: torch.Tensor) -> torch.Tensor:
    """Mean over utterances of the CTC loss per token."""
    frames = torch.full((scores.shape[0],), scores.shape[1], dtype=torch.long, device=scores.device)
    logs = scores.float().log_softmax(-1).transpose(0, 1)
    return F.ctc_loss(logs, tokens, frames, counts, zero_infinity=True)


def token_errors(best: np.ndarray, truth: np.ndarray) -> int:
    """Edit distance between the collapsed best path and the true tokens."""
    said = [t for i, t in enumerate(best) if t and (i == 0 or t != best[i - 1])]
    row = np.arange(len(said) + 1)
    for t in truth:
        new = [row[0] + 1]
        for j, s in enumerate(said):
            new.append(min(new[j] + 1, row[j + 1] + 1, row[j] + (s != t)))
        row = np.array(new)
    return int(row[-1])


@torch.no_grad()
def token_error_rate(network: Network, dev: Speech, kind: str, limit: int = 3) -> float:
    """On the voices kept for choosing by; the same clips and the same noise every time."""
    state = random.getstate()
    random.seed(3)
    wrong = total = 0
    with torch.random.fork_rng():
        torch.manual_seed(3)
        rows = dev.rows(1.0 if kind == "joined" else 0.0, (1.0, 1.0))
        for batch in dev.plan(rows, 200, 128)[:limit]:
            sound, tokens, counts, speed = dev.batch(batch)
            quiet = augment.normalised(sound + 1e-4 * torch.randn_like(sound))
            best = network(augment.augment(sound, speed) if kind == "noisy" else quiet).argmax(-1).cpu().numpy()
            for path, truth, count in zip(best, tokens.cpu().numpy(), counts.tolist()):
                wrong += token_errors(path, truth[:count])
                total += count
    random.setstate(state)
    return wrong / max(1, total)


def dev_report(network: Network, dev: Speech, limit: int) -> str:
    return "  ".join(f"{kind} {token_error_rate(network, dev, kind, limit):.4f}" for kind in ("clean", "noisy", "joined"))


class Run:
    """Network, optimiser, average and clock; saved and loaded as one."""

    def __init__(self, args: argparse.Namespace, device: torch.device):
        self.out, self.name, self.device = args.out, args.network, device
        self.network = build(args.network).to(device)
        if args.start:
            unpack(self.network, torch.load(args.start, map_location=device)["weights"], strict=False)
        self.average = copy.deepcopy(self.network).eval().requires_grad_(False)
        learning = [p for p in self.network.parameters() if p.requires_grad]
        decay = [p for p in learning if p.dim() > 1]
        plain = [p for p in learning if p.dim() <= 1]
        self.optimiser = torch.optim.AdamW(
            [{"params": decay, "weight_decay": 0.02}, {"params": plain, "weight_decay": 0.0}], lr=args.rate, betas=(0.9, 0.98))
        self.step, self.elapsed, self.inertia = 0, 0.0, args.inertia
        self.path = os.path.join(args.out, "last.pt")
        if os.path.exists(self.path):
            saved = torch.load(self.path, map_location=device)
            self.network.load_state_dict(saved["network"])
            self.average.load_state_dict(saved["average"])
            self.optimiser.load_state_dict(saved["optimiser"])
            self.step, self.elapsed = saved["step"], saved["elapsed"]
            print(f"going on from step {self.step}, {self.elapsed:.0f} s in", flush=True)
        self.pair_averages()

    def pair_averages(self) -> None:
        """The average's tensors beside those they follow; counters are left to themselves."""
        pairs = [(mine, new) for mine, new in zip(self.average.state_dict().values(), self.network.state_dict().values())
                 if mine.dtype.is_floating_point]
        self.averaged, self.averaged_from = [mine for mine, _ in pairs], [new for _, new in pairs]

    def update_average(self) -> None:
        weight = 1 - min(self.inertia, (1 + self.step) / (20 + self.step))
        with torch.no_grad():
            torch._foreach_mul_(self.averaged, 1 - weight)
            torch._foreach_add_(self.averaged, self.averaged_from, alpha=weight)

    def save(self) -> None:
        whole = {"network": self.network.state_dict(), "average": self.average.state_dict(),
                 "optimiser": self.optimiser.state_dict(), "step": self.step, "elapsed": self.elapsed}
        light = {"name": self.name, "step": self.step, "elapsed": self.elapsed, "weights": packed(self.average)}
        for content, path in ((whole, self.path), (light, os.path.join(self.out, f"{self.name}.pt"))):
            torch.save(content, path + ".tmp")
            os.replace(path + ".tmp", path)


def rate_at(progress: float, step: int, peak: float) -> float:
    """Warm-up, then a plateau, then a cosine to nearly nothing over the last 60 % of the time."""
    warm = min(1.0, (step + 1) / 400)
    fall = max(0.0, (progress - 0.4) / 0.6)
    return peak * warm * (0.5 * (1 + math.cos(math.pi * min(1.0, fall))) + 0.003)


def train(args: argparse.Namespace) -> None:
    device = torch.device("cuda" if torch.cuda.is_available() else "cpu")
    random.seed(args.seed)
    np.random.seed(args.seed)
    torch.manual_seed(args.seed)
    os.makedirs(args.out, exist_ok=True)
    torch.backends.cudnn.allow_tf32 = False  # the front end stays exact; the layers run in bfloat16
    run = Run(args, device)
    print(f"{args.network}: {sum(p.numel() for p in run.network.parameters()) / 1e6:.2f} M parameters on {device}", flush=True)
    speech = Speech(args.data, args.hours, device)
    dev = Speech(args.dev, min(args.hours, 1.0), device)
    denoiser = Denoiser(args.denoiser).to(device) if args.denoiser else None
    place = torch.from_numpy(np.fromfile(args.noise, np.int16) / 32768).float().to(device) if args.noise else None
    while len(speech.lengths) < args.least:
        speech.refresh()
        time.sleep(0.5)
    limit = args.minutes * 60
    begin = time.time() - run.elapsed
    saved = last = time.time()
    losses: list[torch.Tensor] = []
    while run.elapsed < limit:
        speech.refresh()
        batches = speech.plan(speech.rows(args.joined), args.seconds, args.rows)
        for rows in batches[: max(100, len(batches) // 3) if speech.growing else 700]:
            if run.step % 25 == 0:
                speech.refresh()
            run.elapsed = time.time() - begin
            if run.elapsed >= limit:
                break
            for group in run.optimiser.param_groups:
                group["lr"] = rate_at(run.elapsed / limit, run.step, args.rate)
            sound, tokens, counts, speed = speech.batch(rows)
            with torch.no_grad():
                heard = augment.augment(sound, speed, place)
                bands, embedded = run.network.inputs(augment.part_cleaned(heard, denoiser) if denoiser else heard)
                bands, embedded = augment.warp_bands(bands, embedded)
                bands = augment.blank_out(bands)
            run.network.train()
            with torch.autocast(device.type, torch.bfloat16, enabled=device.type == "cuda"):
                scores, side = run.network.encode(bands, embedded)
            loss = ctc(scores, tokens, counts) + args.side * ctc(side, tokens, counts)
            run.optimiser.zero_grad(set_to_none=True)
            loss.backward()
            nn.utils.clip_grad_norm_(run.network.parameters(), 1.0)
            run.optimiser.step()
            run.update_average()
            run.step += 1
            losses.append(loss.detach())
            if run.step % args.report == 0:
                now = time.time()
                mean = torch.stack(losses).mean().item()
                print(f"step {run.step} loss {mean:.3f} {args.report / (now - last):.1f} steps/s {run.elapsed:.0f} s "
                      f"{len(speech.lengths)} utterances {speech.filled / RATE_HOUR:.1f} h", flush=True)
                losses, last = [], now
        if time.time() - saved > args.save_every:
            dev.refresh()
            if dev.lengths:
                print(f"dev token errors: {dev_report(run.average, dev, 3)}", flush=True)
            run.save()
            saved = time.time()
    dev.refresh()
    if dev.lengths:
        print(f"final dev token errors: {dev_report(run.average, dev, 8)}", flush=True)
    run.save()
    print(f"done: {run.step} steps", flush=True)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--data", required=True)
    parser.add_argument("--dev", required=True)
    parser.add_argument("--out", required=True)
    parser.add_argument("--network", default="conv", choices=["conv", "people", "hybrid", "tiny"])
    parser.add_argument("--minutes", type=float, default=18)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--start", default="", help="a checkpoint whose weights to begin with (see reopen.py)")
    parser.add_argument("--denoiser", default="", help="folder with DTLN's model_1.tflite and model_2.tflite; sound goes through it")
    parser.add_argument("--noise", default="", help="a recording of noise, 16 kHz int16, without a header")
    parser.add_argument("--side", type=float, default=0.3, help="weight of the loss at the middle layer")
    parser.add_argument("--inertia", type=float, default=0.9993, help="of the running average, for each step")
    parser.add_argument("--rate", type=float, default=2.5e-3, help="peak learning rate")
    parser.add_argument("--seconds", type=float, default=900, help="sound in one batch")
    parser.add_argument("--rows", type=int, default=416, help="most utterances in one batch")
    parser.add_argument("--joined", type=float, default=0.25, help="share of rows that hold several utterances")
    parser.add_argument("--hours", type=float, default=330, help="room for this much sound on the device")
    parser.add_argument("--least", type=int, default=4000, help="utterances to wait for before beginning")
    parser.add_argument("--report", type=int, default=200, help="steps between printed lines")
    parser.add_argument("--save-every", type=float, default=80, help="seconds between checkpoints")
    train(parser.parse_args())


if __name__ == "__main__":
    main()
