"""Ratios that do not depend on the machine: what the program adds to its PDF engine and to the YAML library.

python -m pytest tests/benchmark/bench_ratios.py -s            # prints them; --renew also writes them into DEVELOPERS.md
"""

import os
import pickle
import re
import subprocess
import sys
import tempfile
import time
from datetime import date
from pathlib import Path

import pytest
import yaml

from generator import publishing
from generator.outputs.setting import engine
from generator.publishing import Order
from generator.survey import registry
from generator.vessel import loading

ROOT = Path(__file__).parent.parent.parent
BOAT = ROOT / "vessels/saltmeadow"
DAY = date(2026, 6, 1)
BOATS, RUNS = 1000, 3

BARE = """
import pickle, sys
import weasyprint
from weasyprint.text.fonts import FontConfiguration
fonts = FontConfiguration()
for html, sheets in pickle.load(open(sys.argv[1], "rb")):
    sheets = [weasyprint.CSS(string=text, font_config=fonts) for text in sheets]
    weasyprint.HTML(string=html).write_pdf(stylesheets=sheets, font_config=fonts, pdf_variant="pdf/ua-1")
"""


def cost(*argv):
    """(CPU seconds, peak memory in KiB) of a process of its own, the least of several runs; its modules compiled, as installed."""
    seen = []
    environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
    environment |= {"PYTHONPYCACHEPREFIX": f"{tempfile.gettempdir()}/musterbook-compiled"}
    for _ in range(RUNS):
        child = subprocess.Popen(
            [sys.executable, *argv], cwd=ROOT, stdout=subprocess.DEVNULL, env=environment
        )
        _, status, used = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
        assert child.returncode == 0, argv
        seen.append((used.ru_utime + used.ru_stime, used.ru_maxrss))
    return min(each[0] for each in seen), min(each[1] for each in seen)


def documents_written(into):
    """What the engine was given for the documents that were published: (HTML, style sheets) each; cards as one document."""
    from generator.machine import fonts

    given, written = {}, []
    lay_out, join, write = engine.lay_out, engine.join, engine.write

    def noted(html, sheets):
        layout = lay_out(html, sheets)
        given[id(layout)] = (layout, (html, (fonts.faces_css_for_paper(), *sheets)))
        return layout

    def joined(layouts):
        whole = join(layouts)
        pages = [given[id(layout)][1] for layout in layouts]
        bodies = [re.search(r"<body>(.*)</body>", html, re.DOTALL) for html, _ in pages]
        first, sheets = pages[0]
        html = first.replace(bodies[0][0], f"<body>{''.join(body[1] for body in bodies)}</body>")
        given[id(whole)] = (whole, (html, sheets))
        return whole

    def kept(layout, file):
        written.append(given[id(layout)][1])
        return write(layout, file)

    engine.lay_out, engine.join, engine.write = noted, joined, kept
    try:
        publishing.publish(BOAT, "boat", Order(DAY, into=into))
    finally:
        engine.lay_out, engine.join, engine.write = lay_out, join, write
    return written


@pytest.fixture(scope="module")
def figures(request):
    """Rows of the table, printed at the end and with --renew written into DEVELOPERS.md."""
    rows = []
    yield rows
    table = "\n".join(
        [
            "| what | measured | goal |",
            "| --- | --- | --- |",
            *(f"| {what} | {value} | {goal} |" for what, value, goal in rows),
        ]
    )
    print(f"\n\n{table}")
    if request.config.getoption("--renew"):
        path = ROOT / "DEVELOPERS.md"
        text = path.read_text(encoding="utf-8")
        path.write_text(
            re.sub(
                r"(<!-- measured -->).*(<!-- /measured -->)",
                lambda match: f"{match[1]}\n{table}\n{match[2]}",
                text,
                flags=re.DOTALL,
            ),
            encoding="utf-8",
        )


def test_publishing_beside_the_bare_engine(figures, pdf_engine, tmp_path):
    documents = documents_written(tmp_path / "first")
    file = tmp_path / "documents"
    file.write_bytes(pickle.dumps(documents))
    bare_s, bare_kib = cost("-c", BARE, str(file))
    own_s, own_kib = cost("-m", "generator", "publish", str(BOAT), "--into", str(tmp_path / "site"))
    figures.append(
        (
            f"publish one boat ÷ bare engine on the same {len(documents)} documents, CPU",
            f"{own_s / bare_s:.2f}",
            "≤ 1.15",
        )
    )
    figures.append(("the same, peak memory", f"{own_kib / bare_kib:.2f}", "≤ 1.25"))
    assert own_s > 0


def test_a_thousand_descriptions_beside_reading_their_yaml(figures):
    boats = sorted(path.parent for path in (ROOT / "vessels").glob("*/vessel.yaml"))
    folders = [boats[number % len(boats)] for number in range(BOATS)]
    texts = {folder: [path.read_text(encoding="utf-8") for path in folder.glob("*.yaml")] for folder in boats}

    def describe():
        for folder in folders:
            vessel, _ = loading.load(folder, folder.name)
            registry.run(registry.DESCRIPTION, registry.Sight(vessel, DAY, DAY))

    def compose():
        for folder in folders:
            for text in texts[folder]:
                yaml.compose(text, Loader=yaml.CSafeLoader)

    def survey_whole():
        for folder in folders:
            publishing.survey(folder, folder.name, Order(DAY))

    registry.all_checks()
    took = []
    for work in (describe, compose, survey_whole):
        start = time.process_time()
        work()
        took.append(time.process_time() - start)
    figures.append(
        (
            f"description stage of {BOATS} boats ÷ libyaml compose of the same files",
            f"{took[0] / took[1]:.2f}",
            "≤ 2.5",
        )
    )
    figures.append(("both stages, the manual composed, ÷ the same", f"{took[2] / took[1]:.2f}", "none set"))


@pytest.mark.parametrize("argv", [("--help",), ("survey", str(BOAT))], ids=lambda argv: argv[0])
def test_start_up(figures, argv):
    seconds, _ = cost("-m", "generator", *argv)
    figures.append(
        (f"`musterbook {argv[0]}`{' of one boat' if argv[1:] else ''}, CPU", f"{seconds:.2f} s", "≤ 0.35 s")
    )
