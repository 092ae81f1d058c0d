"""What a person types at a question, turned into the YAML that the binder then checks."""

from __future__ import annotations

import datetime
import json
import re

from checker.errors import Mistakes
from checker.installation.binding import ORIGINS
from checker.installation.fields import Field
from checker.reading import plain, read_yaml

__all__ = ["as_yaml", "numbered", "text_as_yaml"]

# What may stand in YAML without quotes, inside brackets too.
_BARE = re.compile(r"[\w.+°±≤≥~-][\w .+°±µ·²³%*/()'-]*", re.UNICODE)
_WRAPPED = re.compile(r"\{ *is: *(?P<value>.+?) *, *origin: *(?P<origin>[^,{}]+?) *\}")
_YES_NO = {"yes": "true", "y": "true", "true": "true", "no": "false", "n": "false", "false": "false"}  # fmt: skip


def as_yaml(field: Field, typed: str) -> str:
    """The value on one line of YAML. What is wrong with it is for the binder to say.

    A flag takes yes and no, a choice its number in the list, a date 'today', a value its
    origin behind a comma.
    """
    typed = typed.strip()
    quoted = len(typed) > 1 and typed[0] == typed[-1] == '"'
    if quoted and field.type == "text":
        return json.dumps(typed[1:-1], ensure_ascii=False)
    match field.type:
        case "quantity":
            value, _, origin = typed.rpartition(",")
            if value and origin.strip() in ORIGINS:
                return f"{{is: {_scalar(value.strip())}, origin: {origin.strip()}}}"
            wrapped = _WRAPPED.fullmatch(typed)
            if wrapped:
                return f"{{is: {_scalar(wrapped['value'])}, origin: {_scalar(wrapped['origin'])}}}"
        case "flag":
            return _YES_NO.get(typed.lower()) or _scalar(typed)
        case "choice":
            if typed not in field.choices and numbered(field) and re.fullmatch("[0-9]{1,3}", typed):
                place = int(typed)
                if 1 <= place <= len(field.choices):
                    return text_as_yaml(field.choices[place - 1])
            alike = [c for c in field.choices if _plainly(c) == _plainly(typed)]
            return text_as_yaml(alike[0] if len(alike) == 1 else typed)
        case "date" if typed.lower() == "today":
            return datetime.date.today().isoformat()
        case "text":
            return text_as_yaml(typed)
    return _scalar(typed)


def numbered(field: Field) -> bool:
    """Whether the choices can be told by number: not where one of them looks like a number."""
    return not any(c[:1].isdigit() for c in field.choices)


def _plainly(word: str) -> str:
    """A choice without what people do not hear: capitals, and how its words are joined."""
    return re.sub("[ _-]+", "-", word.lower())


def text_as_yaml(typed: str) -> str:
    """A text as it is where YAML reads it so, else in quotes."""
    return typed if _BARE.fullmatch(typed) and _read(typed) == typed else _quoted(typed)


def _scalar(typed: str) -> str:
    """A number or a text as it is where YAML reads one of the two, else in quotes."""
    if _BARE.fullmatch(typed) and isinstance(_read(typed), (str, int, float)):
        return typed
    return _quoted(typed)


def _quoted(typed: str) -> str:
    return json.dumps(typed, ensure_ascii=False)


def _read(typed: str) -> object:
    try:
        return plain(read_yaml(f"[{typed}]".encode("utf-8", "replace"), ""))[0]
    except Mistakes:
        return None
