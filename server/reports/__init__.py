"""Reports: parts in, page data out, and the paper that is made of it."""

from server.clock import Clock
from server.reports.gather import book_of, photos_of, static_folder
from server.reports.packet import packet_page
from server.reports.paper import PaperFailed, PaperTooSlow, html_of, pdf_of
from server.reports.words import LANGUAGES, UnknownWords, knows, say, say_n

__all__ = ["LANGUAGES", "PaperFailed", "PaperTooSlow", "UnknownWords", "knows", "packet", "say", "say_n"]


def packet(module: str, lang: str, clock: Clock) -> bytes:
    """The PDF of a module's packet. LookupError when there is no such module or language; PaperFailed."""
    if lang not in LANGUAGES:
        raise LookupError(f"packets are made in {', '.join(LANGUAGES)}")
    book = book_of(module, lang, clock)
    return pdf_of(html_of("packet.html", packet_page(book)), photos_of(book), static_folder())
