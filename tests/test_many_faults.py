"""A file with forty faults: the survey stays readable, and says what to do first."""

import re
import shutil

import pytest
from checks.survey_patch import VESSELS, survey_boat

from generator.reading.findings import Weight
from generator.survey import reports

# (old, new) of saltmeadow's file: each spoils one line, in every part of the file.
FAULTS = (
    ("  beam: 3.8 m", "  beam: 3,8 m"), ("  draft: 2.0 m", "  draught: 2.0 m"), ("  flag: United Kingdom", "  flag: Untied Kingdom"),
    ("  persons: 6\n  waters", "  persons: 7\n  waters"), ("  climate: temperate", "  climate: mild"), ("muster-place: cockpit", "muster-place: cockpitt"),
    ("fitted: 2025-09-10, expires: {value: 2027-09", "fitted: 2023-09-10, expires: {value: 2025-09"), ("fast-to: weak link", "fast-to: cradle"),
    ("{strength: 2.2 kN", "{strength: 4 kN"), ("strong-point: {what: the U-bolt", "strong-point: {what: the pushpit rail"),
    ("lashed-over: no", "lashed-over: yes"), ("overhead: nothing", "overhead: the boom"), ("righting: strap", "righting: none"),
    ("snug: yes", "snug: no"), ("lead: clear", "lead: through the strap"), ("next: 2028-09-04", "next: 2025-09-05"),
    ("{role: guest 2, berth: forward cabin}", "{role: guest 2, berth: forward cabn, needs-help: cannot see}"), ("mmsi: 232000000\n", "mmsi: 982000000\n"),
    ("hex-id: 1D04000000FFBFF", "hex-id: 1D04000000FFBF"), ("battery-expires: 2029-05", "battery-expires: 2024-05"),
    ("    launch: {who: [deckhand, cook], substitute: guest 1}", "    launch: {who: [deckhand, navigator], substitute: guest 1}"),
    ("    lookout: {who: guest 1, substitute: guest 2}", "    lookuot: {who: guest 1, substitute: guest 2}"),
    ("    helm: {who: skipper, substitute: mate}", "    helm: {who: skipper, substitute: skipper}"), ("carried-by: mate", "carried-by: nobody"),
    ("floats: yes", "floats: no"), ("{size: adult, kind: inflatable, quantity: 8", "{size: adult, kind: inflatable, quantity: 4"),
    ("ladder-from-water: yes", "ladder-from-water: no"), ("from-outside: yes, how", "from-outside: no, how"), ("detector: yes", "detector: no"),
    ("emergency-tiller: {where: cockpit locker, side: port}", "emergency-tiller: lazarette"), ("{where: forward cabin, opens: both", "{where: forward cabin, opens: outside"),
    ("kind: rescue centre, channel: VHF 16 or DSC on channel 70", "kind: rescue centre"), ("what: hand pump below, power: hand, flow: 45 l/min", "what: hand pump below, power: hand, flow: 45"),
    ("what: heads inlet, diameter: 19 mm, below-water: 0.5 m, where: heads", "what: heads inlet, diameter: 19 mm, below-water: 0.5 m, where: toilet"),
    ("plug-size: 50 mm", "plug-size: 20 mm"), ("what: bolt cutters", "what: bolt croppers, photo: lost.jpg"), ("what: smoke alarm, kind: fire, quantity: 2", "what: smoke alarm, kind: fire, quantity: two"),
    ("what: red hand flares, kind: signal, quantity: 6, where: companionway, side: port, spot: in the orange flare box, expires: 2028-10", "what: red hand flares, kind: signal, quantity: 6, where: companionway, side: port, spot: in the orange flare box, expires: 05/04/2028"),
    ("what: fire blanket, kind: fire", "what: fire blanket, kind: fires"), ("{emergency: abandon-ship, date: 2026-05-23", "{emergency: abandonship, date: 2027-05-23"),
)  # fmt: skip


@pytest.fixture(scope="module")
def spoiled(tmp_path_factory):
    folder = tmp_path_factory.mktemp("spoiled") / "saltmeadow"
    shutil.copytree(VESSELS / "saltmeadow", folder)
    text = (folder / "vessel.yaml").read_text(encoding="utf-8")
    for old, new in FAULTS:
        assert text.count(old) >= 1, old
        text = text.replace(old, new, 1)
    (folder / "vessel.yaml").write_text(text, encoding="utf-8")
    return survey_boat(folder).findings, text


def test_it_has_forty_faults_and_each_is_found_at_its_line(spoiled):
    findings, text = spoiled
    assert len(FAULTS) == 40
    places = {each.place.line for each in findings} | {place.line for each in findings for place in each.also}
    lines = text.splitlines()
    for _, new in FAULTS:
        at = [number for number, line in enumerate(lines, 1) if new.splitlines()[0] in line]
        assert places & set(at), f"nothing stands at: {new}"


def test_the_report_is_grouped_worst_first_with_the_count_at_the_end(spoiled):
    findings, _ = spoiled
    shown = reports.text(findings)
    *body, last = shown.rstrip("\n").split("\n")
    assert last == reports.count(findings)
    groups = "\n".join(body).strip("\n").split("\n\n")
    order = ["defect", "recommendation", "note"]
    worst = []
    for group in groups:
        head, *rest = group.splitlines()
        heads = [line for line in rest if re.match(r"  [A-Z]", line)]
        assert len(set(heads)) == len(heads)
        words = {match[1] for line in rest if (match := re.match(r"    \S+: (\w+) ", line))}
        assert len(words) == 1, head
        worst.append(order.index(words.pop()))
    assert worst == sorted(set(worst))


def test_every_finding_is_one_line_and_what_to_do_another(spoiled):
    findings, _ = spoiled
    listed = [line for line in reports.text(findings).splitlines() if line.startswith("    ")]
    told = [line for line in listed if re.match(r"    \S|        and ", line)]
    assert len(told) == len(findings)
    remedies = [line for line in listed if line.startswith("        -> ")]
    assert len({each.remedy for each in findings}) <= len(remedies) <= len(findings)
    assert max(map(len, listed)) <= 640  # a list of all procedures of a boat is the longest
    assert sum(len(line) > 240 for line in listed) <= len(listed) // 10


def test_no_fault_is_told_over_and_over(spoiled):
    """Forty faults bring few findings beside their own: what follows from a fault is not told as another one."""
    findings, _ = spoiled
    assert len(findings) <= 2 * len(FAULTS)
    assert sum(each.weight is Weight.DEFECT for each in findings) >= len(FAULTS) // 2
    assert len({(each.check, each.message, each.place) for each in findings}) == len(findings)
