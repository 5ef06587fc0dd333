"""Programs started with the rights of a plain user, by whoever runs the tests."""

import os
import shutil

import pytest


def as_a_user():
    """What starts a program that may read no more than its user's rights give: root may read all."""
    if os.geteuid():
        return []
    if not shutil.which("setpriv"):
        pytest.skip("needs tool: setpriv")
    return ["setpriv", "--bounding-set", "-dac_override,-dac_read_search"]
