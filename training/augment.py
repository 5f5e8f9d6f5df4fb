"""Make one synthetic voice into many people in many rooms, on the GPU, a batch at a time.

The order is that of the world: the speaker (`data.py` sets the pace, `revoice` the throat), the mask and the distance
(`response`, `room`), the noise of the place (`noise`), the microphone and the line (`response`, `telephone`, `clip`), and
last the network's own blindfolds on the log-mel bands (`warp_bands`, `blank_out`).

Kinds of noise made here: coloured noise (fans, air), running water, babble of 1-7 other talkers, clatter of
things struck and put down, changing chords, and pieces of recordings where there are any; some rows have two of them.
Kinds deliberately left out, because the bench judges on them: mains hum and steady appliance-like tones.
"""

import math

import torch
import torch.nn.functional as F

RATE = 16000
MOST_TALKERS = 7
SHARES = [0.22, 0.25, 0.25, 0.22, 0.06]  # coloured noise, water, babble, clatter, chords
RECORDED = 0.18  # of the rows, taken from all kinds alike, where there are recordings of noise


class Dice:
    """Random draws of one number for each row of the batch."""

    def __init__(self, rows: int, device: torch.device):
        self.rows, self.device = rows, device

    def uniform(self, low: float, high: float, columns: int = 1) -> torch.Tensor:
        return torch.empty(self.rows, columns, device=self.device).uniform_(low, high)

    def log_uniform(self, low: float, high: float) -> torch.Tensor:
        return torch.exp(self.uniform(math.log(low), math.log(high)))

    def chance(self, p: float) -> torch.Tensor:
        return (torch.rand(self.rows, 1, device=self.device) < p).float()

    def smooth(self, knots: int, size: int, spread: float) -> torch.Tensor:
        """A slowly wandering curve of `size` points, about zero."""
        knot = torch.randn(self.rows, 1, knots, device=self.device) * spread
        return F.interpolate(knot, size=size, mode="linear", align_corners=True)[:, 0]


def rms(x: torch.Tensor) -> torch.Tensor:
    return x.pow(2).mean(1, keepdim=True).sqrt() + 1e-6


def look_up(x: torch.Tensor, position: torch.Tensor) -> torch.Tensor:
    """x[..., position] with linear interpolation along the last axis."""
    position = position.clamp(0, x.shape[-1] - 1)
    left = position.long().clamp(max=x.shape[-1] - 2)
    part = position - left
    return x.gather(-1, left) * (1 - part) + x.gather(-1, left + 1) * part


def revoice(x: torch.Tensor, speed: torch.Tensor, dice: Dice) -> torch.Tensor:
    """Change the throat without the pitch: the spectral envelope (cepstrally smoothed) is warped along frequency,
    sharpened or flattened and tilted; breath takes the place of harmonics above a random frequency, or of all of them
    (a whisper)."""
    fft, hop = 512, 128
    window = torch.hann_window(fft, device=x.device)
    spectrum = torch.stft(x, fft, hop, window=window, return_complex=True).transpose(1, 2)
    size = spectrum.abs() + 1e-5
    level = torch.log(size)
    cepstrum = torch.fft.irfft(level, fft)
    quefrency = torch.minimum(torch.arange(fft, device=x.device), fft - torch.arange(fft, device=x.device))
    lifter = ((34 - quefrency) / 8.0).clamp(0, 1)
    envelope = torch.fft.rfft(cepstrum * lifter, fft).real
    detail = level - envelope

    bins = envelope.shape[-1]
    hz = torch.linspace(0, 1, bins, device=x.device)[None]
    throat = dice.log_uniform(0.8, 1.25) / speed
    bend = dice.smooth(6, bins, 3.0)
    # formants that move by themselves: other vowels than the synthesiser's
    knots = torch.randn(dice.rows, 1, max(2, envelope.shape[1] // 16), 7, device=x.device) * dice.uniform(0, 3)[:, None, None]
    wander = F.interpolate(knots, size=envelope.shape[1:], mode="bilinear", align_corners=True)[:, 0]
    position = (hz * (bins - 1) / throat + bend)[:, None] + wander
    shaped = look_up(envelope, position)
    mean = shaped.mean(-1, keepdim=True)
    sharpness = dice.uniform(0.75, 1.25)[:, None]
    tilt = (dice.uniform(-1.6, 1.2) * (hz - 0.3))[:, None]
    breath_from = torch.where(dice.chance(0.35) > 0, dice.uniform(0.1, 0.7), dice.uniform(1.1, 1.2))
    breath_from = torch.where(dice.chance(0.04) > 0, torch.zeros_like(breath_from), breath_from)
    breath = torch.sigmoid((hz - breath_from) * 40)[:, None]
    new_level = mean + (shaped - mean) * sharpness + tilt + detail * (1 - 0.8 * breath)
    phase = spectrum / size
    noise = torch.polar(torch.ones_like(size), torch.rand_like(size) * (2 * math.pi))
    out = torch.exp(new_level.clamp(max=8)) * torch.where(breath > 0.5, noise, phase)
    voice = torch.istft(out.transpose(1, 2), fft, hop, window=window, length=x.shape[1])
    use = dice.chance(0.75)
    return torch.where(use > 0, voice / rms(voice) * rms(x), x)


def response(dice: Dice, bins: int, colour_db: float, band_limit: float, muffle: float) -> torch.Tensor:
    """A filter's gain at each frequency: gentle colour, sometimes band limits, sometimes a mask over the mouth."""
    hz = torch.linspace(0, 8000, bins, device=dice.device)[None]
    db = dice.smooth(10, bins, 1.0) * dice.uniform(0, colour_db)
    low = torch.where(dice.chance(band_limit) > 0, dice.uniform(80, 450), dice.uniform(5, 40))
    high = torch.where(dice.chance(band_limit) > 0, dice.uniform(2600, 7500), dice.uniform(8200, 8400))
    gain = 10 ** (db / 20) * torch.sigmoid((hz - low) / 25) * torch.sigmoid((high - hz) / 90)
    if muffle:
        # a respirator: a shelf above 0.8-2.5 kHz and one or two cavity resonances
        masked = dice.chance(muffle)
        shelf = -dice.uniform(4, 18) * torch.sigmoid((hz - dice.uniform(800, 2500)) / 300)
        for _ in range(2):
            shelf = shelf + dice.uniform(-3, 10) * torch.exp(-((hz - dice.uniform(300, 2200)) / dice.uniform(60, 300)) ** 2)
        gain = gain * 10 ** (masked * shelf / 20)
    return gain


def room(dice: Dice, length: int = 9600) -> torch.Tensor:
    """Impulse responses: the direct sound, a few early reflections and a decaying tail, nearer or farther away."""
    time = torch.arange(length, device=dice.device)[None] / RATE
    decay = torch.exp(-6.9 * time / dice.log_uniform(0.08, 0.8))
    tail = torch.randn(dice.rows, length, device=dice.device) * decay * (time > dice.uniform(0.001, 0.02))
    tail = tail * (1 + 4 * (torch.rand(dice.rows, length, device=dice.device) < 0.004) * (time < 0.05))
    tail = tail / (tail.pow(2).sum(1, keepdim=True).sqrt() + 1e-6)
    # direct-to-reverberant energy 20 … -2 dB
    impulse = tail * 10 ** (-dice.uniform(-2, 20) / 20) * dice.chance(0.65)
    impulse[:, 0] = 1
    return impulse


def filtered(x: torch.Tensor, gain: torch.Tensor | None, impulse: torch.Tensor | None = None) -> torch.Tensor:
    n = x.shape[1] + (impulse.shape[1] if impulse is not None else 0)
    n += -n % 1000
    spectrum = torch.fft.rfft(x, n)
    if gain is not None:
        spectrum = spectrum * F.interpolate(gain[:, None], size=spectrum.shape[1], mode="linear", align_corners=True)[:, 0]
    if impulse is not None:
        spectrum = spectrum * torch.fft.rfft(impulse, n)
    return torch.fft.irfft(spectrum, n)[:, : x.shape[1]]


def coloured(dice: Dice, size: int) -> torch.Tensor:
    """Fans, air, traffic: noise of random colour that swells and fades."""
    n = size + -size % 1000
    spectrum = torch.fft.rfft(torch.randn(dice.rows, n, device=dice.device))
    hz = torch.linspace(0, 8000, spectrum.shape[1], device=dice.device)[None]
    slope = (hz + 40) ** -dice.uniform(-0.15, 1.2)
    noise = torch.fft.irfft(spectrum * slope * 10 ** (dice.smooth(9, spectrum.shape[1], 5.0) / 20), n)[:, :size]
    time = torch.arange(size, device=dice.device)[None] / RATE
    swell = 1 + dice.uniform(0, 0.6) * torch.sin(2 * math.pi * (dice.log_uniform(0.2, 14) * time + dice.uniform(0, 1)))
    return noise * swell * torch.exp(dice.smooth(max(2, size // 8000), size, 0.35))


def water(dice: Dice, size: int) -> torch.Tensor:
    """A tap, a pour, a tub: hiss with random bubbles, each a short falling or rising ring."""
    hiss = coloured(dice, size)
    time = torch.arange(1200, device=dice.device)[None] / RATE
    total = hiss / rms(hiss) * dice.uniform(0.3, 1.2)
    for _ in range(3):
        ring = torch.exp(-time / dice.log_uniform(0.002, 0.02)) * torch.sin(
            2 * math.pi * dice.log_uniform(350, 4000) * time * (1 + dice.uniform(-2, 8) * time))
        starts = (torch.rand(dice.rows, size, device=dice.device) < dice.log_uniform(5, 250) / RATE).float()
        bubbles = filtered(starts * torch.randn(dice.rows, size, device=dice.device), None, ring)
        total = total + bubbles / rms(bubbles) * dice.uniform(0, 1)
    return total


def babble(speech: torch.Tensor, talkers: torch.Tensor) -> torch.Tensor:
    """So many other utterances of the batch for each row of `talkers`, shifted, at unequal loudness."""
    dice = Dice(talkers.shape[0], speech.device)
    total = torch.zeros(talkers.shape[0], speech.shape[1], device=speech.device)
    for i in range(MOST_TALKERS):
        other = speech[torch.randperm(speech.shape[0], device=speech.device)[: talkers.shape[0]]]
        other = torch.roll(other, int(torch.randint(0, speech.shape[1], (1,))), 1)
        total = total + other / rms(other) * dice.uniform(0.5, 1) * (talkers > i)
    return total


def clatter(dice: Dice, size: int) -> torch.Tensor:
    """Dishes, tins, cutlery, drawers: now and then something is struck and rings in its own modes, over a quiet room."""
    time = torch.arange(6400, device=dice.device)[None] / RATE
    total = coloured(dice, size)
    total = total / rms(total) * dice.log_uniform(0.02, 0.6)
    for _ in range(3):
        ring = torch.randn(dice.rows, time.shape[1], device=dice.device) * torch.exp(-time / dice.log_uniform(0.001, 0.02))
        for _ in range(5):
            decay = dice.log_uniform(0.004, 0.12)
            ring = ring + dice.uniform(0, 2) * torch.exp(-time / decay) * torch.sin(2 * math.pi * dice.log_uniform(180, 7000) * time)
        struck = (torch.rand(dice.rows, size, device=dice.device) < dice.log_uniform(0.6, 12) / RATE).float()
        # a few blows are far louder than the rest; things put down bounce
        blows = struck * torch.exp(0.9 * torch.randn(dice.rows, size, device=dice.device))
        for _ in range(2):
            later = int(torch.randint(300, 2400, (1,)))
            blows = blows + torch.roll(blows, later, 1) * 0.5
        hits = filtered(blows, None, ring)
        total = total + hits / rms(hits) * dice.uniform(0, 1)
    return total


def chords(dice: Dice, size: int) -> torch.Tensor:
    """Something like music: three changing notes with overtones and a struck envelope."""
    time = torch.arange(size, device=dice.device)[None] / RATE
    beat = time * dice.uniform(1.5, 7) + dice.uniform(0, 1)
    step = beat.long().clamp(max=63)
    total = torch.zeros(dice.rows, size, device=dice.device)
    for _ in range(3):
        notes = torch.randint(-20, 24, (dice.rows, 64), device=dice.device)
        hz = 220 * 2 ** (notes.gather(1, step) / 12)
        phase = torch.cumsum(hz / RATE, 1) * (2 * math.pi)
        for overtone in range(1, 5):
            total = total + torch.sin(overtone * phase) * dice.uniform(0, 1) / overtone
    return total * torch.exp(-(beat - step) * dice.uniform(0.2, 4))


def recorded(place: torch.Tensor, dice: Dice, size: int) -> torch.Tensor:
    """Pieces of one long recording, from anywhere in it, played a little faster or slower, in other rooms."""
    pace = dice.log_uniform(0.8, 1.25)
    begin = dice.uniform(0, max(1.0, place.shape[0] - 1.3 * size - 2))
    at = begin + torch.arange(size, device=place.device)[None] * pace
    left = at.long().clamp(max=place.shape[0] - 2)
    share = at - left
    return filtered(place[left] * (1 - share) + place[left + 1] * share, response(dice, 801, 8.0, 0.1, 0), room(dice))


def noise(speech: torch.Tensor, place: torch.Tensor | None = None) -> tuple[torch.Tensor, torch.Tensor]:
    """(one kind of noise for each row, sometimes beginning in the middle, loudness one; the least signal-to-noise ratio
    in dB at which it can still be told who is meant). The kinds go by the place in the batch: `SHARES`, after a shuffle."""
    rows, size = speech.shape
    order = torch.randperm(rows, device=speech.device)
    ends = [0] + [round(rows * sum(SHARES[: i + 1])) for i in range(len(SHARES))]
    count = [b - a for a, b in zip(ends, ends[1:])]
    dice = [Dice(n, speech.device) for n in count]
    talkers = torch.randint(1, MOST_TALKERS + 1, (count[2], 1), device=speech.device)
    kinds = [coloured(dice[0], size), water(dice[1], size), babble(speech, talkers), clatter(dice[3], size), chords(dice[4], size)]
    least = torch.full((rows, 1), -9.0, device=speech.device)
    least[ends[2] : ends[3]] = 5.0 - 2.0 * talkers
    made = torch.cat(kinds)
    made, least = (made / rms(made))[order], least[order]
    if place is not None:
        count = round(rows * RECORDED)
        taken = recorded(place, Dice(count, speech.device), size)
        # the order is drawn, so the first rows are any rows
        made = torch.cat([taken / rms(taken), made[count:]])
        least = torch.cat([torch.full_like(least[:count], -9.0), least[count:]])
    # two at once: somebody talks over there while the tap runs
    other = torch.randperm(rows, device=speech.device)
    both = Dice(rows, speech.device)
    second = both.uniform(0.2, 1) * both.chance(0.35)
    made, least = made + second * made[other], torch.where(second > 0, torch.maximum(least, least[other]), least)
    made = made / rms(made)
    time = torch.arange(size, device=speech.device)[None] / size
    all_rows = Dice(rows, speech.device)
    switched_on = torch.where(all_rows.chance(0.08) > 0, all_rows.uniform(0, 0.7), all_rows.uniform(-1, -0.9))
    return made * torch.sigmoid((time - switched_on) * 200), least


def telephone(x: torch.Tensor, dice: Dice, p: float = 0.14) -> torch.Tensor:
    """300-3400 Hz and eight-bit companding (ITU-T G.711 mu-law) on some rows."""
    hz = torch.linspace(0, 8000, 801, device=x.device)[None]
    gain = torch.sigmoid((hz - dice.uniform(150, 320)) / 20) * torch.sigmoid((dice.uniform(3200, 3800) - hz) / 60)
    line = filtered(x, gain)
    line = line / (line.abs().amax(1, keepdim=True) + 1e-6)
    code = torch.sign(line) * torch.log1p(255 * line.abs()) / math.log(256)
    code = torch.round(code * 127) / 127
    heard = torch.sign(code) * (256 ** code.abs() - 1) / 255
    return torch.where(dice.chance(p) > 0, heard, x)


def clip(x: torch.Tensor, dice: Dice) -> torch.Tensor:
    x = x / (x.abs().amax(1, keepdim=True) + 1e-6)
    limit = torch.where(dice.chance(0.1) > 0, dice.uniform(0.2, 0.9), dice.uniform(1, 1))
    return torch.maximum(torch.minimum(x, limit), -limit)


def normalised(x: torch.Tensor) -> torch.Tensor:
    """What the recogniser's preprocessor does: zero mean, unit variance."""
    return (x - x.mean(1, keepdim=True)) / (x.var(1, keepdim=True, unbiased=False) + 1e-7).sqrt()


def part_cleaned(x: torch.Tensor, denoiser: torch.nn.Module) -> torch.Tensor:
    """Through the noise suppressor: two thirds of the rows, with some of the sound as it was left in."""
    x = x / (x.abs().amax(1, keepdim=True) + 1e-6) * 0.5
    count = x.shape[0] * 2 // 3
    order = torch.randperm(x.shape[0], device=x.device)[:count]
    kept = Dice(count, x.device).uniform(0.05, 0.7)
    x[order] = kept * x[order] + (1 - kept) * denoiser(x[order])
    return normalised(x)


def augment(x: torch.Tensor, speed: torch.Tensor, place: torch.Tensor | None = None) -> torch.Tensor:
    """Clean padded speech [rows, samples], each row already played at its `speed` → what a microphone in a room gives."""
    dice = Dice(x.shape[0], x.device)
    x = revoice(x, speed, dice)
    size = x.shape[1]
    loudness = 10 ** (dice.smooth(max(2, size // 6000), size, 2.0) / 20)
    heard = filtered(x * loudness, response(dice, 801, 5.0, 0.25, 0.15), room(dice))
    ground, least = noise(x, place)
    ratio = torch.where(dice.chance(0.55) > 0, dice.uniform(-5, 14), dice.uniform(10, 40))
    heard = heard + ground * rms(heard) * 10 ** (-torch.maximum(ratio, least) / 20) * dice.chance(0.88)
    floor = torch.randn_like(heard) * rms(heard) * 10 ** (-dice.uniform(28, 70) / 20)
    heard = filtered(heard + floor * dice.chance(0.8), response(dice, 801, 4.0, 0.2, 0))
    return normalised(clip(telephone(heard, dice), dice))


def warp_bands(bands: torch.Tensor, embedded: torch.Tensor | None) -> tuple[torch.Tensor, torch.Tensor | None]:
    """Bend the frequency axis a little, and the time axis more: some sounds drawn out, others hurried or half swallowed.
    The embedding's bands keep step, and are made a little louder or softer."""
    rows, count, frames = bands.shape
    dice = Dice(rows, bands.device)
    line = torch.arange(count, device=bands.device)[None].float()
    position = line * dice.uniform(0.94, 1.06) + dice.uniform(-1.2, 1.2) + dice.smooth(6, count, 0.8)
    bands = look_up(bands.transpose(1, 2), position[:, None].expand(rows, frames, count)).transpose(1, 2)
    slow = dice.smooth(max(2, frames // 30), frames, 0.3).clamp(-0.7, 0.7)
    quick = dice.smooth(max(2, frames // 9), frames, 0.35).clamp(-0.6, 0.9) * dice.chance(0.5)
    track = torch.cumsum(torch.exp(slow + quick), 1)
    track = track / track[:, -1:] * (frames - 1.001)

    def in_step(x: torch.Tensor) -> torch.Tensor:
        return look_up(x, track[:, None].expand(rows, x.shape[1], frames))

    if embedded is not None:
        embedded = in_step(embedded) + dice.uniform(-0.3, 0.3)[:, :, None]
    return in_step(bands), embedded


def blank_out(bands: torch.Tensor) -> torch.Tensor:
    """SpecAugment: two bands and three moments of each clip go to the mean."""
    rows, count, frames = bands.shape
    dice = Dice(rows, bands.device)
    keep = torch.ones_like(bands)
    line = torch.arange(count, device=bands.device)[None]
    for _ in range(2):
        begin, width = dice.uniform(-6, count), dice.uniform(0, 10)
        keep = keep * ((line < begin) | (line > begin + width)).float()[:, :, None]
    line = torch.arange(frames, device=bands.device)[None]
    for _ in range(3):
        begin, width = dice.uniform(0, frames), dice.uniform(0, 11)
        keep = keep * ((line < begin) | (line > begin + width)).float()[:, None]
    return bands * keep
