"""Photos of where things are: scaled down, turned upright, and stripped of whatever the camera wrote into them."""

from __future__ import annotations

import functools
import io
import warnings
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL import Image

PAGE_PX = 1600  # the longer edge of a photo in the site
SMALL_PX = 560  # the same in the manual that is one file, and on paper
MOST_PX = 120_000_000
QUALITY = 78


class Unreadable(Exception):
    """The file is no photo that can be shown; the message says why, in a few words."""


def prepared(path: Path, longest_px: int = PAGE_PX) -> bytes:
    """A photo as it is published: JPEG, the longer edge at most `longest_px`, upright, without any metadata.

    The same file gives the same bytes. Raises Unreadable.
    """
    try:
        written = path.stat()
    except OSError:
        raise Unreadable("it is not there") from None
    return _prepared(path, written.st_mtime_ns, written.st_size, longest_px)


@functools.lru_cache(maxsize=128)
def _prepared(path: Path, _changed_ns: int, _size: int, longest_px: int) -> bytes:
    from PIL import ImageFile

    lenient = ImageFile.LOAD_TRUNCATED_IMAGES  # the PDF engine sets it for the whole process
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        bare = _bare(path, longest_px)
    except Unreadable:
        raise
    except Exception as error:
        raise Unreadable("it is no picture in JPEG, PNG, WebP or TIFF") from error
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=False, subsampling="4:2:0")
    return out.getvalue()


def _bare(path: Path, longest_px: int) -> Image.Image:
    """The picture scaled down, upright, in the screen's colours, on white."""
    from PIL import Image, ImageOps

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # the size is looked at here
        with Image.open(path, formats=("JPEG", "PNG", "WEBP", "TIFF")) as image:
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
