"""The training voices, and the ones held back for judging.

flite (Debian flite 2.2, permissive CMU terms): slt, awb, kal, kal16. espeak-ng (Debian, GPL-3 program, formant voices):
every English accent × every shipped variant, and variants of our own made here at random.
"""

import os
import random

from lexicon import TOOLS

FLITE = ["slt", "slt", "slt", "awb", "awb", "awb", "kal16", "kal16", "kal"]
ACCENTS = ["en-us", "en-us", "en-us", "en-gb", "en-gb", "en-gb-x-rp", "en-gb-scotland", "en-029", "en-gb-x-gbcwmd",
           "en-gb-x-gbclan", "en-us-nyc"]
# Never trained on: judged on only. Every festival voice and every recorded prompt is held back too.
HELD_FLITE = {"rms"}
HELD_ESPEAK = {"en-gb+m6", "en-gb-x-rp+f4", "en-us+m2", "en-us+f2"}
# Never trained on, and not reported either: for choosing between networks and decoder constants.
DEV_ESPEAK = {"en-gb+m4", "en-us+f4", "en-gb-scotland+m7", "en-us-nyc+f1"}
# Sound effects rather than speech.
NOT_SPEECH = {"Demonic", "fast", "UniRobot", "robosoft", "robosoft2", "robosoft3", "robosoft4", "robosoft5",
              "robosoft6", "robosoft7", "robosoft8", "anikaRobot", "Storm", "Tweaky"}

DATA = os.path.join(TOOLS, "espeak-ng-data")
OWN_VARIANTS = 400


def espeak_variant(rng: random.Random) -> str:
    """The text of one espeak-ng variant file: a random throat (formants) and a random way of using it."""
    u = rng.uniform
    throat = u(0.84, 1.26)
    lines = ["language variant", f"name own{rng.randrange(10**6)}"]
    low = int(u(65, 230))
    lines.append(f"pitch {low} {int(low * u(1.15, 1.9))}")
    for n in range(9):
        bend = u(0.94, 1.06) if n else 1.0
        lines.append(f"formant {n} {int(100 * throat * bend) if n else 100} {int(u(65, 125))} {int(u(70, 160))}")
    if rng.random() < 0.35:
        lines.append("breath " + " ".join(str(int(u(0, 40))) for _ in range(7)))
    if rng.random() < 0.3:
        lines.append(f"klatt {rng.randrange(1, 6)}")
    lines += [f"flutter {int(u(0, 6))}", f"roughness {int(u(0, 4))}", f"voicing {int(u(60, 130))}",
              f"consonants {int(u(60, 150))} {int(u(60, 150))}",
              f"tone 600 {int(u(100, 250))} 1200 {int(u(80, 220))} 3000 {int(u(40, 200))}",
              f"stressLength {int(u(130, 190))} {int(u(120, 180))} {int(u(180, 240))} {int(u(180, 240))} 0 0 "
              f"{int(u(210, 290))} {int(u(220, 300))}"]
    return "\n".join(lines) + "\n"


def prepare() -> None:
    """Write our own variants beside the shipped ones (always the same ones)."""
    folder = os.path.join(DATA, "voices", "!v")
    rng = random.Random(20)
    for i in range(OWN_VARIANTS):
        with open(os.path.join(folder, f"own{i:03d}"), "w", encoding="utf8") as f:
            f.write(espeak_variant(rng))


def shipped_variants() -> list[str]:
    names = sorted(os.listdir(os.path.join(DATA, "voices", "!v")))
    return [n for n in names if " " not in n and not n.startswith("own") and n not in NOT_SPEECH]


def draw_espeak(dev: bool = False) -> tuple[str, list[str]]:
    """(voice, command line options) of one espeak-ng speaker; `dev` draws one of the few kept for choosing by."""
    while True:
        own = random.random() < 0.5
        variant = f"own{random.randrange(OWN_VARIANTS):03d}" if own else random.choice(SHIPPED)
        voice = random.choice(sorted(DEV_ESPEAK)) if dev else f"{random.choice(ACCENTS)}+{variant}"
        if voice not in HELD_ESPEAK and (dev or voice not in DEV_ESPEAK):
            break
    return voice, ["-s", str(random.randrange(105, 215)), "-p", str(random.randrange(15, 85)),
                   "-g", str(random.choice([0, 0, 0, 1, 3])), "-a", "90"]


def draw_flite() -> tuple[str, list[str]]:
    """(voice, command line options) of one flite speaker with a pace and melody of the moment."""
    voice = random.choice(FLITE)
    features = {"duration_stretch": random.uniform(0.7, 1.45), "f0_shift": random.uniform(0.8, 1.3),
                "int_f0_target_mean": random.uniform(80, 235), "int_f0_target_stddev": random.uniform(5, 45)}
    return voice, [x for k, v in features.items() for x in ("--setf", f"{k}={v:.3f}")]


SHIPPED = shipped_variants() if os.path.isdir(DATA) else []
