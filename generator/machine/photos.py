"""Photos of where things are: scaled down, turned upright, and stripped of whatever the camera wrote into them."""

from __future__ import annotations

import functools
import io
import warnings
from pathlib import Path

PAGE_PX = 1600  # the longer edge of a photo in the site
SMALL_PX = 560  # the same in the manual that is one file, and on paper
MOST_PX = 120_000_000
QUALITY = 78


class Unreadable(Exception):
    """The file is no photo that can be shown; the message says why, in a few words."""


def photographed(vessel) -> list:
    """Everything of a vessel with a place that names a photo."""
    radio = vessel.radio
    placed = (
        *vessel.rafts,
        *(radio.sets if radio else ()),
        *(radio.beacons if radio else ()),
        *vessel.grab_bags,
        *vessel.lifejackets,
        *((vessel.tender,) if vessel.tender else ()),
        *vessel.stops,
        *vessel.batteries,
        *vessel.pumps,
        *vessel.through_hulls,
        *vessel.gear,
    )
    return [each for each in placed if isinstance(getattr(each, "photo", None), str)]


def photo_file(vessel, block) -> Path | None:
    """The file of a thing's photo, seen from the vessel's folder; None where it names none."""
    named = getattr(block, "photo", None)
    return vessel.folder / named if isinstance(named, str) and vessel.folder is not None else None


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
def _prepared(path, _changed_ns, _size, longest_px):
    from PIL import Image, ImageFile, ImageOps

    lenient = ImageFile.LOAD_TRUNCATED_IMAGES  # the PDF engine sets it for the whole process
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # the size is looked at here
            with Image.open(path, formats=("JPEG", "PNG", "WEBP", "TIFF")) as image:
                if image.width * image.height > MOST_PX:
                    raise Unreadable(f"it is too large ({image.width} x {image.height} points)")
                image.draft("RGB", (longest_px, longest_px))
                upright = ImageOps.exif_transpose(image)
                upright.thumbnail((longest_px, longest_px), Image.Resampling.LANCZOS)
                bare = _on_white(_in_screen_colours(upright, image.info.get("icc_profile")))
    except Unreadable:
        raise
    except Exception as error:
        raise Unreadable("it is no picture in JPEG, PNG, WebP or TIFF") from error
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = lenient
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=QUALITY, optimize=True, progressive=False, subsampling="4:2:0")
    return out.getvalue()


def _in_screen_colours(image, profile):
    """The colours as a screen without profiles shows them; a profile that cannot be read is left out."""
    if not profile or image.mode not in ("RGB", "L"):
        return image
    from PIL import ImageCms

    try:
        return ImageCms.profileToProfile(
            image,
            ImageCms.ImageCmsProfile(io.BytesIO(profile)),
            ImageCms.createProfile("sRGB"),
            outputMode="RGB",
        )
    except ImageCms.PyCMSError:
        return image


def _on_white(image):
    """The bare points on white paper, in a picture that knows nothing of the file they came from."""
    from PIL import Image

    if image.mode.startswith("I;16"):
        image = image.point(lambda value: value / 256).convert("L")
    points = image.convert("RGBA")
    bare = Image.new("RGB", points.size, "white")
    bare.paste(points, mask=points.getchannel("A"))
    return bare
