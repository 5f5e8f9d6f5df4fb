"""What the training voices say: the bench's own sentences, numbers and units, and everyday words for everything else."""

import os
import random
import re

from jsgf import Grammars
from lexicon import HERE, TOOLS

ONES = ("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
        "seventeen eighteen nineteen").split()
TENS = dict(zip(range(20, 100, 10), "twenty thirty forty fifty sixty seventy eighty ninety".split()))
CONFUSABLE = [n for d in range(3, 10) for n in (d * 10, d + 10)]

LIQUIDS = ["pre bath", "prebath", "backing remover", "remover", "developer", "first developer", "color developer",
           "colour developer", "stop bath", "stop", "bleach", "fixer", "blix", "wash", "rinse", "wash water",
           "final rinse", "stabilizer", "stabiliser", "water", "conditioner", "reversal bath"]
VESSELS = ["tank", "jug", "beaker", "measuring cup", "tub", "tray", "sink", "waste container"]
SUBSTANCES = ["sodium sulphite", "sodium carbonate", "borax", "sodium hydroxide", "potassium bromide", "acetic acid",
              "ammonium thiosulphate", "potassium ferricyanide", "metabisulphite", "sodium chloride", "citric acid",
              "baking soda", "sodium bicarbonate", "boric acid", "ammonia"]
ASKING = ["can you find", "give me", "i would like", "could we have", "do you want", "may i see", "get", "they want", "let's take", "show me",
          "i'd like", "can we get", "bring him", "tell her about", "we have"]
VOLUMES = ["milliliters", "milliliter", "millilitres", "liters", "liter", "litres", "ounces"]
UNITS = VOLUMES + ["minutes", "minute", "seconds", "second", "hours", "hour", "degrees", "degrees celsius", "grams",
                   "gram", "kilograms", "milligrams", "percent", "ounces", "grains", "rolls", "films"]


def whole(n: int) -> str:
    """A whole number below ten thousand in words, said one of the ways people say it."""
    if n < 20:
        return ONES[n]
    if n < 100:
        return TENS[n // 10 * 10] + (" " + ONES[n % 10] if n % 10 else "")
    if n < 1000:
        head = random.choice(["a", "one"]) if n // 100 == 1 else ONES[n // 100]
        return head + " hundred" + (random.choice([" ", " and "]) + whole(n % 100) if n % 100 else "")
    return whole(n // 1000) + " thousand" + (" " + whole(n % 1000) if n % 1000 else "")


def digit() -> str:
    return random.choice(ONES[:10] + ["oh"]) if random.random() < 0.5 else random.choice(ONES[:10])


def number() -> str:
    r = random.random()
    if r < 0.22:
        return whole(random.choice(CONFUSABLE))
    if r < 0.42:
        return whole(random.randrange(20))
    if r < 0.75:
        return whole(random.randrange(20, 100))
    return whole(random.randrange(100, 1000) if r < 0.93 else random.randrange(1000, 10000))


def decimal() -> str:
    head = "" if random.random() < 0.05 else whole(random.randrange(100)) + " "
    return head + "point " + " ".join(digit() for _ in range(random.choice([1, 1, 1, 2, 2, 3])))


def amount() -> str:
    return f"{random.choice([number, number, decimal])()} {random.choice(UNITS)}"


def digits() -> str:
    return " ".join(digit() for _ in range(random.randrange(1, 7)))


def bottle() -> str:
    return f"bottle {random.choice(ONES[1:13])}"


def liquid() -> str:
    return random.choice(["", "the "]) + random.choice(LIQUIDS)


def place() -> str:
    return random.choice([bottle(), "the " + random.choice(VESSELS)])


PATTERNS = """
how long left|how much longer|how much time is left|time left|what time is left on this bath
what is next|what's next|next step|next bath|next please|what comes after this|where are we|where am i
start the clock|start the timer|start now|begin the run|begin a new run|start {liquid}|film is loaded|the film is in
{liquid} is in|pouring in {liquid}|pour in {liquid}|{liquid} going in|pouring {liquid} from {bottle}
pour {liquid} back into {bottle}|returning {liquid} to {bottle}|pouring back {liquid}|back into {bottle}
pour away {liquid}|{liquid} down the sink|dump the {vessel}|pour {amount} of {liquid} into {place}
{bottle} holds {liquid}|{bottle} has {amount} of {liquid}|what is in {bottle}|call {bottle} {word}
stop|quiet|hush|confirm|cancel|undo|undo that|yes|no|resume|carry on|help|louder|softer|slower|faster|be quiet
say that again|repeat that|pardon|speak up|override|pour it anyway|go ahead|hold the clock|pause the clock
log a spill|spilled {amount} of {liquid}|spill on the {word}|the spill is cleaned up|spill cleaned
{liquid} is {decimal} degrees|{liquid} is at {number}|{liquid} is at {decimal} degrees|temperature is {decimal}
drain now|draining|tank is empty|the tank is empty|add {number} seconds|add {number} more seconds|plus {number}
{decimal} grams|{number} grams|weighed {decimal} grams|{decimal} grams of {substance}|it reads {decimal}
mix {amount} of {liquid}|start mixing {liquid}|dissolved|it is dissolved|zeroed|scale is zero|made up to {amount}
p h is {decimal}|p h {decimal}|what does the label say|have we got any {substance}|add {number} grams of {substance}
is {liquid} ready|how warm is {liquid}|how warm is {bottle}|set the tub to {decimal} degrees|heater on|heater off
{bottle} is in the tub|take {bottle} out of the tub|how old is {liquid}|when was {liquid} mixed
which bottle is fullest|how many films are left in {liquid}|how do i replenish {liquid}|throw away {bottle}
film is hung|close the run|finish the run|note {words}|take a note|how long until {liquid}|show the curves
the tank takes {amount}|tank holds {amount}|what are the cautions for {substance}|i am wearing gloves
agitate|invert now|keep agitating|rotate|lights on|lights off|open the {vessel}|close the {vessel}
""".strip().replace("\n", "|").split("|")


def _popular() -> list[str]:
    source = open(os.path.join(TOOLS, "popular.js"), encoding="utf8").read(900_000)
    return re.findall(r"'([a-z]+)'", source)

# Connected speech, spelt so that a synthesiser says it. The unreduced way is drawn too (synth.py).
REDUCED = {
    "and": ["an", "un", "n"], "of": ["uh", "ov", "a"], "a": ["uh"], "an": ["un"], "the": ["thuh", "duh", "th"], "to": ["tuh", "ta", "t"],
    "for": ["fur", "fer"], "with": ["wi", "wit", "wih"], "can": ["kin", "kun"], "have": ["hav", "huv", "av"], "you": ["ya", "yuh"],
    "your": ["yer"], "is": ["iz", "uz"], "are": ["er"], "was": ["wuz"], "that": ["thut", "tha"], "this": ["thiss", "dis"],
    "him": ["im"], "her": ["er"], "his": ["iz"], "he": ["ee"], "them": ["um", "thum"], "some": ["sum", "sm"], "just": ["jus", "juss"],
    "what": ["wut", "wuh"], "want": ["wan", "wont"], "get": ["git", "geh"], "give": ["giv", "gih"], "make": ["may"], "like": ["lie"],
    "little": ["liddle", "lil"], "bit": ["bih", "bid"], "lot": ["lah", "lod"], "lots": ["lawts", "lots"], "water": ["wadder", "wodder"],
    "bottle": ["boddle", "bodle"], "better": ["bedder"], "twenty": ["twenny", "twunny"], "thirty": ["thirdy", "thurdy"],
    "forty": ["fordy"], "eighty": ["aydy"], "ninety": ["ninedy", "niney"], "seventy": ["sevendy", "sebmty"], "fifteen": ["fiffteen"],
    "eight": ["ayt", "ay"], "five": ["fi", "fiv"], "nine": ["nigh", "nine"], "seven": ["sevn", "sebm"], "hundred": ["hunnerd", "hundrd"],
    "minutes": ["minits", "mints"], "minute": ["minit"], "seconds": ["secunds", "seckinds"], "degrees": ["dgrees", "duhgrees"],
    "next": ["nex"], "last": ["lass"], "first": ["furss"], "most": ["moss"], "left": ["lef"], "start": ["stard", "star"],
    "temperature": ["tempracher", "temprachur"], "going": ["gone", "goin"], "much": ["muh", "much"], "would": ["wud", "d"],
    "i'm": ["ahm"], "i'll": ["all"], "i": ["ah", "eye"], "about": ["bout", "abow"], "because": ["cuz"], "probably": ["probly"],
    "is it": ["izit"], "don't": ["doan", "don"], "film": ["filum", "fim"], "hold": ["hole"], "cold": ["cole"], "second": ["seckun"],
}


class Writer:
    """Draws texts whose every word the lexicon knows."""

    def __init__(self, lexicon: dict[str, list[list[str]]]):
        self.lexicon = lexicon
        seen: dict[str, None] = {}
        for word in _popular():
            if word in lexicon and (len(word) > 2 or word in SHORT):
                seen.setdefault(word)
        self.common = list(seen)[:16000]
        self.weights = [(rank + 20) ** -0.62 for rank in range(len(self.common))]
        self.grammars = Grammars(os.path.join(HERE, "..", "grammars"))
        self.rare = [w for w in lexicon if re.fullmatch(r"[a-z']{3,14}", w)]

    def word(self) -> str:
        return random.choices(self.common, self.weights)[0]

    def words(self, low: int = 2, high: int = 9) -> str:
        return " ".join(random.choices(self.common, self.weights, k=random.randrange(low, high)))

    def unusual(self) -> str:
        return " ".join(random.choice([self.word(), random.choice(self.rare)]) for _ in range(random.randrange(1, 6)))

    def sentence(self) -> str:
        w = self.word
        return random.choice([
            lambda: f"the {w()} is {random.choice(['in', 'on', 'under', 'behind'])} the {w()}",
            lambda: f"i {random.choice(['want', 'need', 'saw', 'think', 'heard'])} {random.choice(['a', 'the', 'your'])} {w()} {w()}",
            lambda: f"{random.choice(['what', 'who', 'where', 'when', 'why'])} {random.choice(['is', 'was', 'does', 'did'])} the {w()} {w()}",
            lambda: f"please {w()} the {w()} before you {w()}",
            lambda: f"there are {number()} {w()} and {number()} {w()}",
            lambda: f"{random.choice(ASKING)} {random.choice(['a', 'the', 'some', 'another', 'a lot of', 'a bit of', 'lots of'])} {w()} {w()} "
                    f"{random.choice(['with', 'and', 'of', 'for', 'in', 'on', 'to', 'from'])} {random.choice(['a', 'the', 'some', 'my', 'a little'])} {w()}",
            lambda: f"{w()} {random.choice(['and', 'or', 'with', 'of'])} {w()} {random.choice(['and', 'or', 'with', 'of', 'for'])} {w()}",
        ])()

    def command(self) -> str:
        return self.grammars.sample(random.choice(self.grammars.public))

    def domain(self) -> str:
        fill = {"liquid": liquid, "bottle": bottle, "place": place, "amount": amount, "decimal": decimal,
                "number": number, "word": self.word, "words": self.words,
                "vessel": lambda: random.choice(VESSELS), "substance": lambda: random.choice(SUBSTANCES)}
        return re.sub(r"\{(\w+)\}", lambda m: fill[m[1]](), random.choice(PATTERNS))

    def draw(self) -> str:
        kinds = [(0.22, self.command), (0.10, self.domain), (0.11, amount), (0.06, number), (0.05, decimal), (0.11, digits),
                 (0.14, self.words), (0.07, self.unusual), (0.14, self.sentence)]
        while True:
            make = random.choices([k for _, k in kinds], [p for p, _ in kinds])[0]
            text = make()
            if 0 < len(text.split()) <= 16 and all(w in self.lexicon for w in text.split()):
                return text


SHORT = {"a", "i", "an", "as", "at", "be", "by", "do", "go", "he", "if", "in", "is", "it", "me", "my", "no", "of",
         "on", "or", "so", "to", "up", "us", "we", "am", "oh"}
