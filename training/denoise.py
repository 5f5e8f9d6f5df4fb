"""The noise suppressor of `denoiser.py`, frozen, on the training device: the network learns from sound that went through it as it will in use."""

import os

import numpy as np
import torch
import torch.nn as nn
import torch.nn.functional as F

from denoiser import BLOCK, UNITS, constants, shaped, unit

STEP = 128


class Denoiser(nn.Module):
    """[rows, samples] → the same, cleaner."""

    def __init__(self, folder: str):
        super().__init__()
        spectral, learnt = (constants(os.path.join(folder, f"model_{i}.tflite")) for i in (1, 2))
        bins = BLOCK // 2 + 1
        self.spectral = self.layers(unit(spectral, bins, "lstm_cell_4", "lstm_cell_5"))
        self.learnt = self.layers(unit(learnt, 256, "lstm_cell_6", "lstm_cell_7"))
        norm = [v for name, v in learnt.items() if "instant_layer_normalization" in name and v.shape == (256,)]
        for name, value in {
            "mask_weight": shaped(spectral, (bins, UNITS), "dense_2"), "mask_bias": shaped(spectral, (bins,), "dense_2"),
            "code_weight": shaped(learnt, (256, UNITS), "dense_3"), "code_bias": shaped(learnt, (256,), "dense_3"),
            "encoder": shaped(learnt, (256, 1, 1, BLOCK), "conv1d_2").reshape(256, BLOCK),
            "decoder": shaped(learnt, (BLOCK, 1, 1, 256), "conv1d_3").reshape(BLOCK, 256), "gain": norm[0], "shift": norm[1],
        }.items():
            self.register_buffer(name, torch.from_numpy(np.array(value)))
        self.requires_grad_(False)

    @staticmethod
    def layers(cells: list[tuple[np.ndarray, ...]]) -> nn.LSTM:
        lstm = nn.LSTM(cells[0][0].shape[1], UNITS, 2, batch_first=True)
        for k, (own, back, bias) in enumerate(cells):
            for name, value in ((f"weight_ih_l{k}", own), (f"weight_hh_l{k}", back), (f"bias_ih_l{k}", bias), (f"bias_hh_l{k}", 0 * bias)):
                getattr(lstm, name).data.copy_(torch.from_numpy(np.array(value)))
        return lstm

    @torch.no_grad()
    def forward(self, x: torch.Tensor) -> torch.Tensor:
        lead = BLOCK - STEP
        tail = -(x.shape[1] + lead) % STEP
        blocks = F.pad(x, (lead, lead + tail)).unfold(1, BLOCK, STEP)
        spectrum = torch.fft.rfft(blocks)
        heard, _ = self.spectral(spectrum.abs())
        cleaner = torch.fft.irfft(spectrum * torch.sigmoid(F.linear(heard, self.mask_weight, self.mask_bias)), BLOCK)
        code = F.linear(cleaner, self.encoder)
        about = code - code.mean(-1, keepdim=True)
        even = about / (about.pow(2).mean(-1, keepdim=True) + 1e-7).sqrt() * self.gain + self.shift
        heard, _ = self.learnt(even)
        clean = F.linear(code * torch.sigmoid(F.linear(heard, self.code_weight, self.code_bias)), self.decoder)
        rows, count, _ = clean.shape
        summed = F.fold(clean.transpose(1, 2), (1, BLOCK + STEP * (count - 1)), (1, BLOCK), stride=(1, STEP))[:, 0, 0]
        return summed[:, lead : lead + x.shape[1]]
