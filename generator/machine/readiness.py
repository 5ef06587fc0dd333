"""What the program finds on this machine: versions, native libraries, fonts, and how to bring what is missing.

The native libraries are tried one by one, without importing the PDF engine: that would cost a third of a second, and where
one is missing the engine greets the user with a traceback. Plain results only; nothing here prints.
"""

import contextlib
import ctypes
import ctypes.util
import importlib
import importlib.metadata
import io
import os
import platform
import re
import shutil
import sys
import zlib
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path

from generator import __version__
from generator.machine import fonts
from generator.machine.surroundings import nothing_run
from generator.machine.versions import pinned_versions, same_version, told_version

DISTRIBUTION = "musterbook"
OLDEST_PYTHON = (3, 11)

Loads = Callable[[tuple[str, ...]], bool]
"""Tells whether a native library of one of these names can be loaded."""

Which = Callable[[str], str | None]
"""Gives the path of a command, or None."""

NATIVE_LIBRARIES = {
    "libgobject-2.0": ("libgobject-2.0-0", "gobject-2.0", "libgobject-2.0.so.0", "libgobject-2.0.0.dylib"),
    "libpango-1.0": ("libpango-1.0-0", "pango-1.0", "libpango-1.0.so.0", "libpango-1.0.dylib"),
    "libharfbuzz": ("libharfbuzz-0", "harfbuzz", "libharfbuzz.so.0", "libharfbuzz.0.dylib"),
    "libfontconfig": ("libfontconfig-1", "fontconfig", "libfontconfig.so.1", "libfontconfig.1.dylib"),
    "libpangoft2-1.0": ("libpangoft2-1.0-0", "pangoft2-1.0", "libpangoft2-1.0.so.0", "libpangoft2-1.0.dylib"),
}
"""The libraries the PDF engine can't start without, each with the names it goes by on one system or another."""

SUBSET_LIBRARY = "libharfbuzz-subset"
"""Makes the font subsets in the PDF; without it the engine falls back on fontTools, as good, slower, in other bytes."""

ALL_LIBRARIES = {
    **NATIVE_LIBRARIES,
    SUBSET_LIBRARY: (
        "libharfbuzz-subset-0",
        "harfbuzz-subset",
        "libharfbuzz-subset.so.0",
        "libharfbuzz-subset.0.dylib",
    ),
}
"""The same and the one that is merely wished for."""

_WINDOWS_FOLDERS = (
    r"C:\msys64\ucrt64\bin",
    r"C:\msys64\mingw64\bin",
    r"C:\Program Files\GTK3-Runtime Win64\bin",
)

CHROMIUM_NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable", "chrome")
"""The commands a Chromium answers to; the tests look at the site with it."""


@dataclass(frozen=True)
class Remedy:
    """What brings the missing things on one family of systems: a command each, or for Windows what to do; "" for what it has not."""

    libraries: str
    chromium: str
    poppler: str
    strace: str = ""


REMEDIES = {
    "debian": Remedy(
        "apt-get install --no-install-recommends libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0",
        "apt-get install --no-install-recommends chromium",
        "apt-get install --no-install-recommends poppler-utils",
        "apt-get install --no-install-recommends strace",
    ),
    "fedora": Remedy(
        "dnf install pango", "dnf install chromium", "dnf install poppler-utils", "dnf install strace"
    ),
    "arch": Remedy("pacman -S pango", "pacman -S chromium", "pacman -S poppler", "pacman -S strace"),
    "alpine": Remedy(
        "apk add pango harfbuzz-subset", "apk add chromium", "apk add poppler-utils", "apk add strace"
    ),
    "macos": Remedy("brew install pango", "brew install --cask chromium", "brew install poppler"),
    "windows": Remedy(
        "install MSYS2, then in its UCRT64 shell: pacman -S mingw-w64-ucrt-x86_64-pango",
        "install a Chromium browser and put its folder on PATH as chromium or chrome",
        "in the MSYS2 UCRT64 shell: pacman -S mingw-w64-ucrt-x86_64-poppler, and put its folder on PATH",
    ),
    "other": Remedy(
        "install Pango (1.44 or newer), its FreeType part and HarfBuzz through the system's package manager",
        "install Chromium through the system's package manager",
        "install Poppler's command-line tools through the system's package manager",
        "install strace through the system's package manager",
    ),
}
"""The families of systems the program knows, and for any other what to look for."""


@dataclass(frozen=True)
class Item:
    """One thing looked for: its name, what was found (empty when nothing was), what for, and what brings it.

    ``locked`` is the version the program was made with, where that is another than the one found: bytes may differ.
    """

    name: str
    found: str
    needed_for: str
    remedy: str
    required: bool = True
    locked: str = ""


@dataclass(frozen=True)
class Readiness:
    """Everything looked for, by group, in the order it is reported."""

    groups: tuple[tuple[str, tuple[Item, ...]], ...]

    def missing(self) -> list[Item]:
        """What wasn't found, needed or merely wanted, in order."""
        return [item for _, items in self.groups for item in items if not item.found]

    def unlike(self) -> list[Item]:
        """What was found in another version than the locked one, in order."""
        return [item for _, items in self.groups for item in items if item.found and item.locked]


def system_family(os_release: str | None = None, name: str = sys.platform) -> str:
    """The key of `REMEDIES` for this machine; ``os_release`` is the text of ``/etc/os-release`` where there is one."""
    if name == "darwin":
        return "macos"
    if name in {"win32", "cygwin"}:
        return "windows"
    if os_release is None:
        file = Path("/etc/os-release")
        os_release = file.read_text(encoding="utf-8", errors="replace") if file.is_file() else ""
    words = re.findall(r'^(?:ID|ID_LIKE)=["\']?([^"\'\n]*)', os_release, re.MULTILINE)
    for word in " ".join(words).split():
        known = {"ubuntu": "debian", "rhel": "fedora", "centos": "fedora"}.get(word, word)
        if known in REMEDIES:
            return known
    return "other"


def native_library_loads(names: tuple[str, ...]) -> bool:
    """Whether one of these names of a native library can be loaded here."""
    _open_windows_folders()
    with nothing_run():
        return any(_opens(name) or _opens(ctypes.util.find_library(name)) for name in names)


def _opens(name: str | None) -> bool:
    if name:
        with contextlib.suppress(OSError):
            ctypes.CDLL(name)
            return True
    return False


def _open_windows_folders() -> None:
    if not hasattr(os, "add_dll_directory"):
        return
    for folder in _WINDOWS_FOLDERS:
        with contextlib.suppress(OSError):
            os.add_dll_directory(folder)


def missing_libraries(
    wanted: Mapping[str, tuple[str, ...]] = NATIVE_LIBRARIES, loads: Loads = native_library_loads
) -> list[str]:
    """The native libraries of ``wanted`` that this machine hasn't got."""
    return [library for library, names in wanted.items() if not loads(names)]


def engine_missing(loads: Loads = native_library_loads, family: str | None = None) -> str | None:
    """The message for the user when the PDF engine can't run here, or None when it can."""
    if _version("weasyprint") == "":
        return "The book and the cards need the PDF engine weasyprint. Bring it with: pip install musterbook"
    missing = missing_libraries(NATIVE_LIBRARIES, loads)
    if missing and sys.platform == "win32" and _engine_starts():
        # The engine also searches folders named in its own environment variable, which is not ours to read.
        return None
    if not missing:
        return None
    family = family or system_family()
    them = "it" if len(missing) == 1 else "them"
    lines = [
        f"The book and the cards can't be made here: the PDF engine needs {', '.join(missing)}.",
        f"Bring {them} with: {REMEDIES[family].libraries}",
        f"Without {them} the site can be published (publish --only site) and printed from any browser.",
    ]
    if family == "macos":
        lines.insert(
            2, "If they are installed and not found: export DYLD_FALLBACK_LIBRARY_PATH=$(brew --prefix)/lib"
        )
    return "\n".join(lines)


def _engine_starts() -> bool:
    with contextlib.redirect_stdout(io.StringIO()):
        try:
            importlib.import_module("weasyprint")
        except (ImportError, OSError):
            return False
    return True


def _version(distribution: str) -> str:
    try:
        return importlib.metadata.version(distribution)
    except importlib.metadata.PackageNotFoundError:
        return ""


def _dependency_item(name: str, pinned: str) -> Item:
    found = _version(name)
    other = "" if not (found and pinned) or same_version(found, pinned) else pinned
    return Item(name, found, "everything", f"pip install {name}=={pinned}", locked=other)


def _program_items() -> tuple[Item, ...]:
    wanted = ".".join(str(part) for part in OLDEST_PYTHON)
    python = platform.python_version() if sys.version_info >= OLDEST_PYTHON else ""
    rows = [
        Item("Python", python, "everything", f"install Python {wanted} or newer"),
        Item(
            DISTRIBUTION,
            _version(DISTRIBUTION) and __version__,
            "everything",
            "pip install -e . in the checkout",
        ),
    ]
    rows += [_dependency_item(name, pinned) for name, pinned in pinned_versions(DISTRIBUTION).items()]
    return tuple(rows)


def _library_items(loads: Loads, remedy: Remedy) -> tuple[Item, ...]:
    rows = []
    for library, names in ALL_LIBRARIES.items():
        required = library in NATIVE_LIBRARIES
        purpose = "book and cards" if required else "font subsets, faster, in other bytes"
        found = (told_version(library, names) or "found") if loads(names) else ""
        rows.append(Item(library, found, purpose, remedy.libraries, required))
    rows.append(Item("zlib", zlib.ZLIB_RUNTIME_VERSION, "book and cards", "it comes with Python"))
    return tuple(rows)


def _font_items() -> tuple[Item, ...]:
    rows = []
    for face in fonts.FACES:
        try:
            found = face.path.name if face.path.is_file() else ""
        except ModuleNotFoundError:
            found = ""
        name = f"{fonts.FAMILY} {face.weight} {face.style}"
        rows.append(Item(name, found, "every output", "pip install fontpkg-atkinson-hyperlegible"))
    return tuple(rows)


def _tool_items(which: Which, remedy: Remedy) -> tuple[Item, ...]:
    chromium = next((found for name in CHROMIUM_NAMES if (found := which(name))), "")
    rasteriser = which("pdftoppm") or ""
    calls = "the tests of what a publish asks of the system"
    traced = (Item("strace", which("strace") or "", calls, remedy.strace, required=False),)
    return (
        Item("chromium", chromium, "the tests of the site", remedy.chromium, required=False),
        Item("pdftoppm", rasteriser, "the tests of the pages", remedy.poppler, required=False),
        *(traced if remedy.strace else ()),
    )


def take_stock(
    loads: Loads = native_library_loads,
    which: Which = shutil.which,
    family: str | None = None,
) -> Readiness:
    """Look for everything the program and its tests use; the arguments stand for another machine in tests."""
    remedy = REMEDIES[family or system_family()]
    return Readiness(
        (
            ("Program", _program_items()),
            ("Native libraries", _library_items(loads, remedy)),
            ("Fonts", _font_items()),
            ("Tools of the tests", _tool_items(which, remedy)),
        )
    )


def report(readiness: Readiness) -> str:
    """The stock as text, one line each; what is missing says what it is for and what brings it."""
    width = max(len(item.name) for _, items in readiness.groups for item in items)
    lines = []
    for title, items in readiness.groups:
        lines.append(title)
        for item in items:
            other = f", not {item.locked}: pages may not be the same to the byte" if item.locked else ""
            found = f"{item.found}{other}" if item.found else f"missing: needed for {item.needed_for}"
            lines.append(f"  {item.name:<{width}}  {found}")
            if not item.found or item.locked:
                lines.append(f"  {'':<{width}}  bring it with: {item.remedy}")
    wanting = [item for item in readiness.missing() if item.required]
    unlike = len(readiness.unlike())
    ready = f"Ready, but {unlike} not in the version that is locked." if unlike else "Ready, as locked."
    lines.append(ready if not wanting else f"Not ready: {len(wanting)} missing.")
    return "\n".join(lines)
