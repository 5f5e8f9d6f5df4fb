"""The sets for judging, none of it ever trained or tuned on: `python3 heldout.py --out heldout.npz`.

Needs Debian's flite, espeak-ng, festival with festvox-kallpc16k, festvox-kdlpc16k and festvox-us-slt-hts,
asterisk-core-sounds-en-g722, pocketsphinx-testdata and ffmpeg. Speakers: flite rms; espeak-ng en-gb+m6, en-gb-x-rp+f4,
en-us+m2, en-us+f2; three festival voices (kal and slt are also heard in training through flite, which speaks with the
same people's recordings by another method; the rest were never heard); one real woman (Asterisk prompts).
"""

import argparse
import glob
import json
import os
import tempfile
import random
import subprocess

import numpy as np

import voices
from jsgf import Grammars
from lexicon import HERE

PROMPTS = "/usr/share/asterisk/sounds/en_US_f_Allison"
READINGS = "/usr/share/pocketsphinx/test/data/librivox"
UNITS = {"seconds": "seconds", "minutes": "minutes", "hours": "hours"}
Clip = tuple[str, str, str, np.ndarray]  # set, voice, words, sound at 16 kHz


def decoded(command: list[str], given: bytes | None = None) -> np.ndarray:
    """Any sound as 16 kHz mono through ffmpeg."""
    raw = subprocess.run(["ffmpeg", "-v", "error", *command, "-ac", "1", "-ar", "16000", "-f", "s16le", "-"],
                         input=given, check=True, capture_output=True).stdout
    return np.frombuffer(raw, np.int16).astype(np.float32) / 32768


def say(voice: str, text: str) -> np.ndarray:
    path = os.path.join(tempfile.gettempdir(), f"heldout-{os.getpid()}.wav")
    kind, name = voice.split(":")
    command = {"flite": ["flite", "-voice", name, "-t", text, "-o", path],
               "espeak": ["espeak-ng", "-v", name, "-w", path, text],
               "festival": ["text2wave", "-eval", f"(voice_{name})", "-o", path]}[kind]
    subprocess.run(command, input=text.encode() if kind == "festival" else None, check=True, capture_output=True)
    return decoded(["-i", path])


def commands(which: str, speakers: list[str], each: int, seed: int) -> list[Clip]:
    random.seed(seed)
    grammars = Grammars(os.path.join(HERE, "heldout"))
    clips = []
    for voice in speakers:
        for _ in range(each):
            words = grammars.sample("judge.commands")
            clips.append((which, voice, words, np.pad(say(voice, words), 3200)))
    return clips


def spoken_number(n: int) -> tuple[list[str], str]:
    """The prompt files and the words of a number below a thousand."""
    from text import ONES, TENS
    if n < 20:
        return [str(n)], ONES[n]
    if n < 100:
        files, words = spoken_number(n % 10) if n % 10 else ([], "")
        return [str(n // 10 * 10), *files], f"{TENS[n // 10 * 10]} {words}".strip()
    files, words = spoken_number(n % 100) if n % 100 else ([], "")
    return [str(n // 100), "hundred", *files], f"{ONES[n // 100]} hundred {words}".strip()


def tight(x: np.ndarray) -> np.ndarray:
    loud = np.flatnonzero(np.abs(x) > np.abs(x).max() * 0.02)
    return x[max(0, loud[0] - 320) : loud[-1] + 640]


def real_numbers(seed: int = 7) -> list[Clip]:
    """Every -teen and -ty, and others, joined with units from the recordings of one woman; digits also by telephone."""
    rng = random.Random(seed)
    prompt = lambda name: tight(decoded(["-f", "g722", "-i", f"{PROMPTS}/{name}.g722"]))
    gap = lambda: np.zeros(rng.randrange(300, 1900), np.float32)
    chosen = [*range(13, 20), *range(30, 100, 10)] + rng.sample(range(3, 13), 8) + rng.sample(range(21, 100), 30) + rng.sample(range(100, 1000), 28)
    clips = []
    for n in chosen:
        files, words = spoken_number(n)
        unit = rng.choice(sorted(UNITS))
        parts = [p for name in files for p in (prompt(f"digits/{name}"), gap())] + [prompt(UNITS[unit])]
        clips.append(("numbers", "asterisk", f"{words} {unit}", np.pad(np.concatenate(parts), 3200)))
    for _ in range(120):
        digits = [rng.randrange(10) for _ in range(3)]
        parts = [p for d in digits for p in (prompt(f"digits/{d}"), gap())]
        line = decoded(["-f", "s16le", "-ar", "16000", "-i", "-", "-af", "highpass=f=300,lowpass=f=3400"],
                       (np.concatenate(parts) * 32767).astype(np.int16).tobytes())
        clips.append(("digits", "asterisk, telephone", " ".join(spoken_number(d)[1] for d in digits), np.pad(line, 3200)))
    return clips


def chatter() -> list[Clip]:
    """Real speech that is no command."""
    files = sorted(glob.glob(f"{PROMPTS}/*.g722") + glob.glob(f"{PROMPTS}/followme/*.g722") + glob.glob(f"{PROMPTS}/dictate/*.g722"))
    sounds = [(f, decoded(["-f", "g722", "-i", f])) for f in files if "tone" not in f and "beep" not in f]
    sounds += [(f, decoded(["-i", f])) for f in sorted(glob.glob(f"{READINGS}/*.wav"))]
    pieces = []
    for name, x in sounds:
        for begin in range(0, len(x), 128000):
            piece = x[begin : begin + 128000]
            if len(piece) > 4800:
                pieces.append(("chatter", os.path.basename(name), "", np.pad(piece, 3200)))
    return pieces


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--out", required=True)
    parser.add_argument("--each", type=int, default=30, help="commands of each synthetic voice")
    args = parser.parse_args()
    judged = ["flite:rms", *(f"espeak:{v}" for v in sorted(voices.HELD_ESPEAK)),
              "festival:kal_diphone", "festival:ked_diphone", "festival:cmu_us_slt_arctic_hts"]
    clips = commands("commands", judged, args.each, 11) + real_numbers() + chatter()
    clips += commands("dev", [f"espeak:{v}" for v in sorted(voices.DEV_ESPEAK)], 15, 12)
    sounds = [(np.clip(c[3], -1, 1) * 32767).astype(np.int16) for c in clips]
    np.savez_compressed(args.out, sound=np.concatenate(sounds), lengths=np.array([len(s) for s in sounds]),
                        what=np.frombuffer(json.dumps([c[:3] for c in clips]).encode(), np.uint8))
    print({s: sum(c[0] == s for c in clips) for s in ("commands", "numbers", "digits", "chatter", "dev")},
          f"chatter {sum(len(c[3]) for c in clips if c[0] == 'chatter') / 16000 / 60:.1f} min")


if __name__ == "__main__":
    main()
