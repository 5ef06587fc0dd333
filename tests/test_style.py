"""The code keeps to its form: rules, layout and types, as pyproject.toml sets them."""

import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


def said(*words):
    """What a checker has to say of the whole project; "" where it is content."""
    done = subprocess.run(
        [sys.executable, "-m", *words], cwd=ROOT, capture_output=True, text=True, check=False
    )
    return "" if done.returncode == 0 else done.stdout + done.stderr


def test_no_rule_is_broken():
    assert said("ruff", "check", "--output-format=concise", "--quiet") == ""


def test_everything_is_laid_out_by_the_one_formatter():
    assert said("ruff", "format", "--check", "--quiet") == ""


@pytest.mark.thorough
def test_every_value_is_of_the_class_it_is_taken_for():
    assert said("mypy", "--no-error-summary") == ""
