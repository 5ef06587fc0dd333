"""Identities on the air: which state a number or call sign belongs to, and what kind of station a number is.

Tables: templates/identities, from the ITU's own lists; `TABLE_DATE` is when they were read.
"""

from __future__ import annotations

import functools
import json
import re

from generator.shelves.folder import templates_folder

# Forms by ITU-R M.585 (from a dossier on M.585-10 and C/S T.018 Table 3.1; the text itself not read)
_FORMS = (
    (r"00[2-7]\d{6}", "coast station"),
    (r"0[2-7]\d{7}", "group of ships"),
    (r"111[2-7]\d{5}", "rescue aircraft"),
    (r"8[2-7]\d{7}", "handheld VHF"),
    (r"970\d{6}", "SART"),
    (r"972\d{6}", "man-overboard device"),
    (r"974\d{6}", "EPIRB with AIS"),
    (r"979\d{6}", "autonomous device"),
    (r"98[2-7]\d{6}", "craft of a parent ship"),
    (r"99[2-7]\d{6}", "aid to navigation"),
    (r"[2-7]\d{8}", "ship"),
)
_MID_AT = {
    "ship": 0,
    "coast station": 2,
    "group of ships": 1,
    "rescue aircraft": 3,
    "handheld VHF": 1,
    "craft of a parent ship": 2,
    "aid to navigation": 2,
}


def kind_of(number: str) -> str | None:
    """What kind of station a nine-digit number is, None where it has no known form."""
    return next((kind for form, kind in _FORMS if re.fullmatch(form, number)), None)


def mid_of(number: str) -> str | None:
    """The maritime identification digits within a number; None for devices, which have none."""
    kind = kind_of(number)
    return number[_MID_AT[kind] : _MID_AT[kind] + 3] if kind in _MID_AT else None


@functools.cache
def _table(name):
    return json.loads((templates_folder() / "identities" / f"{name}.json").read_text(encoding="utf-8"))


def table_date() -> str:
    """When the tables were read, year and month."""
    return _table("mid")["read"]


def states_of_mid(mid: str) -> tuple[str, ...]:
    """The administrations that a MID is allotted to; empty where it is allotted to none."""
    return tuple(dict.fromkeys(row[0] for row in _table("mid")["mid"].get(mid, ())))


@functools.cache
def states_of_call_sign(call_sign: str) -> tuple[str, ...]:
    """The administrations whose series a call sign lies in (Radio Regulations Appendix 42); empty where none."""
    if len(call_sign) < 2:
        return ()
    third = call_sign[2] if len(call_sign) > 2 and call_sign[2].isalpha() else "A"
    # RR 19.50.1: these series are known by their first character alone
    start = call_sign[0] + "AA" if call_sign[0] in "BFGIKMNRW2" else call_sign[:2] + third
    return tuple(
        dict.fromkeys(
            state.partition(" - ")[0]
            for first, last, state in _table("call_signs")["series"]
            if first <= start <= last
        )
    )


@functools.cache
def states_of_flag(flag: str) -> tuple[str, ...]:
    """The administrations that a flag's name, territory or two-letter code may mean; empty where it is not recognised."""
    wanted = _folded(flag)
    found = []
    for rows in _table("mid")["mid"].values():
        for state, territory, code in rows:
            names = [_folded(state), _folded(state.partition(" (")[0])]
            if wanted in (*names, _folded(territory or ""), (code or "").lower()) or (
                len(wanted) > 4 and names[0].startswith(wanted)
            ):
                found.append(state)
    return tuple(dict.fromkeys(found))


def _folded(name):
    return re.sub(r"^the ", "", name.strip().lower())
