"""The acoustic networks: sound → one score per token every 20 ms (CTC).

Three were tried, alike but for how distant frames speak to each other:
  conv    depthwise convolutions of growing width with squeeze-and-excitation;
  hybrid  narrower convolutions with a self-attention layer after every third;
  people  conv with a second input, features that have heard people (embedding.py).
Pointwise layers are Linear, so that they can be stored and run as int8 matrix products.
"""

import torch
import torch.nn as nn
import torch.nn.functional as F

from embedding import SIZE, SpeechEmbedding
from features import BANDS, LogMel
from lexicon import TOKENS


class ConvBlock(nn.Module):
    """Depthwise convolution in time, gated pointwise layers, a squeeze over the whole clip; [batch, frames, width]."""

    def __init__(self, width: int, kernel: int, dropout: float):
        super().__init__()
        self.depthwise = nn.Conv1d(width, width, kernel, padding=kernel // 2, groups=width)
        self.norm = nn.BatchNorm1d(width)
        self.expand = nn.Linear(width, 2 * width)
        self.project = nn.Linear(2 * width, width)
        self.squeeze = nn.Linear(width, width // 8)
        self.excite = nn.Linear(width // 8, width)
        self.dropout = nn.Dropout(dropout)

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        h = self.norm(self.depthwise(x.transpose(1, 2))).transpose(1, 2)
        h = self.project(F.silu(self.expand(h)))
        gate = torch.sigmoid(self.excite(F.silu(self.squeeze(h.mean(1, keepdim=True)))))
        return x + self.dropout(h * gate)


class Attention(nn.Module):
    """Self-attention over the clip; the convolutions around it say where a frame is."""

    def __init__(self, width: int, heads: int, dropout: float):
        super().__init__()
        self.heads = heads
        self.norm = nn.LayerNorm(width)
        self.qkv = nn.Linear(width, 3 * width)
        self.out = nn.Linear(width, width)
        self.dropout = nn.Dropout(dropout)

    def forward(self, x: torch.Tensor) -> torch.Tensor:
        batch, frames, width = x.shape
        qkv = self.qkv(self.norm(x)).reshape(batch, frames, 3, self.heads, width // self.heads)
        q, k, v = qkv.permute(2, 0, 3, 1, 4).unbind(0)
        weights = torch.softmax(q @ k.transpose(-1, -2) * (width // self.heads) ** -0.5, -1)
        mixed = (weights @ v).transpose(1, 2).reshape(batch, frames, width)
        return x + self.dropout(self.out(mixed))


class Network(nn.Module):
    def __init__(self, width: int, kernels: list[int], attend_every: int, dropout: float = 0.1, embedded: bool = False):
        super().__init__()
        self.features = LogMel()
        self.stem = nn.Conv1d(BANDS, width, 5, stride=2, padding=2)
        self.embedding = SpeechEmbedding() if embedded else None
        if embedded:
            self.embedding_norm = nn.LayerNorm(SIZE)
            self.embedding_in = nn.Linear(SIZE, width)
            nn.init.zeros_(self.embedding_in.weight)
        layers: list[nn.Module] = []
        for i, kernel in enumerate(kernels, 1):
            layers.append(ConvBlock(width, kernel, dropout))
            if attend_every and i % attend_every == 0:
                layers.append(Attention(width, width // 64, dropout))
        self.layers = nn.ModuleList(layers)
        self.middle = len(layers) // 2
        self.norm = nn.LayerNorm(width)
        self.head = nn.Linear(width, len(TOKENS))
        self.side_head = nn.Linear(width, len(TOKENS))

    def encode(self, bands: torch.Tensor, embedded: torch.Tensor | None = None) -> tuple[torch.Tensor, torch.Tensor]:
        """Token scores from the last layer and, for training, from the middle one. `embedded`: the embedding's own bands."""
        x = self.stem(bands).transpose(1, 2)
        if self.embedding is not None and embedded is not None:
            own, taken = self.embedding_shares(x)
            heard = self.embedding_in(self.embedding_norm(self.embedding(embedded)))
            x = x * own + heard * taken
        side = x
        for i, layer in enumerate(self.layers, 1):
            x = layer(x)
            if i == self.middle:
                side = x
        return self.head(F.silu(self.norm(x))), self.side_head(side)

    def embedding_shares(self, x: torch.Tensor) -> tuple[torch.Tensor, torch.Tensor]:
        """In training either input is left out of some rows, so that neither is leant on alone."""
        one = torch.ones(x.shape[0], 1, 1, device=x.device, dtype=x.dtype)
        if not self.training:
            return one, one
        draw = torch.rand_like(one)
        return (draw > 0.25).to(x.dtype), (draw < 0.9).to(x.dtype)

    def inputs(self, sound: torch.Tensor) -> tuple[torch.Tensor, torch.Tensor | None]:
        """What `encode` takes of a sound."""
        power = self.features.power(sound)
        bands = self.features.normalised(self.features.log_mel(power))
        return bands, None if self.embedding is None else self.embedding.bands(power)

    def forward(self, input_values: torch.Tensor) -> torch.Tensor:
        scores, _ = self.encode(*self.inputs(input_values))
        return scores


def packed(network: nn.Module) -> dict[str, torch.Tensor]:
    """Its weights in half the space."""
    return {name: value.half() if value.dtype.is_floating_point else value for name, value in network.state_dict().items()}


def unpack(network: nn.Module, weights: dict[str, torch.Tensor], strict: bool = True) -> None:
    """Not strict: what the weights lack keeps its own, so that a network without the embedding can be begun with."""
    wide = {name: value.float() if value.dtype == torch.float16 else value for name, value in weights.items()}
    network.load_state_dict(wide, strict=strict)


def build(name: str) -> Network:
    if name == "conv":
        return Network(320, [7, 9, 11, 13, 15, 17, 19, 21, 25, 29, 33, 1], 0)
    if name == "people":
        return Network(320, [7, 9, 11, 13, 15, 17, 19, 21, 25, 29, 33, 1], 0, embedded=True)
    if name == "hybrid":
        return Network(256, [7, 9, 11, 13, 15, 17, 19, 21, 23, 25, 27, 11], 3)
    if name == "tiny":  # for trying the pipeline out on a laptop
        return Network(64, [7, 11], 2)
    raise ValueError(f"no network is called {name!r}; there are conv, people, hybrid and tiny")
