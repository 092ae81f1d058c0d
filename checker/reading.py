"""Strict YAML, with the line and the column of every key and value.

Read from libyaml's events in one loop, without recursion, so that a hostile file
costs no more than an honest one. What YAML would turn into something else is kept
as the text that was written: ``no`` stays "no", ``1:30`` stays "1:30". Anchors,
aliases, tags, a second document and duplicate keys are refused.
"""

from __future__ import annotations

import codecs
import os
import re
import stat
import sys
from pathlib import Path
from typing import Any, Final, NoReturn

import yaml

from checker.errors import Place, fault

__all__ = ["MAX_BYTES", "Mark", "Node", "place_of", "plain", "read_bytes", "read_text", "read_yaml"]

# (value, mark); a mapping's value is {key: (mark of the key, node)}, a list's is [node].
Node = tuple[Any, Any]
Mark = Any

MAX_BYTES: Final = 1024 * 1024
_MAX_DEPTH: Final = 32
_MAX_NODES: Final = 20_000
_MAX_SCALAR: Final = 4096

_LOADER: Any = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
_INTEGER = re.compile(r"[-+]?[0-9]{1,15}", re.ASCII)
_DECIMAL = re.compile(r"[-+]?[0-9]{1,15}(?:\.[0-9]{1,15})?(?:[eE][-+]?[0-9]{1,2})?", re.ASCII)
_UNWANTED = re.compile(
    "[\x00-\x09\x0b\x0c\x0e-\x1f\x7f-\x9f\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufffe\uffff]"
)
_NAMES = {
    "\t": ("a tab", "use spaces"),
    "\ufeff": ("an invisible mark inside the file", "delete it and type the line again"),
    "\x00": ("a zero byte: this is no text file", "give the YAML description"),
    "\u0085": ("an unusual line end", "save the file with plain line ends"),
    "\u2028": ("an unusual line end", "save the file with plain line ends"),
    "\u2029": ("an unusual line end", "save the file with plain line ends"),
}
_STARTS_OF_OTHER_ENCODINGS = ((b"\xff\xfe", "UTF-16"), (b"\xfe\xff", "UTF-16"))


def read_bytes(path: str, limit: int = MAX_BYTES) -> bytes:
    """The bytes of a file, or of standard input for ``-``.

    Raises Mistakes for a file that is not there, is a folder or a device, may not
    be read, is empty or is larger than the limit.
    """
    place = Place("<standard input>" if path == "-" else path)
    try:
        if path == "-":
            data = b"" if sys.stdin is None else sys.stdin.buffer.read(limit + 1)
        else:
            # Opened without waiting, so that a named pipe that nobody writes to cannot hang us.
            handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0))
            with os.fdopen(handle, "rb") as file:
                if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                    fault(
                        "this is not a file",
                        place,
                        expected="a YAML description",
                        hint="give a file, or '-' to read standard input",
                    )
                data = file.read(limit + 1)
    except FileNotFoundError:
        fault("there is no such file", place, hint=_neighbour(path))
    except IsADirectoryError:
        fault(
            "this is a folder",
            place,
            expected="one YAML description",
            hint="check a folder with 'mistwright audit'",
        )
    except PermissionError:
        fault("the file may not be read", place, hint="ask for the right to read it")
    except OSError as error:
        fault(f"the file cannot be read: {error.strerror}", place)
    if len(data) > limit:
        fault(
            "the file is too large",
            place,
            f"more than {limit // 1024} KiB",
            "a description of some hundred lines",
        )
    if not data.strip():
        fault(
            "the file is empty" if path != "-" else "nothing came on standard input",
            place,
            expected="a YAML description",
            hint="start one with 'mistwright new'",
        )
    return data


def read_text(data: bytes, name: str) -> str:
    """Decode a file's bytes as UTF-8 and refuse what cannot be seen.

    Raises Mistakes with the line and the column of the first unwanted character.
    """
    for start, encoding in _STARTS_OF_OTHER_ENCODINGS:
        if data.startswith(start):
            fault(
                f"the file is in {encoding}",
                Place(name, 1, 1),
                expected="UTF-8",
                hint="save it again as UTF-8",
            )
    # Cut off here, since the decoder's own way of doing it miscounts the place of a fault.
    data = data.removeprefix(codecs.BOM_UTF8)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        fault(
            "the file is not UTF-8 text",
            _place_after(data[: error.start].decode("utf-8"), name),
            f"byte 0x{data[error.start]:02X}",
            hint="save it again as UTF-8",
        )
    found = _UNWANTED.search(text)
    if found:
        what, hint = _NAMES.get(
            found[0], ("a character that cannot be seen", "delete it and type the line again")
        )
        place = _place_after(text[: found.start()], name)
        fault(what, place, f"U+{ord(found[0]):04X}", hint=hint)
    return text


def _place_after(before: str, name: str) -> Place:
    """The place of the character that follows a beginning of a file."""
    lines = re.split("\r\n|\r|\n", before)
    return Place(name, len(lines), len(lines[-1]) + 1)


def read_yaml(data: bytes, name: str) -> Node:
    """Read one YAML document into nodes.

    Raises Mistakes for anything that is not one plain document.
    """
    text = read_text(data, name)
    try:
        return _build(text, name)
    except yaml.YAMLError as error:
        fault(*_syntax(error, name))


def place_of(mark: Mark, name: str) -> Place:
    """A node's mark as a place for a person."""
    return Place(getattr(mark, "file", None) or name, mark.line + 1, mark.column + 1)


def plain(node: Node) -> Any:
    """A node as plain Python data, without its marks."""
    value = node[0]
    if isinstance(value, dict):
        return {key: plain(child) for key, (_, child) in value.items()}
    if isinstance(value, list):
        return [plain(child) for child in value]
    return value


def _build(text: str, name: str) -> Node:
    # The innermost container, whether it is a list, and the key that waits for its value;
    # those around it wait in the stack. One loop over plain variables: an audit spends
    # more time here than anywhere else.
    box: Any = None
    is_list = False
    key: str | None = None
    key_mark: Mark = None
    stack: list[tuple[Any, bool]] = []
    root: Node | None = None
    count = documents = 0
    next_event, unquoted = _LOADER(text).get_event, _UNQUOTED.get
    while True:
        event = next_event()
        kind = type(event)
        mark = event.start_mark
        if kind is yaml.ScalarEvent:
            value: Any = event.value
            if not event.implicit[0]:
                value = _quoted(value, mark, name)
            elif (known := unquoted(value, _UNKNOWN)) is _UNKNOWN:
                value = _unquoted(value, mark, name)
            else:
                value = known
        elif kind is yaml.MappingEndEvent or kind is yaml.SequenceEndEvent:
            box, is_list = stack.pop()
            continue
        elif kind is yaml.MappingStartEvent:
            value = {}
        elif kind is yaml.SequenceStartEvent:
            value = []
        elif kind is yaml.StreamEndEvent:
            break
        else:
            if kind is yaml.DocumentStartEvent:
                documents += 1
            _refuse_around(event, documents, name)
            continue
        if event.anchor is not None or event.tag is not None:
            _refuse_marked(event, name)
        count += 1
        if count > _MAX_NODES:
            fault("the file holds too much", place_of(mark, name), f"more than {_MAX_NODES} values")
        if key is not None:
            box[key] = (key_mark, (value, mark))
            key = None
        elif is_list:
            box.append((value, mark))
        elif box is None:
            root = (value, mark)
        else:
            if type(value) is not str or value in box:
                _refuse_key(value, event, box, name)
            key, key_mark = value, mark
            continue
        if kind is not yaml.ScalarEvent:
            stack.append((box, is_list))
            box, is_list = value, kind is yaml.SequenceStartEvent
            if len(stack) > _MAX_DEPTH:
                fault("nested too deeply", place_of(mark, name), f"more than {_MAX_DEPTH} levels")
    if root is None or root[0] is None:
        fault(
            "the file holds no description",
            Place(name, 1, 1),
            expected="fields such as 'job:' and 'collector:'",
            hint="start one with 'mistwright new'",
        )
    return root


def _refuse_around(event: Any, documents: int, name: str) -> None:
    """Refuse what is no value: an alias, a second document, a directive."""
    place = place_of(event.start_mark, name)
    if type(event) is yaml.AliasEvent:
        fault("an alias", place, f"*{event.anchor}", "the value itself", "write the value out")
    if type(event) is yaml.DocumentStartEvent:
        if documents > 1:
            fault("a second document in the file", place, "---", "one description a file")
        if event.version or event.tags:
            fault(
                "a directive",
                place,
                expected="a plain document",
                hint="delete the line that starts with %",
            )


def _refuse_marked(event: Any, name: str) -> NoReturn:
    place = place_of(event.start_mark, name)
    if event.anchor is not None:
        fault(
            "an anchor",
            place,
            f"&{event.anchor}",
            "the value itself",
            "write the value out where it is needed",
        )
    fault("a tag", place, event.tag, "the value itself", "delete the tag")


def _refuse_key(value: Any, event: Any, box: dict[str, Any], name: str) -> NoReturn:
    place = place_of(event.start_mark, name)
    if type(value) is not str:
        fault(
            "a key that is not a word",
            place,
            repr(value) if type(event) is yaml.ScalarEvent else "a list or a group",
            "the name of a field",
        )
    fault(
        f"'{value}' stands here a second time",
        place,
        f"first on line {box[value][0].line + 1}",
        "each field once",
        "delete one of the two",
    )


_WORDS = {"": None, "~": None, "null": None, "true": True, "false": False}
_UNKNOWN = object()
# What unquoted texts stand for. The same few thousand come again in every description, and
# sharing them makes every later look-up of a key quicker too.
_UNQUOTED: dict[str, Any] = dict(_WORDS)
_MOST_UNQUOTED = 50_000


def _unquoted(text: str, mark: Mark, name: str) -> Any:
    value: Any = text
    if _INTEGER.fullmatch(text):
        value = int(text)
    elif _DECIMAL.fullmatch(text):
        value = float(text)
    _refuse_long(text, mark, name)
    if len(_UNQUOTED) < _MOST_UNQUOTED:
        _UNQUOTED[text] = value
    return value


def _quoted(text: str, mark: Mark, name: str) -> str:
    if not text.isprintable() and not text.replace("\n", "").isprintable():
        fault(
            "a character that cannot be seen",
            place_of(mark, name),
            ascii(text)[:60],
            hint="delete it and type the text again",
        )
    _refuse_long(text, mark, name)
    return text


def _refuse_long(text: str, mark: Mark, name: str) -> None:
    if len(text) > _MAX_SCALAR:
        fault(
            "a text that is too long",
            place_of(mark, name),
            f"{len(text)} characters",
            f"at most {_MAX_SCALAR}",
        )


_SYNTAX = (
    (
        "mapping values are not allowed",
        "a colon where none can stand",
        "put the text in quotes, or mend the indentation",
    ),
    ("could not find expected ':'", "a line without its colon", "write 'field: value'"),
    (
        "did not find expected key",
        "a line that is indented differently from its neighbours, or an unclosed quote",
        "align it with the line above",
    ),
    ("cannot start any token", "a character that cannot start a value", "put the text in quotes"),
    ("found unexpected end of stream", "a quote or bracket that is never closed", "close it"),
    (
        "did not find expected ',' or",
        "a bracket that is never closed, or a missing comma",
        "close it",
    ),
    (
        "block sequence entries are not allowed",
        "a list that starts on the wrong line",
        "start the list on a line of its own",
    ),
    (
        "did not find expected '-' indicator",
        "a line inside a list that does not start with '-'",
        "align it with the items above",
    ),
    ("undefined alias", "an alias", "write the value out"),
    ("did not find expected alphabetic", "an anchor or alias sign", "put the text in quotes"),
    ("found undefined tag handle", "a tag", "delete it"),
    (
        "unknown escape character",
        "a backslash sequence that YAML does not know",
        "use single quotes",
    ),
    ("control characters are not allowed", "a character that cannot be seen", "delete it"),
    ("expected node content", "nothing where a value belongs", "write the value, '~' for none"),
    ("expected the node content", "nothing where a value belongs", "write the value, '~' for none"),
    ("maximum nesting depth", "nested too deeply", "a description has a few levels only"),
    ("incompatible YAML document", "a directive", "delete the line that starts with %"),
    ("incompatible document", "a directive", "delete the line that starts with %"),
)


def _syntax(error: yaml.YAMLError, name: str) -> tuple[str, Place, str, str, str]:
    mark = getattr(error, "problem_mark", None) or getattr(error, "context_mark", None)
    place = place_of(mark, name) if mark is not None else Place(name, 1, 1)
    problem = str(getattr(error, "problem", None) or error)
    for part, what, hint in _SYNTAX:
        if part in problem:
            return what, place, "", "", hint
    return "this cannot be read as YAML", place, problem[:80], "fields and values", ""


def _neighbour(path: str) -> str:
    import difflib  # noqa: PLC0415 - only needed once something is already wrong

    target = Path(path)
    try:
        names = [p.name for p in target.parent.iterdir() if p.suffix in (".yaml", ".yml", ".json")]
    except OSError:
        return ""
    found = difflib.get_close_matches(target.name, names, n=1)
    return f"did you mean '{target.with_name(found[0])}'?" if found else ""
