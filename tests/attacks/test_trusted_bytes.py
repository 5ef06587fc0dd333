"""The same boat gives the same bytes on machines that are set differently, manifests and modes included."""

import os
import re
import shutil
import sys
import tempfile
from dataclasses import replace
from pathlib import Path

import pytest
from machines import Machine, anybody_may_run, differences, lay_out, other_python, publish
from PIL import Image

pytestmark = [
    pytest.mark.thorough,
    pytest.mark.attack("trusted"),
    pytest.mark.skipif(sys.platform != "linux", reason="what is set here is set so on Linux"),
]
ELSEWHERE = other_python()

FAR_OFF = Machine(
    "Fähre im Süden/mit Lücken",
    environment={
        "HOME": "/nonexistent", "USER": "nobody", "PATH": "/nonexistent", "LC_ALL": "C", "PYTHONUTF8": "0",
        "PYTHONCOERCECLOCALE": "0", "TZ": "Pacific/Kiritimati", "PYTHONHASHSEED": "1", "PYTHONOPTIMIZE": "1",
        "FONTCONFIG_FILE": "{fonts}", "FC_LANG": "tr", "HB_SHAPER_LIST": "fallback", "PANGO_LANGUAGE": "tr:ja",
        "SOURCE_DATE_EPOCH": "4070908800", "COLUMNS": "20", "XDG_CONFIG_HOME": "{home}/config",
    },
    umask=0o077, niceness=5, cores=1, nobody=sys.platform == "linux" and anybody_may_run(ELSEWHERE), python=ELSEWHERE, upside_down=True, last_touched=0.0,
)  # fmt: skip
NEAR_BY = Machine(
    "here",
    environment={
        "HOME": "{home}", "PATH": os.defpath, "LC_ALL": "tr_TR.UTF-8", "LANG": "de_DE.UTF-8", "LANGUAGE": "tr:de",
        "TZ": "America/St_Johns", "PYTHONHASHSEED": "4294967295", "FONTCONFIG_PATH": "{home}", "HB_OPTIONS": "foo",
        "PYTHONDEVMODE": "0", "NO_COLOR": "1", "TERM": "dumb", "TMPDIR": "{home}", "PYTHONTZPATH": "{home}",
    },
    options=("-X", "utf8", "-B"), umask=0, upside_down=True, last_touched=4e9,
)  # fmt: skip
PLAIN = Machine("plain", environment={"PATH": os.environ.get("PATH", ""), "LC_ALL": "C.UTF-8"})


@pytest.fixture
def place():
    """A folder that other users may look into, unlike those of the tests."""
    folder = Path(tempfile.mkdtemp(prefix="machines-"))
    folder.chmod(0o755)
    yield folder
    shutil.rmtree(folder)


@pytest.mark.parametrize(
    ("machine", "boat"), [(FAR_OFF, "kelpwren"), (NEAR_BY, "zilte-wind")], ids=["far", "near"]
)
def test_a_boat_is_the_same_to_the_byte_on_a_machine_set_otherwise(machine, boat, specimen, place, tried):
    tried(machine.settings)
    elsewhere = publish(machine, lay_out(machine, place, boat), boat)
    here = specimen(boat).files()
    assert {
        "guest/cards.pdf",
        "crew/book.pdf",
        "guest/index.html",
        "guest/manual.html",
        "crew/calendar.ics",
    } <= set(here)
    assert differences(here, elsewhere) == []


def with_a_photo(vessel):
    """A photo beside her file, larger than any page shows and lying on its side, of the first thing of hers."""
    picture = Image.radial_gradient("L").resize((1800, 1200)).convert("RGB")
    turned = Image.Exif()
    turned[0x0112] = 6
    picture.save(vessel / "first.jpg", quality=90, exif=turned)
    file = vessel / "vessel.yaml"
    text = file.read_text(encoding="utf-8")
    named = re.sub(r"(\ngear:\n(?: +#.*\n)* +- \{)", r"\1photo: first.jpg, ", text, count=1)
    assert named != text
    file.write_text(named, encoding="utf-8")


def test_so_are_her_photos(place, tried):
    tried(FAR_OFF.settings)
    only = ("--only", "site", "--only", "one-file")
    written = []
    for machine in (PLAIN, FAR_OFF):
        home = lay_out(machine, place, "saltmeadow", with_a_photo)
        written.append(publish(replace(machine, program_options=only), home, "saltmeadow"))
    assert [name for name in written[0] if name.endswith(".jpg")]
    assert differences(*written) == []


def test_a_difference_is_seen():
    one = {"a": b"1", "manifest.json": b'{"program": 1, "files": 2}'}
    other = {"b": b"1", "manifest.json": b'{"program": 1, "files": 3}'}
    assert differences(one, other) == ["a", "b", "manifest.json: ['files']"]
    assert differences(one, dict(one)) == []
