"""The process that makes one PDF: a job as JSON on standard input, the PDF on standard output. See paper.py.

Run as a file by itself, so that it imports WeasyPrint and nothing of the server.
"""

from __future__ import annotations

import ctypes.util
import gc
import json
import logging
import re
import resource
import sys
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

MEMORY = 3 << 30
CPU_SECONDS = 50
_PHOTO = re.compile(r"photo:([0-9a-f]{64})\Z")
_FONT = re.compile(r"font:([a-z]+)\Z")
_FORBIDDEN = (
    "socket.connect",
    "socket.bind",
    "socket.getaddrinfo",
    "subprocess.Popen",
    "os.system",
    "os.exec",
    "os.posix_spawn",
)


def limit() -> None:
    """Limits of memory and time, and no network or other program from here on, whatever a library tries."""
    for what, most in ((resource.RLIMIT_AS, MEMORY), (resource.RLIMIT_CPU, CPU_SECONDS), (resource.RLIMIT_CORE, 0)):
        hard = resource.getrlimit(what)[1]
        value = most if hard == resource.RLIM_INFINITY else min(most, hard)
        resource.setrlimit(what, (value, value))

    def refuse(event: str, _args: tuple[Any, ...]) -> None:
        if event.startswith(_FORBIDDEN):
            raise PermissionError(f"{event} is not for a page")

    sys.addaudithook(refuse)


def fetcher(folder: Path, fonts: dict[str, str]) -> Any:
    """A WeasyPrint fetcher that knows photo:<sha256> and font:<face> of this job, and refuses every other address."""
    from weasyprint.urls import URLFetcher, URLFetcherResponse

    class OnlyOurs(URLFetcher):  # type: ignore[misc, unused-ignore]
        def fetch(self, url: str, headers: Any = None) -> Any:
            if photo := _PHOTO.match(url):
                data = (folder / f"{photo[1]}.jpg").read_bytes()
                return URLFetcherResponse(url, data, {"Content-Type": "image/jpeg"})
            if (font := _FONT.match(url)) and font[1] in fonts:
                return URLFetcherResponse(url, Path(fonts[font[1]]).read_bytes(), {"Content-Type": "font/woff2"})
            raise ValueError("a page may show its own photos and fonts, nothing else")

    return OnlyOurs(allow_redirects=False, allowed_protocols=())


def page_of(html: str, fetch: Any) -> Any:
    """The document. Ours is well-formed, which the parser of the standard library reads ten times as fast.

    Anything else goes through WeasyPrint's own, to the same end.
    """
    import cssselect2  # type: ignore[import-untyped, unused-ignore]
    import weasyprint

    try:
        root = ElementTree.fromstring(html)
    except ElementTree.ParseError:
        return weasyprint.HTML(string=html, url_fetcher=fetch, base_url=None)
    page = weasyprint.HTML(string="<p></p>", url_fetcher=fetch, base_url=None)
    page.wrapper_element = cssselect2.ElementWrapper.from_html_root(root, content_language=None)
    page.etree_element = page.wrapper_element.etree_element
    return page


def main() -> None:
    """Reads the job, writes the PDF. Whatever goes wrong ends the process with a line on standard error."""
    # A page is one large web of boxes that lives until the end: looking through it for garbage finds none.
    gc.disable()
    job = json.load(sys.stdin.buffer)
    if sys.platform == "linux":
        # WeasyPrint asks for each library by several names; for a wrong one ctypes would start a compiler to find it.
        ctypes.util.find_library = lambda name: None
    import weasyprint
    from weasyprint.text.fonts import FontConfiguration

    logging.getLogger("weasyprint").setLevel(logging.ERROR)
    limit()
    fetch = fetcher(Path(job["photos"]), job["fonts"])
    fonts = FontConfiguration()
    page = page_of(job["html"], fetch)
    faces = "".join(_face(name) for name in job["fonts"])
    css = weasyprint.CSS(string=faces + job["css"], url_fetcher=fetch, font_config=fonts)
    sys.stdout.buffer.write(page.write_pdf(stylesheets=[css], font_config=fonts, pdf_tags=True))


def _face(name: str) -> str:
    family = {"text": "Rakelight", "mono": "Rakelight Mono"}[name]
    return f'@font-face {{ font-family: "{family}"; font-weight: 200 800; src: url(font:{name}) }}\n'


if __name__ == "__main__":
    main()
