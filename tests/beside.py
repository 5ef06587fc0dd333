"""What lies beside the specimens' folders, for tests that lay one of them out elsewhere: class files, the base file and its mark."""

import shutil
from pathlib import Path

VESSELS = Path(__file__).resolve().parent.parent / "vessels"
BASE, MARK = "base.yaml", "mark.png"


def lay_beside(into):
    """Copies it into a folder of boats."""
    into.mkdir(parents=True, exist_ok=True)
    shutil.copytree(VESSELS / "classes", into / "classes", dirs_exist_ok=True)
    for name in (BASE, MARK):
        shutil.copy(VESSELS / name, into / name)
