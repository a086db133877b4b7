"""Bytes of a file into rows of cells, each with its line; what is no text or no table says so."""

from __future__ import annotations

import csv
import io
import re

from server.loggers.trouble import NotRead

DELIMITERS = {"\t": "tabs", ";": "semicolons", ",": "commas", "|": "bars"}
MOST_LINES, MOST_COLUMNS = 50_000, 200
Rows = list[tuple[int, list[str]]]
_BOOKS = (b"PK\x03\x04", b"\xd0\xcf\x11\xe0")
_QUOTED = re.compile(r'"[^"]*"')


def decoded(data: bytes) -> tuple[str, str, bool]:
    """The text, its encoding, and whether a byte-order mark stood before it."""
    if data.startswith(_BOOKS):
        raise NotRead("workbook")
    if data.startswith((b"\xff\xfe", b"\xfe\xff")):
        return _wide(data, "utf-16"), "utf-16", True
    for first, encoding in ((1, "utf-16-le"), (0, "utf-16-be")):
        if len(data) > 3 and data[first:4:2] == b"\0\0":
            return _wide(data, encoding), "utf-16", False
    if b"\0" in data:
        raise NotRead("no_text")
    mark = data.startswith(b"\xef\xbb\xbf")
    try:
        return data.decode("utf-8-sig"), "utf-8", mark
    except UnicodeDecodeError:
        # What is left of the loggers' own world: one byte for a letter, and the degree sign among them.
        return data.decode("cp1252", "replace"), "windows-1252", False


def _wide(data: bytes, encoding: str) -> str:
    try:
        text = data.decode(encoding)
    except UnicodeDecodeError as error:
        raise NotRead("no_text") from error
    if "\0" in text:
        raise NotRead("no_text")
    return text


def delimiter_of(text: str) -> str:
    """The mark that stands equally often in the most of the first lines; commas may be decimal ones and come last."""
    lines = [_QUOTED.sub("", line) for line in text[:20_000].splitlines() if line.strip()][:30]
    if not lines:
        raise NotRead("file_empty")

    def agreement(mark: str) -> int:
        counts = [line.count(mark) for line in lines]
        usual = max(set(counts) - {0}, key=counts.count, default=0)
        return counts.count(usual) if usual else 0

    best = max(DELIMITERS, key=agreement)
    if not agreement(best):
        raise NotRead("one_column")
    return best


def rows_of(text: str, delimiter: str) -> Rows:
    """Every row that is not blank, with the number of its last line."""
    found: Rows = []
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
    try:
        for cells in reader:
            if any(cell.strip() for cell in cells):
                found.append((reader.line_num, [cell.strip() for cell in cells]))
            if len(cells) > MOST_COLUMNS:
                raise NotRead("many_columns", line=reader.line_num, most=MOST_COLUMNS)
            if len(found) > MOST_LINES:
                raise NotRead("file_long", most=MOST_LINES)
    except csv.Error as error:
        key = "cell_long" if "limit" in str(error) else "quotes"
        raise NotRead(key, line=reader.line_num) from error
    if not found:
        raise NotRead("file_empty")
    return found
