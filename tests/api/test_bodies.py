"""Bodies of requests and answers: what is no JSON, too much, packed wrongly; what is packed on the way back."""

from __future__ import annotations

import gzip
import json
from typing import Any

import brotli
import pytest

from tests.phone import Phone, push

Phones = dict[str, Phone]


@pytest.mark.parametrize(
    "data",
    [b"", b"{", b"<html>sign in to the network</html>", b"[]", b"null", b"[" * 100_000, b'{"a": NaN}', b"\xff\xfe"],
)
def test_what_is_not_a_json_object_is_refused(phones: Phones, data: bytes) -> None:
    response = push(phones["inspector"], data)
    assert response.status_code == 400
    assert response.mimetype == "application/problem+json"


@pytest.mark.parametrize(
    "media", ["text/plain", "application/x-www-form-urlencoded", "multipart/form-data", "text/html"]
)
def test_another_content_type_is_refused(phones: Phones, media: str) -> None:
    assert push(phones["inspector"], b"{}", Content_Type=media).status_code == 415


def test_a_body_over_two_megabytes_is_refused(phones: Phones) -> None:
    response = push(phones["inspector"], b'{"x":"' + b"y" * 2 * 1024 * 1024 + b'"}')
    assert (response.status_code, response.mimetype) == (413, "application/problem+json")


def test_a_small_body_that_grows_past_its_limit_is_refused(phones: Phones) -> None:
    bomb = gzip.compress(b" " * 64 * 1024 * 1024)
    assert len(bomb) < 100_000
    assert push(phones["inspector"], bomb, Content_Encoding="gzip").status_code == 413


def test_a_body_just_under_the_limit_is_read(phones: Phones) -> None:
    data = json.dumps(phones["inspector"].envelope()).encode()
    padded = gzip.compress(data + b" " * (8 * 1024 * 1024 - len(data)))
    assert push(phones["inspector"], padded, Content_Encoding="gzip").status_code == 200
    over = gzip.compress(data + b" " * (8 * 1024 * 1024 - len(data) + 1))
    assert push(phones["inspector"], over, Content_Encoding="gzip").status_code == 413


@pytest.mark.parametrize("cut", [lambda data: data[:-4], lambda data: data + b"more", lambda data: b"not gzip"])
def test_broken_gzip_is_refused(phones: Phones, cut: Any) -> None:
    packed = gzip.compress(json.dumps(phones["inspector"].envelope()).encode())
    assert push(phones["inspector"], cut(packed), Content_Encoding="gzip").status_code == 400


def test_another_coding_is_refused(phones: Phones) -> None:
    assert push(phones["inspector"], b"{}", Content_Encoding="deflate").status_code == 415


@pytest.mark.parametrize(("coding", "unpack"), [("gzip", gzip.decompress), ("br", brotli.decompress)])
def test_answers_are_packed_when_asked_for(phones: Phones, module: str, coding: str, unpack: Any) -> None:
    phone = phones["inspector"]
    headers = {**phone.bearer(), "Accept-Encoding": coding, "Content-Type": "application/json"}
    response = phone.client.post("/api/sync", data=json.dumps(phone.envelope(cursor=0)), headers=headers)
    assert response.headers["Content-Encoding"] == coding
    assert "Accept-Encoding" in response.headers["Vary"]
    assert json.loads(unpack(response.data))["rakelight"] == 1
