"""Photos of where things are: scaled down, turned upright, and stripped of whatever the camera wrote into them."""

from __future__ import annotations

import functools
import io
import os
import warnings
from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING, BinaryIO

from generator.machine.opening import NOT_THERE, Bounds, NotPlain, open_plain

if TYPE_CHECKING:
    from PIL import Image

PAGE_PX = 1600  # the longer edge of a photo in the site
SMALL_PX = 560  # the same in the manual that is one file, and on paper
MOST_PX = 120_000_000
MOST_BYTES = 100_000_000
QUALITY = 78


class Unreadable(Exception):
    """The file is no photo that can be shown; the message says why, in a few words."""


@dataclass(frozen=True)
class _Photo:
    """A photo's file as it was opened: what tells it from another version of it, and where its bytes come from."""

    path: Path
    changed_ns: int
    size_bytes: int
    inode: int
    file: BinaryIO = field(compare=False)


def prepared(path: Path, bounds: Bounds, longest_px: int = PAGE_PX) -> bytes:
    """A photo as it is published: JPEG, the longer edge at most `longest_px`, upright, without any metadata.

    It must be a plain file below one of the folders of `bounds`. The same file gives the same bytes. Raises Unreadable, and
    Outside where the file lies elsewhere.
    """
    try:
        with open_plain(path, bounds) as file:
            found = os.fstat(file.fileno())
            if found.st_size > MOST_BYTES:
                raise Unreadable(f"it is larger than {MOST_BYTES // 1_000_000} MB")
            return _prepared(_Photo(path, found.st_mtime_ns, found.st_size, found.st_ino, file), longest_px)
    except NotPlain as error:
        raise Unreadable(f"it is {error}") from None
    except OSError as error:
        raise Unreadable("it is not there" if error.errno in NOT_THERE else str(error.strerror)) from None


@functools.lru_cache(maxsize=128)
def size_px(published: bytes) -> tuple[int, int]:
    """Width and height of a photo that was prepared."""
    from PIL import Image

    with Image.open(io.BytesIO(published), formats=("JPEG",)) as image:
        return image.size


@functools.lru_cache(maxsize=128)
def _prepared(photo: _Photo, longest_px: int) -> bytes:
    from PIL import ImageFile

    lenient = ImageFile.LOAD_TRUNCATED_IMAGES  # the PDF engine sets it for the whole process
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        bare = _bare(photo.file, longest_px)
    except Unreadable:
        raise
    except Exception as error:
        raise Unreadable("it is no picture in JPEG, PNG, WebP or TIFF") from error
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=False, subsampling="4:2:0")
    return out.getvalue()


def _bare(file: BinaryIO, longest_px: int) -> Image.Image:
    """The picture scaled down, upright, in the screen's colours, on white."""
    from PIL import Image, ImageOps

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # the size is looked at here
        with Image.open(file, formats=("JPEG", "PNG", "WEBP", "TIFF")) as image:
            if image.width * image.height > MOST_PX:
                raise Unreadable(f"it is too large ({image.width} x {image.height} points)")
            image.draft("RGB", (longest_px, longest_px))
            upright = ImageOps.exif_transpose(image)
            upright.thumbnail((longest_px, longest_px), Image.Resampling.LANCZOS)
            return _on_white(_in_screen_colours(upright, image.info.get("icc_profile")))


def _in_screen_colours(image: Image.Image, profile: bytes | None) -> Image.Image:
    """The colours as a screen without profiles shows them; a profile that cannot be read is left out."""
    if not profile or image.mode not in ("RGB", "L"):
        return image
    from PIL import ImageCms

    try:
        shown = ImageCms.profileToProfile(
            image,
            ImageCms.ImageCmsProfile(io.BytesIO(profile)),
            ImageCms.createProfile("sRGB"),
            outputMode="RGB",
        )
    except ImageCms.PyCMSError:
        return image
    return shown or image


def _on_white(image: Image.Image) -> Image.Image:
    """The bare points on white paper, in a picture that knows nothing of the file they came from."""
    from PIL import Image

    if image.mode.startswith("I;16"):
        image = image.point(lambda value: value / 256).convert("L")
    points = image.convert("RGBA")
    bare = Image.new("RGB", points.size, "white")
    bare.paste(points, mask=points.getchannel("A"))
    return bare
