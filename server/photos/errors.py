"""What can go wrong with a photo, as one tree. `key` names the sentence in words/photos.json that says what to do."""

from __future__ import annotations


class PhotoProblem(Exception):
    """Root of the tree. `status` is the HTTP status that fits; `again` says whether trying again later can help."""

    key = "photos.problem"
    status = 400
    again = False


class NotAName(PhotoProblem):
    """The name is not 64 lower-case hexadecimal digits. A person never types one: a program is wrong or hostile."""

    key = "photos.not_a_name"
    status = 404


class NotHere(PhotoProblem):
    """No photo of this name has arrived. The phone that took it still has it: let that phone come into signal."""

    key = "photos.not_here"
    status = 404


class WrongHash(PhotoProblem):
    """The bytes are not those that the name promises: damaged on the way. Send them again."""

    key = "photos.wrong_hash"
    status = 422
    again = True


class NotAPhoto(PhotoProblem):
    """Root of what is wrong with the content itself: sending it again does not help, taking the photo again does."""

    key = "photos.not_a_photo"
    status = 415


class UnknownFormat(NotAPhoto):
    """Neither JPEG, PNG nor WebP by its content. Take or save it as JPEG."""

    key = "photos.unknown_format"


class Animated(NotAPhoto):
    """More than one frame: a moving picture is no evidence of a wall. Take a still photo."""

    key = "photos.animated"


class Damaged(NotAPhoto):
    """The content begins like a photo and cannot be decoded to its end. Take it again."""

    key = "photos.damaged"
    status = 422


class TooLarge(NotAPhoto):
    """More bytes than a photo may have. Save it smaller; the app does so by itself."""

    key = "photos.too_large"
    status = 413


class TooManyPixels(TooLarge):
    """More pixels than may be decoded, read from the header before decoding. Save it smaller."""

    key = "photos.too_many_pixels"


class NoSuchSize(PhotoProblem):
    """Renditions are made in three sizes only: thumb, paper, screen."""

    key = "photos.no_such_size"
    status = 404


class StoreFailed(PhotoProblem):
    """The store could not keep the bytes (disk full, no permission). The phone keeps them and tries again."""

    key = "photos.store_failed"
    status = 507
    again = True
