"""The specimens published, once in a run: whichever process of the run asks first makes them, the others wait and read."""

import io
import json
import os
import stat
import subprocess
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pypdf
from filelock import FileLock

ROOT = Path(__file__).resolve().parent.parent
VESSELS = ROOT / "vessels"
BOATS = sorted(path.parent.name for path in VESSELS.glob("*/vessel.yaml"))


class Once:
    """What is made once in a run, by name. Each asker gets a copy of its own, so nobody changes what another reads."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        folder.mkdir(exist_ok=True)

    def __call__(self, name: str, make: Callable[[], Any]) -> Any:
        """What `make` returned when it was first asked for in this run, through JSON; if it raises, the next asker tries."""
        kept = self.folder / f"{name}.json"
        with FileLock(self.folder / f"{name}.lock"):
            if not kept.exists():
                beside = kept.with_suffix(".part")
                beside.write_text(json.dumps(make()), encoding="utf-8")
                beside.rename(kept)
        return json.loads(kept.read_text(encoding="utf-8"))


@dataclass(frozen=True)
class Specimen:
    """A specimen as `musterbook publish` left it: to be read, never written to."""

    boat: str
    folder: Path
    code: int
    out: str
    err: str
    took_s: float
    once: Once

    def files(self) -> dict[str, bytes]:
        """Every file by its path in her folder."""
        return files_in(self.folder)

    def pdf(self, name: str) -> pypdf.PdfReader:
        """One of her PDFs, opened anew."""
        return pypdf.PdfReader(io.BytesIO((self.folder / name).read_bytes()))

    def texts(self, name: str) -> list[str]:
        """The text of each page of one of her PDFs."""
        return self.once(
            f"{self.boat}-{Path(name).stem}", lambda: [page.extract_text() for page in self.pdf(name).pages]
        )


def files_in(folder: Path) -> dict[str, bytes]:
    """Every file below a folder by its path in it."""
    return {
        path.relative_to(folder).as_posix(): path.read_bytes() for path in folder.rglob("*") if path.is_file()
    }


def publish(boat: str, once: Once) -> Specimen:
    """A specimen by the real command with the real outputs, in a process of its own: it knows nothing of the tests' state."""
    into = once.folder / "site"

    def made() -> dict[str, Any]:
        start = time.monotonic()
        done = subprocess.run(
            [sys.executable, "-m", "generator", "publish", f"vessels/{boat}", "--into", str(into)],
            cwd=ROOT,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
            capture_output=True,
            text=True,
            check=False,
        )
        for path in [each for each in (into / boat).rglob("*") if each.is_file()]:
            path.chmod(stat.S_IREAD)
        took_s = time.monotonic() - start
        return {"code": done.returncode, "out": done.stdout, "err": done.stderr, "took_s": took_s}

    return Specimen(boat, into / boat, **once(f"{boat}-published", made), once=once)
