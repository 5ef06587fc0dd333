"""Photos: upright, small, bare of metadata, the same bytes each time; shown in site, one file and book."""

import io
import re
import shutil
from datetime import date

import pytest
from checks.survey_patch import VESSELS, changed, survey_boat
from PIL import Image, ImageFile

from generator.machine.photos import PAGE_PX, SMALL_PX, Unreadable
from generator.machine.photos import prepared as prepared_in
from generator.outputs import Job, book, one_file, site
from generator.outputs.setting.pages import embedded
from generator.reading.findings import Weight
from generator.vessel.photographed import photographed

ORIENTATION, GPS, MAKE = 0x0112, 0x8825, 0x010F
RED, BLUE = (200, 20, 20), (20, 20, 200)


def camera_photo(path, size=(2400, 1200), turned=6, kind="JPEG"):
    """A picture as a telephone writes it: lying on its side, red where the top belongs, with place, maker and comment."""
    image = Image.new("RGB", size, BLUE)
    image.paste(RED, (0, 0, size[0] // 2, size[1]))
    exif = Image.Exif()
    exif[ORIENTATION], exif[MAKE] = turned, "a camera"
    exif.get_ifd(GPS).update({1: "N", 2: (54.0, 11.0, 7.0), 3: "E", 4: (12.0, 5.0, 9.0)})
    image.save(path, kind, exif=exif, **({"comment": b"the skipper's name"} if kind == "JPEG" else {}))
    return path


def prepared(path, longest_px=PAGE_PX):
    return prepared_in(path, (path.parent.resolve(),), longest_px)


def opened(data):
    return Image.open(io.BytesIO(data))


def test_it_is_turned_upright_and_scaled_down(tmp_path):
    made = opened(prepared(camera_photo(tmp_path / "a.jpg")))
    assert made.format == "JPEG"
    assert made.size == (PAGE_PX // 2, PAGE_PX)
    top, bottom = made.getpixel((400, 100)), made.getpixel((400, 1500))
    assert top[0] > 150 > top[2]
    assert bottom[2] > 150 > bottom[0]


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_nothing_the_camera_wrote_is_left(tmp_path, kind):
    source = camera_photo(tmp_path / "a.any", size=(300, 200), kind=kind)
    with Image.open(source) as before:
        assert before.getexif().get_ifd(GPS)
    data = prepared(source)
    made = opened(data)
    assert len(made.getexif()) == 0
    assert set(made.info) <= {"jfif", "jfif_version", "jfif_unit", "jfif_density"}
    assert b"Exif" not in data
    assert b"camera" not in data
    assert b"skipper" not in data


def test_the_same_file_gives_the_same_bytes_and_a_changed_one_others(tmp_path):
    first, second = camera_photo(tmp_path / "a.jpg"), camera_photo(tmp_path / "b.jpg")
    assert prepared(first) == prepared(second)
    small = prepared(first, SMALL_PX)
    camera_photo(first, turned=1, size=(2400, 1300))
    assert prepared(first, SMALL_PX) != small


@pytest.mark.parametrize("mode", ["L", "P", "RGBA", "LA", "1", "CMYK", "I;16"])
def test_every_kind_of_picture_becomes_one_on_white(tmp_path, mode):
    kind = "TIFF" if mode in ("CMYK", "I;16") else "PNG"
    Image.new(mode, (40, 30)).save(tmp_path / "a", kind)
    made = opened(prepared(tmp_path / "a"))
    assert (made.mode, made.size) == ("RGB", (40, 30))
    if mode in ("RGBA", "LA"):
        assert min(made.getpixel((5, 5))) > 250


@pytest.mark.parametrize("lenient", [False, True], ids=["alone", "beside the PDF engine"])
def test_what_is_no_picture_says_so(tmp_path, monkeypatch, lenient):
    """The PDF engine lets half a picture pass for the whole process; here it is told."""
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", lenient)
    (tmp_path / "a.jpg").write_bytes(b"\xff\xd8 no picture")
    with pytest.raises(Unreadable, match="no picture"):
        prepared(tmp_path / "a.jpg")
    whole = camera_photo(tmp_path / "b.jpg").read_bytes()
    (tmp_path / "b.jpg").write_bytes(whole[: len(whole) // 2])
    with pytest.raises(Unreadable):
        prepared(tmp_path / "b.jpg")
    with pytest.raises(Unreadable, match="not there"):
        prepared(tmp_path / "c.jpg")


@pytest.fixture(scope="module")
def boat(tmp_path_factory):
    """Saltmeadow with a photo of her raft and one of her bolt cutters."""
    folder = tmp_path_factory.mktemp("photographed") / "saltmeadow"
    shutil.copytree(VESSELS / "saltmeadow", folder)
    text = (folder / "vessel.yaml").read_text(encoding="utf-8")
    text = changed(
        text, "", "    where: coachroof\n", "    where: coachroof\n    photo: photos/The Raft.jpg\n"
    )
    text = changed(
        text, "", "{what: bolt cutters, kind: rig,", "{what: bolt cutters, photo: cutters.png, kind: rig,"
    )
    (folder / "vessel.yaml").write_text(text, encoding="utf-8")
    (folder / "photos").mkdir()
    camera_photo(folder / "photos/The Raft.jpg")
    camera_photo(folder / "cutters.png", size=(900, 700), kind="PNG")
    surveyed = survey_boat(folder)
    assert surveyed.findings == []
    return surveyed


def test_the_site_has_them_as_files(boat):
    files = site.write(Job(boat.manual, "guest")).files
    names = sorted(name for name in files if name.startswith("photos/"))
    assert [re.sub(r"-[0-9a-f]{8}\.jpg$", "", name) for name in names] == [
        "photos/cutters",
        "photos/the-raft",
    ]
    page = files["gear.html"].decode()
    for name in names:
        assert page.count(f'src="{name}"') == 1
        assert max(opened(files[name]).size) <= PAGE_PX
    assert 'alt="Photo: bolt cutters, ' in page


def test_the_one_file_holds_small_ones(boat):
    text = one_file.write(Job(boat.manual, "guest")).files[one_file.FILE].decode()
    assert text.count("data:image/jpeg;base64,") == 2
    assert len(text) < 3_000_000


def test_many_photos_get_smaller_in_the_one_file_and_at_last_go(boat, monkeypatch):
    whole = [len(embedded(boat.vessel, each, SMALL_PX)) for each in photographed(boat.vessel)]
    monkeypatch.setattr(one_file, "MOST_PHOTO_BYTES", sum(whole) - 1)
    text = one_file.write(Job(boat.manual, "guest")).files[one_file.FILE].decode()
    shown = re.findall(r"data:image/jpeg;base64,[^\"]+", text)
    assert len(shown) == 2
    assert sum(map(len, shown)) < sum(whole)
    monkeypatch.setattr(one_file, "MOST_PHOTO_BYTES", 1000)
    assert "data:image/jpeg" not in one_file.write(Job(boat.manual, "guest")).files[one_file.FILE].decode()


def test_the_book_shows_them(boat):
    assert book.html(Job(boat.manual, "crew")).count('<img class="photo" src="data:image/jpeg;base64,') == 2


def test_a_photo_that_is_not_there_is_a_defect_and_leaves_no_hole(boat, tmp_path):
    folder = tmp_path / "saltmeadow"
    shutil.copytree(boat.vessel.folder, folder)
    (folder / "cutters.png").write_bytes(b"nothing")
    surveyed = survey_boat(folder, as_of=date(2026, 6, 1))
    assert [(each.check, each.weight, each.item) for each in surveyed.findings] == [
        ("gear.photo-missing", Weight.DEFECT, "bolt cutters")
    ]
    page = site.write(Job(surveyed.manual, "guest")).files["gear.html"].decode()
    assert page.count("<img") == 1
