"""Honest files made dishonest: mutations of YAML text, token by token and line by line."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path
from random import Random

from checker.units.table import ROWS

__all__ = ["HOSTILE", "ROOT", "descriptions", "mutated", "rules", "site_files", "spoilt"]

ROOT = Path(__file__).resolve().parents[2]

# What takes the place of a value: numbers, units, words and signs that mean something to someone.
HOSTILE = (
    "0", "-0", "-1", "1e15", "1e-15", "1e99", "1e400", "999999999999999", "0.000000000000001", ".nan", "-.inf", "1/0",
    "0 kg", "0 m", "-5 mm", "1e14 m", "1e-14 m", "0.000000000001 m", "1e14 kg", "0 V", "0 A", "0 Hz", "-273.15 degC", "-300 degC",
    "1e14 degC", "0 K", "0 %", "100 %", "1e14 %", "5 kg ± 5 kg", "5 kg ± 500 %", "0..1e14 m", "1e14 ± 1e14 kg", "0 dB", "1e14 dB",
    "1e14 N*m", "0 N*m", "1e14 Pa", "0 Pa", "1e-14 mm2", "0001-01-01", "9999-12-31", "2024-02-30", "true", "false", "~", "''",
    "[]", "{}", "[[]]", "{is: }", "{is: 5 kg, origin: estimated}", "{origin: measured}", "[1, 2]", "{a: 1}", "*a", "&a 5", "!x 5", "? 5",
    "stop", "met", "side-post", "floor-stand", "plan", "fitted", "x", "'{0.__class__}'", "'{demand}'", "\"\\u0000\"", "\"\\ud800\"", "'a\tb'",
    "demand", "limit", "demand <= limit", "1/0", "9**9**9", "x.__class__", "sum(1)", "'" + "a" * 5000 + "'", "\N{NO-BREAK SPACE}5", "٣", "½",
)  # fmt: skip
_UNITS = tuple(spelling for row in ROWS for spelling in (row[0], *row[1]))
_NUMBER = re.compile(r"(?<![A-Za-z_0-9.])-?[0-9]+(?:\.[0-9]+)?")
_VALUE = re.compile(r"(?<=: )[^\s{\[#][^#\n{}\[\],]*")
_UNIT = re.compile(r"(?<=[0-9] )[A-Za-z%°µΩ][A-Za-z0-9*/%°²³·^]*")
_KEY = re.compile(r"[a-z_][a-z_0-9]*(?=:)")
_WORD = re.compile(r"[A-Za-z_][A-Za-z_0-9.]*")
_SIGNS = ("<=", ">=", "<", ">", "==", "!=", "+", "-", "*", "/", "**", "and", "or", "not", "if", "else", "in", "for")  # fmt: skip


@cache
def descriptions() -> tuple[tuple[str, str], ...]:
    """Every fixture by its name: the main ones and those with a defect."""
    return _files(("*.yaml", "defective/*.yaml"), ROOT / "fixtures")


@cache
def site_files() -> tuple[tuple[str, str], ...]:
    """What was found on site, by name."""
    return _files(("fitted/*.yaml",), ROOT / "fixtures")


@cache
def rules(pattern: str = "**/*.yaml") -> tuple[tuple[str, str], ...]:
    """The shipped rulebook's files by name."""
    return _files((pattern,), ROOT / "rules")


def _files(patterns: tuple[str, ...], root: Path) -> tuple[tuple[str, str], ...]:
    found = sorted(p for pattern in patterns for p in root.glob(pattern))
    assert found, patterns
    return tuple((p.relative_to(root).as_posix(), p.read_text(encoding="utf-8")) for p in found)


def mutated(text: str, random: Random, most: int = 4) -> str:
    """A text with one mutation or a few."""
    for _ in range(random.randint(1, most)):
        text = random.choice(_MUTATIONS)(text, random)
    return text


def spoilt(data: bytes, random: Random, most: int = 8) -> bytes:
    """Bytes with some of them changed, taken out, doubled or put elsewhere."""
    made = bytearray(data)
    for _ in range(random.randint(1, most)):
        if not made:
            return bytes(made)
        at = random.randrange(len(made))
        what = random.randrange(6)
        if what == 0:
            made[at] ^= 1 << random.randrange(8)
        elif what == 1:
            made[at] = random.randrange(256)
        elif what == 2:
            del made[at : at + random.choice((1, 2, 40, 4096))]
        elif what == 3:
            made[at:at] = made[at : at + random.choice((1, 8, 200))]
        elif what == 4:
            made[at : at + random.choice((1, 16, 512))] = bytes(random.choice((1, 16, 512)))
        else:
            del made[random.choice((0, at)) : random.choice((at, len(made)))]
    return bytes(made)


def _once(pattern: re.Pattern[str], text: str, random: Random, by: str) -> str:
    found = list(pattern.finditer(text))
    if not found:
        return text
    at = random.choice(found)
    return text[: at.start()] + by + text[at.end() :]


def _number(text: str, random: Random) -> str:
    return _once(_NUMBER, text, random, random.choice(("0", "-1", "1e14", "1e-14", "99999999", "1e99", "0.0", "-0.0", ".nan", "1,5")))  # fmt: skip


def _value(text: str, random: Random) -> str:
    return _once(_VALUE, text, random, random.choice(HOSTILE))


def _unit(text: str, random: Random) -> str:
    return _once(_UNIT, text, random, random.choice(_UNITS))


def _key(text: str, random: Random) -> str:
    keys = _KEY.findall(text)
    return _once(_KEY, text, random, random.choice(keys)) if keys else text


def _word(text: str, random: Random) -> str:
    words = _WORD.findall(text)
    return _once(_WORD, text, random, random.choice((random.choice(words), *_SIGNS))) if words else text  # fmt: skip


def _swap_values(text: str, random: Random) -> str:
    found = list(_VALUE.finditer(text))
    if len(found) < 2:
        return text
    a, b = sorted(random.sample(found, 2), key=lambda m: m.start())
    return text[: a.start()] + b[0] + text[a.end() : b.start()] + a[0] + text[b.end() :]


def _lines(text: str, random: Random) -> str:
    lines = text.split("\n")
    i, j = random.randrange(len(lines)), random.randrange(len(lines))
    match random.randrange(7):
        case 0:
            del lines[i]
        case 1:
            lines.insert(j, lines[i])
        case 2:
            lines[i], lines[j] = lines[j], lines[i]
        case 3:
            lines[i] = " " * random.choice((1, 2, 4)) + lines[i]
        case 4:
            lines[i] = lines[i].removeprefix("  ")
        case 5:
            lines[i : i + random.randint(1, 12)] = []
        case 6:
            block = lines[i : i + random.randint(1, 12)]
            lines[j:j] = ["  " + line for line in block]
    return "\n".join(lines)


def _cut(text: str, random: Random) -> str:
    return text[: random.randrange(len(text) + 1)]


def _nest(text: str, random: Random) -> str:
    found = list(_VALUE.finditer(text))
    if not found:
        return text
    at = random.choice(found)
    by = random.choice(("{{is: {}}}", "[{}]", "{{a: {}}}", "{{is: {{is: {}}}}}", "[[{}]]", "'{}'", "{{is: {}, origin: measured}}"))  # fmt: skip
    return text[: at.start()] + by.format(at[0].rstrip()) + text[at.end() :]


def _sign(text: str, random: Random) -> str:
    at = random.randrange(len(text) + 1)
    sign = random.choice(
        [*"'\"{}[],:#&*!|>%@`~-?\\\t\r\n\0\x1b", "\u2028", "\u202e", "\ufeff", "𝄞", "\x85"]
    )
    return text[:at] + sign + text[at + random.randrange(2) :]


def _grow(text: str, random: Random) -> str:
    """A member of a list, or any line, many times over."""
    lines = text.split("\n")
    i = random.randrange(len(lines))
    lines[i:i] = [lines[i]] * random.choice((2, 50, 3000))
    return "\n".join(lines)


_MUTATIONS = (
    _number, _number, _value, _value, _value, _unit, _unit, _key, _word, _word, _swap_values, _lines, _lines, _cut, _nest, _sign, _grow,
)  # fmt: skip
