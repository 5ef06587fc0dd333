"""What native libraries would take from the machine they run on is held steady, so that the same boat gives the same bytes.

The engine's libraries read variables of their own (which shaper to use, which language to prefer), the fonts of the machine
and the settings of its user; looking for the libraries themselves, Python would run the system's compiler and linker.
"""

import gc
import sys
from collections.abc import Iterator, MutableMapping
from contextlib import contextmanager
from pathlib import Path

READ_BY_LIBRARIES = ("FC_", "FONTCONFIG_", "HB_", "PANGO")
"""How the names of the variables begin that Fontconfig, HarfBuzz and Pango read."""

FONTS_OF_OURS = Path(__file__).with_name("fonts.conf")
"""The settings of Fontconfig in which there is no font: the engine is handed those of the one family, file by file."""

SEARCH_RUNS_NOTHING = ("darwin", "win32", "cygwin")
"""The systems on which Python looks for a library by itself; on others it starts ldconfig, gcc and ld for it."""


@contextmanager
def steady(environment: MutableMapping[str, str]) -> Iterator[None]:
    """Meanwhile no variable of ``environment`` tells the engine's libraries anything but that there are no other fonts."""
    told = {name: environment.pop(name) for name in [*environment] if name.startswith(READ_BY_LIBRARIES)}
    environment["FONTCONFIG_FILE"] = str(FONTS_OF_OURS)
    try:
        yield
    finally:
        del environment["FONTCONFIG_FILE"]
        environment.update(told)


@contextmanager
def lasting() -> Iterator[None]:
    """What is made meanwhile, the first time, is taken to last as long as the program: no garbage is looked for in it, now or later."""
    if gc.get_freeze_count() or not gc.isenabled():
        yield
        return
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()


@contextmanager
def nothing_run() -> Iterator[None]:
    """Meanwhile libraries are loaded by their names alone. On Linux the loader knows each by one of the names that are tried."""
    if sys.platform in SEARCH_RUNS_NOTHING:
        yield
        return
    import ctypes.util

    search = ctypes.util.find_library
    setattr(ctypes.util, "find_library", lambda _name: None)  # noqa: B010 - an assignment would be a type error
    try:
        yield
    finally:
        setattr(ctypes.util, "find_library", search)  # noqa: B010 - same
