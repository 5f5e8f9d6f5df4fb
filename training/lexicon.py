"""Words to phones: the CMU dictionary (npm cmu-pronouncing-dictionary), a few words of the darkroom, and British variants.

Labels are phonemic, not phonetic: a British voice that drops its r still gets R in its label, so that one dictionary
serves every accent. Where the dictionary itself knows several pronunciations, the one nearest to what the synthesiser
says it spoke is taken (`nearest`).
"""

import os
import re

HERE = os.path.dirname(os.path.abspath(__file__))
TOOLS = os.environ.get("TANKSIDE_TTS", os.path.join(HERE, ".tts"))

CONSONANTS = "B CH D DH F G HH JH K L M N NG P R S SH T TH V W Y Z ZH".split()
VOWELS = "AA AE AH AO AW AY EH ER EY IH IY OW OY UH UW".split()
# Stress is kept where it changes the sound most: strut/schwa, and the -teen/-ty vowel.
STRESSED = ["AH1", "IY1"]
TOKENS = ["_"] + sorted(CONSONANTS + VOWELS + STRESSED)
TOKEN_ID = {token: i for i, token in enumerate(TOKENS)}

EXTRA = {
    "litre": "L IY1 T ER0",
    "litres": "L IY1 T ER0 Z",
    "millilitre": "M IH1 L AH0 L IY2 T ER0",
    "millilitres": "M IH1 L AH0 L IY2 T ER0 Z",
    "milliliter": "M IH1 L AH0 L IY2 T ER0",
    "milliliters": "M IH1 L AH0 L IY2 T ER0 Z",
    "celsius": "S EH1 L S IY0 AH0 S",
    "prebath": "P R IY1 B AE2 TH",
    "fixer": "F IH1 K S ER0",
    "blix": "B L IH1 K S",
    "stabiliser": "S T EY1 B AH0 L AY2 Z ER0",
    "stabilizer": "S T EY1 B AH0 L AY2 Z ER0",
    "colour": "K AH1 L ER0",
    "tankside": "T AE1 NG K S AY2 D",
    "thiosulphate": "TH AY2 OW0 S AH1 L F EY2 T",
    "thiosulfate": "TH AY2 OW0 S AH1 L F EY2 T",
    "sulphite": "S AH1 L F AY2 T",
    "sulfite": "S AH1 L F AY2 T",
    "metabisulphite": "M EH2 T AH0 B AY2 S AH1 L F AY2 T",
    "ferricyanide": "F EH2 R AH0 S AY1 AH0 N AY2 D",
    "bicarbonate": "B AY0 K AA1 R B AH0 N AH0 T",
    "replenish": "R IY0 P L EH1 N IH0 SH",
    "remjet": "R EH1 M JH EH2 T",
    "borax": "B AO1 R AE2 K S",
    "fixer's": "F IH1 K S ER0 Z",
    "tared": "T EH1 R D",
    "tare": "T EH1 R",
    "replenisher": "R IY0 P L EH1 N IH0 SH ER0",
    "shush": "SH AH1 SH",
    "nought": "N AO1 T",
    "metabisulfite": "M EH2 T AH0 B AY2 S AH1 L F AY2 T",
    "trisodium": "T R AY2 S OW1 D IY0 AH0 M",
    "hexametaphosphate": "HH EH2 K S AH0 M EH2 T AH0 F AA1 S F EY2 T",
    "decahydrate": "D EH2 K AH0 HH AY1 D R EY2 T",
    "monohydrate": "M AA2 N OW0 HH AY1 D R EY2 T",
    "pentahydrate": "P EH2 N T AH0 HH AY1 D R EY2 T",
    "heptahydrate": "HH EH2 P T AH0 HH AY1 D R EY2 T",
    "anhydrous": "AE0 N HH AY1 D R AH0 S",
    "bisulfite": "B AY2 S AH1 L F AY2 T",
    "worktop": "W ER1 K T AA2 P",
    "formalin": "F AO1 R M AH0 L IH0 N",
    "hydroxide": "HH AY0 D R AA1 K S AY2 D",
}

# Vowels that British speakers use and the American dictionary does not list.
BRITISH = {
    "bath": "B AA1 TH",
    "baths": "B AA1 TH S",
    "prebath": "P R IY1 B AA2 TH",
    "after": "AA1 F T ER0",
    "ask": "AA1 S K",
    "last": "L AA1 S T",
    "past": "P AA1 S T",
    "fast": "F AA1 S T",
    "faster": "F AA1 S T ER0",
    "half": "HH AA1 F",
    "glass": "G L AA1 S",
    "pass": "P AA1 S",
    "can't": "K AA1 N T",
    "answer": "AA1 N S ER0",
    "dance": "D AA1 N S",
    "chance": "CH AA1 N S",
    "plant": "P L AA1 N T",
    "class": "K L AA1 S",
    "master": "M AA1 S T ER0",
    "rather": "R AA1 DH ER0",
    "tomato": "T AH0 M AA1 T OW0",
    "process": "P R OW1 S EH2 S",
    "leisure": "L EH1 ZH ER0",
    "privacy": "P R IH1 V AH0 S IY0",
    "vitamin": "V IH1 T AH0 M IH0 N",
    "zebra": "Z EH1 B R AH0",
    "what": "W AO1 T",
    "was": "W AO1 Z",
    "stop": "S T AO1 P",
    "bottle": "B AO1 T AH0 L",
    "wash": "W AO1 SH",
    "clock": "K L AO1 K",
}

Pronunciation = list[str]


def to_tokens(phones: str) -> Pronunciation:
    """CMU phones with stress digits → tokens; primary stress survives on AH and IY alone."""
    return [p if p in STRESSED else p.rstrip("012") for p in phones.split()]


def load() -> dict[str, list[Pronunciation]]:
    """Every word with its pronunciations, the commonest first."""
    source = open(os.path.join(TOOLS, "cmudict.js"), encoding="utf8").read()
    words: dict[str, list[Pronunciation]] = {}
    for key, phones in re.findall(r"""^\s*["']?([^"'\s][^"\n]*?)["']?:\s*["']([A-Z0-2 ]+)["'],?$""", source, re.M):
        word = re.sub(r"\(\d+\)$", "", key)
        tokens = to_tokens(phones)
        if tokens not in words.setdefault(word, []):
            words[word].append(tokens)
    for table in (EXTRA, BRITISH):
        for word, phones in table.items():
            tokens = to_tokens(phones)
            if tokens not in words.setdefault(word, []):
                words[word].append(tokens)
    return words


def cost(a: str, b: str) -> float:
    """How unlike two phones are: the same 0, two vowels 0.6, two consonants 0.8, else 1."""
    a, b = a.rstrip("1"), b.rstrip("1")
    if a == b:
        return 0.0
    if (a in VOWELS) != (b in VOWELS):
        return 1.0
    return 0.6 if a in VOWELS else 0.8


def nearest(choices: list[list[Pronunciation]], heard: Pronunciation) -> Pronunciation:
    """One pronunciation for each word, so that the whole is nearest to `heard` by edit distance."""
    if all(len(c) == 1 for c in choices) or not heard:
        return [p for c in choices for p in c[0]]
    row = [float(j) for j in range(len(heard) + 1)]
    paths: list[Pronunciation] = [[] for _ in row]
    for options in choices:
        best, chosen = [float("inf")] * len(row), [[] for _ in row]
        for option in options:
            # each cell also remembers at which heard phone the word began
            cells = [(c, j) for j, c in enumerate(row)]
            for phone in option:
                new = [(cells[0][0] + 1, cells[0][1])]
                for j, h in enumerate(heard, 1):
                    new.append(min((cells[j - 1][0] + cost(phone, h), cells[j - 1][1]),
                                   (cells[j][0] + 1, cells[j][1]), (new[j - 1][0] + 1, new[j - 1][1])))
                cells = new
            for j, (c, begin) in enumerate(cells):
                if c < best[j]:
                    best[j], chosen[j] = c, paths[begin] + option
        row, paths = best, chosen
    return paths[-1]
