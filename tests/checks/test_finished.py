"""The inspection finds what is wrong with files already written, at its line."""

from datetime import date

import pytest
from checks.survey_patch import VESSELS, survey_boat

from generator.outputs import Made, Record
from generator.survey.registry import INSPECTION, Sight, all_checks, run

DAY = date(2026, 6, 1)
POLICY = (
    "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'self' 'sha256-AA='; "
    "font-src data:; img-src 'self'; base-uri 'none'; form-action 'none'\">"
)
GOOD = f"""<!DOCTYPE html>
<html lang="en"><head>{POLICY}<title>Raft</title>
<link rel="stylesheet" href="style.css"><style>@font-face{{src:url("data:font/woff2;base64,AA")}}</style>
</head><body id="top">
<a href="#top">up</a> <a href="pages/raft.html#launch">raft</a> <a href="https://example.org/">outside</a> <a href="tel:112">112</a>
<img src="plan.svg" alt="plan">
</body></html>
"""
RAFT = f'<!DOCTYPE html>\n<html lang="en"><head>{POLICY}</head><body><h1 id="launch">Launch</h1><a href="../index.html#top">home</a></body></html>\n'


@pytest.fixture(scope="module")
def surveyed():
    return survey_boat(VESSELS / "saltmeadow")


def inspect(surveyed, records=(), reader="guest", **pages):
    files = {
        "index.html": GOOD,
        "pages/raft.html": RAFT,
        "style.css": "body{background:url(plan.svg)}",
        "plan.svg": "<svg/>",
    }
    files |= {name.replace("__", "."): text for name, text in pages.items()}
    made = Made(
        {name: text.encode() for name, text in files.items() if text is not None}, list(records), reader
    )
    sight = Sight(surveyed.vessel, DAY, DAY, manual=surveyed.manual, written={"site": made})
    return [(each.check, str(each.place)) for each in run(INSPECTION, sight)]


def test_a_sound_folder_has_no_findings(surveyed):
    assert inspect(surveyed) == []


CASES = [
    ("site.broken-link", '<a href="#top">', '<a href="lost.html">', 5),
    ("site.broken-link", '<a href="#top">', '<a href="/index.html">', 5),
    ("site.broken-link", '<a href="#top">', '<a href="file:///index.html">', 5),
    ("site.broken-anchor", "raft.html#launch", "raft.html#lunch", 5),
    ("site.broken-anchor", 'alt="plan"', 'aria-labelledby="nobody"', 6),
    ("site.missing-image", "plan.svg", "plane.svg", 6),
    ("site.outside-link", 'src="plan.svg"', 'src="https://example.org/plan.svg"', 6),
    ("site.outside-link", 'src="plan.svg"', 'src="//example.org/plan.svg"', 6),
    ("site.outside-link", "data:font/woff2;base64,AA", "http://example.org/font.woff2", 3),
    ("site.outside-link", 'src="plan.svg"', 'src="plan.svg" srcset="plan.svg 1x, http://example.org/a.png 2x"', 6),
    ("site.outside-link", 'src="plan.svg"', 'src="plan.svg" style="background: URL( //example.org/a.png)"', 6),
    ("site.outside-link", '<img src="plan.svg" alt="plan">', '<svg><path fill="url(http://example.org/a.svg#a)"/></svg>', 6),
    ("site.outside-link", '<img src="plan.svg" alt="plan">', '<svg><feImage xlink:href="http://example.org/a.svg"/></svg>', 6),
    ("site.outside-link", "@font-face{src", "@import 'http://example.org/a.css';@font-face{src", 3),
    ("site.broken-link", '<a href="#top">', '<a href="java&#10;script:alert(1)">', 5),
    ("site.broken-link", '<a href="#top">', '<a href="data:text/html,x">', 5),
    ("site.broken-link", '<a href="#top">', '<a href="//example.org/">', 5),
    ("site.live-part", '<img src="plan.svg" alt="plan">', "<script>x</script>", 6),
    ("site.live-part", '<img src="plan.svg" alt="plan">', "<iframe></iframe>", 6),
    ("site.live-part", '<img src="plan.svg" alt="plan">', "<form></form>", 6),
    ("site.live-part", '<img src="plan.svg"', '<img src="plan.svg" OnError="x"', 6),
    ("site.live-part", '<a href="#top">', '<a href="#top" ping="#top">', 5),
    ("site.live-part", '<img src="plan.svg" alt="plan">', '<meta http-equiv="Refresh" content="0; url=a">', 6),
    ("site.live-part", '<img src="plan.svg" alt="plan">', '<svg><set attributeName="href"/></svg>', 6),
    ("site.no-policy", POLICY, "", 1),
    ("site.no-policy", "<head>", "<head><title>a</title>", 1),
    ("site.no-policy", "default-src 'none'", "default-src 'self'", 1),
    ("site.no-policy", "; base-uri 'none'", "", 1),
    ("site.no-policy", "style-src 'self'", "style-src 'unsafe-inline'", 1),
    ("site.no-policy", "font-src data:", "font-src https:", 1),
    ("site.no-policy", "img-src 'self'", "img-src 'self'; script-src 'self'", 1),
    ("site.no-policy", "img-src 'self'", "img-src *; img-src 'self'", 1),
    ("site.undefined-mark", "up</a>", "{{ up }}</a>", 5),
    ("site.undefined-mark", "up</a>", "{launch-from}</a>", 5),
    ("site.undefined-mark", 'alt="plan"', 'alt="Undefined"', 6),
    ("site.undefined-mark", "up</a>", "None</a>", 5),
    ("site.duplicate-id", '<img src="plan.svg"', '<img id="top" src="plan.svg"', 6),
    ("reader.private-leak", "up</a>", "+44 7700\n900142</a>", 1),
]  # fmt: skip


@pytest.mark.parametrize(("check", "old", "new", "line"), CASES)
def test_each_fault_is_found_at_its_line(surveyed, check, old, new, line):
    assert GOOD.count(old) == 1
    assert inspect(surveyed, index__html=GOOD.replace(old, new)) == [(check, f"guest/index.html:{line}:1")]


def test_a_style_sheet_is_looked_at_too(surveyed):
    asked = {"style__css": "body{}\ndiv{background:url('lost.png')}"}
    assert inspect(surveyed, **asked) == [("site.missing-image", "guest/style.css:2:1")]


def test_a_drawing_that_is_a_file_is_looked_at_too(surveyed):
    asked = {"plan__svg": '<svg onload="x">\n<image href="http://example.org/a.png"/></svg>'}
    found = [("site.live-part", "guest/plan.svg:1:1"), ("site.outside-link", "guest/plan.svg:2:1")]
    assert inspect(surveyed, **asked) == found


def test_a_page_taken_away_leaves_broken_links(surveyed):
    files = {"pages/raft.html": None}
    assert inspect(surveyed, **files) == [("site.broken-link", "guest/index.html:5:1")]


def test_the_crew_may_read_what_guests_may_not(surveyed):
    told = {"index__html": GOOD.replace("up</a>", "+44 7700 900142</a>")}
    assert inspect(surveyed, reader="crew", **told) == []


def test_the_message_of_a_leak_does_not_leak(surveyed):
    made = Made({"a.html": f"<head>{POLICY}</head><p>+44 7700 900142</p>".encode()}, [], "guest")
    found = run(INSPECTION, Sight(surveyed.vessel, DAY, DAY, manual=surveyed.manual, written={"site": made}))
    assert [each.check for each in found] == ["reader.private-leak"]
    assert "900142" not in found[0].message + found[0].item + found[0].remedy
    assert "contacts[the owner's brother].phone" in found[0].message


@pytest.mark.parametrize(
    ("kind", "check"),
    [("engine-warning", "paper.engine-warning"), ("foreign-font", "paper.foreign-font"), ("missing-glyph", "paper.missing-glyph"),
     ("clipped-text", "paper.clipped-text"), ("too-small", "cards.too-small"), ("something-new", "paper.other-fault")],
)  # fmt: skip
def test_every_record_of_an_output_is_a_finding(surveyed, kind, check):
    record = Record(kind, "cards.pdf", "page 3: step 4")
    assert inspect(surveyed, [record]) == [(check, "guest/cards.pdf:1:1")]


def test_every_check_of_the_inspection_has_a_case():
    covered = {check for check, *_ in CASES} | {
        "paper.engine-warning",
        "paper.foreign-font",
        "paper.missing-glyph",
    }
    covered |= {"paper.clipped-text", "cards.too-small", "paper.other-fault", "site.font-licence"}
    wanted = {name for name, one in all_checks().items() if one.stage == INSPECTION and one.find is not None}
    assert covered == wanted


def test_several_outputs_of_a_reader_are_one_folder(surveyed):
    site = Made({"index.html": f'<head>{POLICY}</head><a href="cards.pdf">cards</a>'.encode()}, [], "guest")
    cards = Made({"cards.pdf": b"%PDF"}, [], "guest")
    sight = Sight(surveyed.vessel, DAY, DAY, manual=surveyed.manual, written={"site": site, "cards": cards})
    assert run(INSPECTION, sight) == []
    written = {"site": site, "cards": Made(cards.files, [], "crew")}
    sight = Sight(surveyed.vessel, DAY, DAY, manual=surveyed.manual, written=written)
    assert [each.check for each in run(INSPECTION, sight)] == ["site.broken-link"]


def test_a_font_without_its_licence_is_found(surveyed):
    found = inspect(surveyed, **{"fonts/Our.ttf": "font"})
    assert [check for check, _ in found] == ["site.font-licence"]
    assert inspect(surveyed, **{"fonts/Our.ttf": "font", "fonts/Our-LICENSE.txt": "text"}) == []
