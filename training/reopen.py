"""An exported network → a checkpoint to train on from: `python3 reopen.py --onnx MODEL --data DIR --out conv.pt`.

Export folds each batch norm into the convolution before it. Here every norm is put back as what changes nothing: its
mean and variance are measured on some batches of speech, and its gain and offset undo them.
"""

import argparse
import random
import time

import numpy as np
import onnx
import torch
from onnx import numpy_helper

import augment
from data import Speech
from model import Network, build, packed


def weights_of(path: str) -> tuple[dict[str, np.ndarray], list[np.ndarray]]:
    """Weights by the name of their module, and those of the Linear layers, which export leaves nameless, in order."""
    constants = {w.name: numpy_helper.to_array(w) for w in onnx.load(path).graph.initializer}
    named = {name.removesuffix("_half"): value.astype(np.float32) for name, value in constants.items()
             if "::" not in name and value.dtype in (np.float32, np.float16)}
    whole = sorted((name for name in constants if name.endswith("_uint8")), key=lambda name: int(name.split("_")[1]))
    linear = [(constants[name].astype(np.float32) - 128) * constants[name.replace("_uint8", "_scale")] for name in whole]
    return named, linear


def fill(network: Network, path: str) -> None:
    named, linear = weights_of(path)
    left = iter(linear)
    state = network.state_dict()
    for name in state:
        if name in named:
            state[name] = torch.from_numpy(named[name].copy())
        elif name.endswith((".expand.weight", ".project.weight", ".squeeze.weight", ".excite.weight")) or name == "head.weight":
            state[name] = torch.from_numpy(next(left).T.copy())
    if next(left, None) is not None:
        raise ValueError(f"{path} has more layers than the network it is read into")
    network.load_state_dict(state)


def measure_norms(network: Network, batches: list[torch.Tensor]) -> None:
    """Each norm gets the mean and variance of what reaches it, layer by layer, and the gain and offset that undo them."""
    for layer in network.layers:
        norm, seen = layer.norm, []
        hook = norm.register_forward_pre_hook(lambda _, given, seen=seen: seen.append(given[0].transpose(1, 2).reshape(-1, norm.num_features)))
        for bands in batches:
            network.encode(bands)
        hook.remove()
        every = torch.cat(seen)
        norm.running_mean.copy_(every.mean(0))
        norm.running_var.copy_(every.var(0))
        norm.weight.data.copy_((norm.running_var + norm.eps).sqrt())
        norm.bias.data.copy_(norm.running_mean)


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--onnx", required=True)
    parser.add_argument("--data", required=True, help="shards of synth.py, complete")
    parser.add_argument("--out", required=True)
    parser.add_argument("--network", default="conv")
    args = parser.parse_args()
    random.seed(1)
    torch.manual_seed(1)
    network = build(args.network).eval()
    fill(network, args.onnx)
    speech = Speech(args.data, 1, torch.device("cpu"))
    while speech.growing or not speech.lengths:
        speech.refresh()
        time.sleep(0.2)
    with torch.no_grad():
        batches = []
        for rows in speech.plan(speech.rows(0.2), 60, 64)[:6]:
            sound, _, _, speed = speech.batch(rows)
            batches.append(network.features(augment.augment(sound, speed)))
        measure_norms(network, batches)
    torch.save({"name": args.network, "step": 0, "elapsed": 0.0, "weights": packed(network)}, args.out)


if __name__ == "__main__":
    main()
