"""The front end, inside the exported graph: 16 kHz sound → 64 log-mel bands every 10 ms, normalised over the clip."""

import math

import torch
import torch.nn as nn
import torch.nn.functional as F

RATE = 16000
WINDOW, HOP, FFT, BANDS = 400, 160, 512, 64
LOW_HZ, HIGH_HZ = 60.0, 7600.0


def mel_filters() -> torch.Tensor:
    """Triangles evenly spaced on the mel scale (2595·log10(1 + f/700)), [BANDS, FFT/2+1]."""
    def mel(hz: float) -> float:
        return 2595 * math.log10(1 + hz / 700)

    edges = 700 * (10 ** (torch.linspace(mel(LOW_HZ), mel(HIGH_HZ), BANDS + 2, dtype=torch.float64) / 2595) - 1)
    hz = torch.linspace(0, RATE / 2, FFT // 2 + 1, dtype=torch.float64)[None]
    left, centre, right = edges[:-2, None], edges[1:-1, None], edges[2:, None]
    return torch.minimum((hz - left) / (centre - left), (right - hz) / (right - centre)).clamp(min=0).float()


class LogMel(nn.Module):
    """[batch, samples] → [batch, BANDS, frames]. The Fourier transform is a convolution, which every runtime has."""

    def __init__(self) -> None:
        super().__init__()
        angle = torch.arange(FFT // 2 + 1, dtype=torch.float64)[:, None] * torch.arange(WINDOW)[None] * (2 * math.pi / FFT)
        window = torch.hann_window(WINDOW, dtype=torch.float64)
        basis = torch.cat([torch.cos(angle), torch.sin(angle)]) * window
        self.register_buffer("basis", basis.float()[:, None], persistent=False)
        self.register_buffer("filters", mel_filters(), persistent=False)

    def forward(self, sound: torch.Tensor) -> torch.Tensor:
        return self.normalised(self.bands(sound))

    def power(self, sound: torch.Tensor) -> torch.Tensor:
        spectrum = F.conv1d(sound[:, None], self.basis, stride=HOP)
        bins = FFT // 2 + 1
        return spectrum[:, :bins] ** 2 + spectrum[:, bins:] ** 2

    def bands(self, sound: torch.Tensor) -> torch.Tensor:
        return self.log_mel(self.power(sound))

    def log_mel(self, power: torch.Tensor) -> torch.Tensor:
        return torch.log(torch.matmul(self.filters, power) + 1e-5)

    @staticmethod
    def normalised(bands: torch.Tensor) -> torch.Tensor:
        bands = bands - bands.mean((1, 2), keepdim=True)
        return bands / (bands.pow(2).mean((1, 2), keepdim=True).sqrt() + 1e-3)
