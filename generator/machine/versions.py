"""The versions that decide bytes: those the program is pinned to, and those that native libraries tell of themselves."""

from __future__ import annotations

import ctypes
import importlib.metadata
import re
from contextlib import suppress


def pinned_versions(distribution: str) -> dict[str, str]:
    """What an installed distribution requires here, without extras, with the version each is pinned to ("" for none).

    The program's are those of the lock that a checkout is installed from.
    """
    with suppress(importlib.metadata.PackageNotFoundError):
        required = importlib.metadata.requires(distribution) or []
        found = (re.match(r"([A-Za-z0-9._-]+)(?:==([^;\s]+))?[^;]*(;.*)?", line) for line in required)
        return {each[1]: each[2] or "" for each in found if each and _holds(each[1], each[3] or "")}
    return {}


def _holds(name: str, condition: str) -> bool:
    """Whether a requirement holds here: with a condition ("on an older Python") if what it names is installed."""
    if "extra ==" in condition:
        return False
    try:
        importlib.metadata.version(name)
    except importlib.metadata.PackageNotFoundError:
        return not condition
    return True


def same_version(one: str, other: str) -> bool:
    """Whether two texts name one version.

    >>> same_version("1.006", "1.6"), same_version("1.10", "1.1")
    (True, False)
    """
    first, second = ([part.lstrip("0") or "0" for part in text.split(".")] for text in (one, other))
    return first == second


def told_version(library: str, names: tuple[str, ...]) -> str:
    """The version a native library tells of itself; ``names`` are those it goes by. "" where it is not there, or tells none."""
    for name in names:
        with suppress(OSError, AttributeError, ValueError):
            return _told(library, ctypes.CDLL(name))
    return ""


def _told(library: str, handle: ctypes.CDLL) -> str:
    if library.startswith("libpangoft2"):
        return f"{_text(handle.pango_version_string)}, FreeType {_freetype(handle)}"
    if library.startswith("libpango"):
        return _text(handle.pango_version_string)
    if library.startswith("libharfbuzz"):
        return _text(handle.hb_version_string)
    if library.startswith("libfontconfig"):
        number = int(handle.FcGetVersion())
        return f"{number // 10_000}.{number // 100 % 100}.{number % 100}"
    if library.startswith("libgobject"):
        parts = ("major", "minor", "micro")
        return ".".join(str(ctypes.c_uint.in_dll(handle, f"glib_{part}_version").value) for part in parts)
    return ""


def _text(tells: ctypes._NamedFuncPointer) -> str:
    tells.restype = ctypes.c_char_p
    told: bytes = tells()
    return told.decode("ascii", "replace")


def _freetype(handle: ctypes.CDLL) -> str:
    """That of the FreeType which PangoFT2 brings along."""
    library = ctypes.c_void_p()
    if handle.FT_Init_FreeType(ctypes.byref(library)):
        return ""
    parts = [ctypes.c_int() for _ in range(3)]
    handle.FT_Library_Version(library, *map(ctypes.byref, parts))
    handle.FT_Done_FreeType(library)
    return ".".join(str(part.value) for part in parts)
