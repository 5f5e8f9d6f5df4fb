"""Reads the project's JSGF grammars (W3C Note, 5 June 2000): enough to draw sentences from them and to build a decoder.

An expression is a string (a word), or a tuple: ("rule", name), ("seq", [...]), ("alt", [...]), ("opt", e), ("many", e).
"""

import glob
import os
import random
import re

SCAN = re.compile(r"""\s+|//[^\n]*|/\*.*?\*/|\{(?:[^{}\\]|\\.)*\}|/[\d.]+/|"[^"]*"|<[^>]+>|[;=|()\[\]*+]|[^\s;=|()\[\]*+<>{}"/]+""", re.S)
Expression = str | tuple


class Grammars:
    """All rules of a folder, by full name (grammar.rule)."""

    def __init__(self, folder: str):
        self.rules: dict[str, Expression] = {}
        self.public: list[str] = []
        self.imports: dict[str, list[str]] = {}
        self.home: dict[str, str] = {}
        for path in sorted(glob.glob(os.path.join(folder, "*.jsgf")) + glob.glob(os.path.join(folder, "*.gram"))):
            self._read(open(path, encoding="utf8").read())

    def _read(self, source: str) -> None:
        source = re.sub(r"^#JSGF[^;]*;", "", source)
        tokens = [t for t in SCAN.findall(source) if t.strip() and not t.startswith(("//", "/*", "{")) and not re.fullmatch(r"/[\d.]+/", t)]
        self.tokens, self.at = tokens, 0
        name = ""
        while self.at < len(tokens):
            token = self._take()
            if token == "grammar":
                name = self._take()
                self.imports[name] = []
                self._take()
            elif token == "import":
                self.imports[name].append(self._take()[1:-1])
                self._take()
            else:
                public = token == "public"
                rule = f"{name}.{(self._take() if public else token)[1:-1]}"
                self._take()  # =
                self.rules[rule] = self._alternatives()
                self._take()  # ;
                self.home[rule] = name
                # what no words lead to is said by nobody
                if public and ("rule", "VOID") not in self.rules[rule][1]:
                    self.public.append(rule)

    def _take(self) -> str:
        self.at += 1
        return self.tokens[self.at - 1]

    def _peek(self) -> str:
        return self.tokens[self.at] if self.at < len(self.tokens) else ";"

    def _alternatives(self) -> Expression:
        options = [self._sequence()]
        while self._peek() == "|":
            self._take()
            options.append(self._sequence())
        return options[0] if len(options) == 1 else ("alt", options)

    def _sequence(self) -> Expression:
        items: list[Expression] = []
        while self._peek() not in ("|", ")", "]", ";"):
            token = self._take()
            if token in "([":
                inner = self._alternatives()
                self._take()
                items.append(("opt", inner) if token == "[" else inner)
            elif token in ("*", "+"):
                last = items.pop()
                items.append(("opt", ("many", last)) if token == "*" else ("many", last))
            elif token.startswith("<"):
                items.append(("rule", token[1:-1]))
            else:
                items.append(token.strip('"').lower())
        return ("seq", items)

    def resolve(self, name: str, home: str) -> str:
        """A rule named inside grammar `home`: its own, fully named, or imported."""
        if name in ("NULL", "VOID"):
            return name
        candidates = [f"{home}.{name}", name]
        for imported in self.imports.get(home, []):
            package, _, last = imported.rpartition(".")
            if last == "*":
                candidates += [f"{package}.{name}", f"{package.rpartition('.')[0]}.{name}"]
            elif last == name or f"{package.rpartition('.')[2]}.{last}" == name:
                candidates.append(imported)
        for candidate in candidates:
            if candidate in self.rules:
                return candidate
        raise KeyError(f"<{name}> is used in {home} but defined nowhere it imports from")

    def sample(self, rule: str) -> str:
        """One random sentence of a rule."""
        return " ".join(self._sample(("rule", rule), ""))

    def _sample(self, e: Expression, home: str) -> list[str]:
        if isinstance(e, str):
            return [e]
        kind, body = e
        if kind == "rule":
            full = self.resolve(body, home) if home else body
            return [] if full == "NULL" else self._sample(self.rules[full], self.home[full])
        if kind == "seq":
            return [w for item in body for w in self._sample(item, home)]
        if kind == "alt":
            return self._sample(random.choice(body), home)
        if kind == "opt":
            return self._sample(body, home) if random.random() < 0.4 else []
        words = self._sample(body, home)
        while random.random() < 0.4:
            words += self._sample(body, home)
        return words
