"""A formula as a tree: cut into tokens and read by precedence."""

from __future__ import annotations

import re
from typing import Any

from oracle_kinds import IllTyped

_TOKEN = re.compile(
    r"\s*(?:(\d+\.\d+(?:[eE][-+]?\d+)?|\d+(?:[eE][-+]?\d+)?)|('[^']*'|\"[^\"]*\")|([a-z_][a-z_0-9]*(?:\.[a-z_][a-z_0-9]*)*|True|False)|(\*\*|<=|>=|==|!=|[-+*/<>()\[\],]))"
)
_WORDS = {"and", "or", "not", "if", "else", "in", "for"}
_COMPARE = {"<", "<=", ">", ">=", "==", "!=", "in", "not in"}


class _Reader:
    """Reads by precedence: if-else, or, and, not, comparison, sum, product, sign, power, atom."""

    def __init__(self, text: str) -> None:
        self.tokens: list[tuple[str, Any]] = []
        at = 0
        text = text.rstrip()
        while at < len(text):
            found = _TOKEN.match(text, at)
            if found is None:
                raise IllTyped("a sign")
            number, quoted, name, sign = found.groups()
            if number:
                self.tokens.append(("number", float(number) if re.search("[.eE]", number) else int(number)))  # fmt: skip
            elif quoted:
                self.tokens.append(("text", quoted[1:-1]))
            elif name:
                self.tokens.append((name, None) if name in _WORDS else ("name", name))
            else:
                self.tokens.append((sign, None))
            at = found.end()
        self.tokens.append(("end", None))
        self.at = 0

    @property
    def next(self) -> str:
        return self.tokens[self.at][0]

    def take(self, *wanted: str) -> Any:
        kind, value = self.tokens[self.at]
        if wanted and kind not in wanted:
            raise IllTyped(f"{kind} instead of {wanted}")
        self.at += 1
        return value

    def choice(self) -> Any:
        body = self.either()
        if self.next != "if":
            return body
        self.take()
        test = self.either()
        self.take("else")
        return ("if", test, body, self.choice())

    def either(self) -> Any:
        parts = [self.both()]
        while self.next == "or":
            self.take()
            parts.append(self.both())
        return parts[0] if len(parts) == 1 else ("or", parts)

    def both(self) -> Any:
        parts = [self.negation()]
        while self.next == "and":
            self.take()
            parts.append(self.negation())
        return parts[0] if len(parts) == 1 else ("and", parts)

    def negation(self) -> Any:
        if self.next == "not":
            self.take()
            return ("not", self.negation())
        return self.comparison()

    def comparison(self) -> Any:
        left = self.sum()
        found = None
        while self.next in _COMPARE or (self.next == "not" and self.tokens[self.at + 1][0] == "in"):
            word = self.next
            self.take()
            if word == "not":
                self.take("in")
                word = "not in"
            if found is not None:
                raise IllTyped("two comparisons")
            found = (word, left, self.sum())
        return found if found is not None else left

    def sum(self) -> Any:
        left = self.product()
        while self.next in ("+", "-"):
            sign = self.next
            self.take()
            left = (sign, left, self.product())
        return left

    def product(self) -> Any:
        left = self.sign()
        while self.next in ("*", "/"):
            sign = self.next
            self.take()
            left = (sign, left, self.sign())
        return left

    def sign(self) -> Any:
        if self.next == "-":
            self.take()
            return ("neg", self.sign())
        return self.power()

    def power(self) -> Any:
        base = self.atom()
        if self.next != "**":
            return base
        self.take()
        return ("**", base, self.sign())

    def atom(self) -> Any:
        kind = self.next
        value = self.take("number", "text", "name", "(", "[")
        if kind in ("number", "text"):
            return (kind, value)
        if kind == "(":
            inner = self.choice()
            self.take(")")
            return inner
        if kind == "[":
            items = [self.choice()]
            if self.next == "for":
                made = self.loop(items[0])
                self.take("]")
                return ("listed", made)
            while self.next == ",":
                self.take()
                items.append(self.choice())
            self.take("]")
            return ("fixed", items)
        if value in ("True", "False"):
            return ("flag", value == "True")
        if self.next != "(":
            return ("path", value)
        self.take()
        arguments = [] if self.next == ")" else [self.choice()]
        if self.next == "for":
            arguments = [self.loop(arguments[0])]
        while self.next == ",":
            self.take()
            arguments.append(self.choice())
        self.take(")")
        return ("call", value, arguments)

    def loop(self, item: Any) -> Any:
        self.take("for")
        name = self.take("name")
        self.take("in")
        over = self.either()
        tests = []
        while self.next == "if":
            self.take()
            tests.append(self.either())
        if "." in name:
            raise IllTyped("one name")
        return ("loop", item, name, over, tests)


def parse(text: str) -> Any:
    """The tree of a formula; raises IllTyped."""
    reader = _Reader(text)
    tree = reader.choice()
    reader.take("end")
    return tree
