"""The house keeps its shape: imports run one way, files are short, and what only some modules may do only they do."""

import ast
import re
import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
PACKAGE = ROOT / "generator"

TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "LICENSE", "NOTICE"}
TOP_LEVEL |= {"generator", "templates", "vessels", "tests", "site"}

# What a distribution is imported as, where the two differ.
IMPORT_NAMES = {
    "fonttools": "fontTools",
    "fontpkg-atkinson-hyperlegible": "fontpkg_atkinson_hyperlegible",
    "markdown-it-py": "markdown_it",
    "pillow": "PIL",
    "pyyaml": "yaml",
}

LONGEST_FILE_LINES = 400

FORBIDDEN_NAMES = {"print", "input", "exit", "quit", "breakpoint"}
FORBIDDEN_ATTRIBUTES = {
    ("os", "environ"), ("os", "environb"), ("os", "getenv"), ("os", "getenvb"), ("os", "putenv"), ("os", "_exit"),
    ("sys", "exit"), ("sys", "argv"), ("sys", "stdin"), ("sys", "stdout"), ("sys", "stderr"),
    ("date", "today"), ("datetime", "now"), ("datetime", "utcnow"), ("datetime", "today"),
    ("Path", "home"), ("path", "expanduser"), ("path", "expandvars"),
}  # fmt: skip
FORBIDDEN_MODULES = {"time", "random", "secrets", "uuid", "argparse", "getpass"}

# Put together from pieces so that this file passes its own test.
BANNED = [
    r"/" + r"(work|tmp|root|home|Users)/",
    r"[A-Z]:\\" + r"Users",
    r"\.\./" + r"shared\b",
    r"\bshared" + r"/(sources|design|engine|style)",
    r"py" + r"pi\.org",
    r"python" + r"hosted\.org",
    r"npm" + r"js\.(org|com)",
    r"crates" + r"\.io",
    r"(?i)\blanguage " + r"model",
    r"(?i)\bchat" + r"bot",
    r"(?i)\bco" + r"pilot\b",
    r"(?i)\b(issue|ticket)" + r" ?#?\d+\b",
]


def modules():
    return sorted(PACKAGE.rglob("*.py"))


def tree(path):
    return ast.parse(path.read_text(encoding="utf-8"), str(path))


def imports(path):
    """Every import of a file as (dotted module, imported name or "", node)."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            yield from ((alias.name, "", node) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            base = node.module or ""
            if node.level:
                here = path.relative_to(ROOT).with_suffix("").parts
                base = ".".join((*here[: len(here) - node.level], *filter(None, [base])))
            yield from ((base, alias.name, node) for alias in node.names)


def where(path, line):
    return f"{path.relative_to(ROOT)}:{line}"


def test_only_reading_imports_yaml():
    wrong = [
        where(path, node.lineno)
        for path in modules()
        for module, _, node in imports(path)
        if module.split(".")[0] in {"yaml", "_yaml"} and path != PACKAGE / "reading" / "tree.py"
    ]
    assert not wrong, "\n".join(wrong)


def for_types(path):
    """The lines of a file that only a checker of types reads."""
    blocks = [node for node in ast.walk(tree(path)) if isinstance(node, ast.If)]
    inner = [each for node in blocks if ast.unparse(node.test) == "TYPE_CHECKING" for each in node.body]
    return {line for each in inner for line in range(each.lineno, each.end_lineno + 1)}


def at_start(node):
    """The statements that run when the module is imported."""
    for child in ast.iter_child_nodes(node):
        if isinstance(child, (ast.FunctionDef, ast.AsyncFunctionDef, ast.Lambda)):
            continue
        yield child
        yield from at_start(child)


def test_the_pdf_engine_is_imported_only_when_it_is_used():
    wrong = []
    for path in modules():
        unseen = for_types(path)
        for node in at_start(tree(path)):
            if getattr(node, "lineno", 0) in unseen:
                continue
            names = []
            if isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom):
                names = [node.module or ""]
            wrong += [
                where(path, node.lineno) for name in names if name.split(".")[0] in {"weasyprint", "pydyf"}
            ]
    assert not wrong, "\n".join(wrong)


def test_importing_everything_starts_neither_the_pdf_engine_nor_the_font_tools():
    names = [
        ".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__") for path in modules()
    ]
    code = "import importlib, sys\n"
    code += f"for name in {names!r}:\n    importlib.import_module(name)\n"
    code += "sys.exit(bool({'weasyprint', 'pydyf', 'fontTools', 'PIL'} & set(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_only_declared_dependencies_are_imported():
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    declared = {re.match(r"[A-Za-z0-9._-]+", line).group() for line in project["dependencies"]}
    allowed = (
        {IMPORT_NAMES.get(name, name) for name in declared} | {"generator"} | set(sys.stdlib_module_names)
    )
    wrong = [
        f"{where(path, node.lineno)}: {module}"
        for path in modules()
        for module, _, node in imports(path)
        if module.split(".")[0] not in allowed
    ]
    assert not wrong, "\n".join(wrong)


def side_effects(path):
    """The places where a file prints, exits, reads the clock or the environment, or calls on chance."""
    unseen = for_types(path)
    for module, name, node in imports(path):
        last = module.split(".")[-1]
        if node.lineno in unseen:
            continue
        if module.split(".")[0] in FORBIDDEN_MODULES or (last, name) in FORBIDDEN_ATTRIBUTES:
            yield node.lineno, f"import of {module} {name}".strip()
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in FORBIDDEN_NAMES:
            yield node.lineno, node.func.id
        if isinstance(node, ast.Attribute):
            owner = getattr(node.value, "id", getattr(node.value, "attr", ""))
            if (owner, node.attr) in FORBIDDEN_ATTRIBUTES or node.attr in {"expanduser", "utcnow"}:
                yield node.lineno, f"{owner}.{node.attr}"


def test_only_the_command_line_prints_exits_or_reads_clock_and_environment():
    wrong = [
        f"{where(path, line)}: {what}"
        for path in modules()
        if path.name != "__main__.py"
        for line, what in side_effects(path)
    ]
    assert not wrong, "\n".join(wrong)


@pytest.mark.parametrize(
    "line",
    ["print(1)", "import time", "from os import environ", "import os; os.getenv('A')", "import sys; sys.exit(1)",
     "import datetime; datetime.date.today()", "from datetime import datetime; datetime.now()",
     "from pathlib import Path; Path('~').expanduser()"],
)  # fmt: skip
def test_side_effects_are_noticed(tmp_path, line, monkeypatch):
    monkeypatch.setattr(sys.modules[__name__], "ROOT", tmp_path)
    file = tmp_path / "sample.py"
    file.write_text(line + "\n")
    assert list(side_effects(file))


def undocumented(node, prefix):
    for child in node.body:
        if isinstance(
            child, (ast.FunctionDef, ast.AsyncFunctionDef, ast.ClassDef)
        ) and not child.name.startswith("_"):
            setter = any(getattr(mark, "attr", "") in {"setter", "overload"} for mark in child.decorator_list)
            if not ast.get_docstring(child) and not setter:
                yield child.lineno, prefix + child.name
            if isinstance(child, ast.ClassDef):
                yield from undocumented(child, f"{prefix}{child.name}.")


def test_every_public_name_has_a_docstring():
    wrong = []
    for path in modules():
        parsed = tree(path)
        if not ast.get_docstring(parsed):
            wrong.append(f"{where(path, 1)}: the module")
        wrong += [f"{where(path, line)}: {name}" for line, name in undocumented(parsed, "")]
    assert not wrong, "\n".join(wrong)


def test_a_file_is_read_in_one_sitting():
    files = [
        path
        for folder in ("generator", "tests")
        for suffix in ("py", "sh")
        for path in (ROOT / folder).rglob(f"*.{suffix}")
    ]
    long = {str(path.relative_to(ROOT)): len(path.read_text(encoding="utf-8").splitlines()) for path in files}
    long = {name: lines for name, lines in long.items() if lines > LONGEST_FILE_LINES}
    assert not long


def test_no_module_is_a_drawer_for_odds_and_ends():
    vague = re.compile(r"(^|_)(utils?|helpers?|common|managers?|misc)(_|$)")
    assert not [
        str(path.relative_to(ROOT))
        for path in modules()
        if vague.search(path.stem) or vague.search(path.parent.name)
    ]


def test_the_top_level_is_what_the_documentation_says():
    found = {
        path.name for path in ROOT.iterdir() if not path.name.startswith(".") and path.name != "__pycache__"
    }
    assert found == TOP_LEVEL


def test_of_the_site_only_its_readme_is_tracked():
    rules = [line for line in (ROOT / "site/.gitignore").read_text().splitlines() if not line.startswith("#")]
    assert rules == ["*", "!.gitignore", "!README.md"]
    if shutil.which("git") and (ROOT / ".git").exists():
        listed = subprocess.run(
            ["git", "ls-files", "site"], cwd=ROOT, capture_output=True, text=True, check=True
        )
        assert set(listed.stdout.split()) <= {"site/.gitignore", "site/README.md"}


def texts():
    """The text files of the project: not what was built, installed or fetched."""
    starts = [path for name in TOP_LEVEL - {"site"} if (path := ROOT / name).exists()]
    starts += [ROOT / "site/README.md", ROOT / ".ci", ROOT / ".github", ROOT / ".gitignore"]
    for start in starts:
        for path in sorted(start.rglob("*")) if start.is_dir() else [start]:
            if (
                not path.is_file()
                or "__pycache__" in path.parts
                or any(part.startswith(".hyp") for part in path.parts)
            ):
                continue
            try:
                yield path, path.read_text(encoding="utf-8")
            except UnicodeDecodeError:
                continue


def test_the_texts_speak_of_the_project_alone():
    wrong = [
        f"{where(path, number)}: {pattern}"
        for path, text in texts()
        for pattern in BANNED
        for number, line in enumerate(text.splitlines(), 1)
        if re.search(pattern, line)
    ]
    assert not wrong, "\n".join(wrong)
