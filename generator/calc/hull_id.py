"""Hull identification numbers: the form of 33 CFR 181.25 (US) and of ISO 10087 (craft identification number)."""

from __future__ import annotations

import re
from dataclasses import dataclass

_BODY = r"(?P<maker>[A-Z0-9]{3})(?P<serial>[A-HJ-NPR-Z0-9]{5})(?P<month>[A-L])(?P<year>\d)(?P<model>\d{2})"


@dataclass(frozen=True)
class HullId:
    """The parts of a hull id: `country` of the builder (ISO 10087 only), `month` 1 to 12, `year` the year's last digit."""

    country: str
    maker: str
    serial: str
    month: int
    year: int
    model_year: int


def read_hull_id(text: str) -> HullId:
    """The parts of a hull id written with or without hyphens and spaces; raises ValueError with what is wrong.

    Limits: hulls built from August 1984 on; older ones carry other date codes.
    Source: 33 CFR 181.25: 12 characters, 1-3 maker, 4-8 serial without I, O and Q, 9 month A to L, 10 last digit of the
    year, 11-12 model year. ISO 10087: the builder's country in two letters before it (14 characters, secondary).

    >>> read_hull_id("GB-ABC00042-A3-99").maker
    'ABC'
    """
    plain = re.sub(r"[\s-]", "", text).upper()
    if plain.startswith("US") and len(plain) == 14:
        plain = plain[2:]
    if len(plain) not in (12, 14):
        raise ValueError(
            f"a hull id has 12 characters, or 14 with the builder's country; this has {len(plain)}"
        )
    country, body = (plain[:2], plain[2:]) if len(plain) == 14 else ("", plain)
    if country and not country.isalpha():
        raise ValueError("the first two of 14 characters are the builder's country, in letters")
    match = re.fullmatch(_BODY, body)
    if not match:
        if re.search(r"[IOQ]", body[3:8]):
            raise ValueError("the serial part has no I, O or Q")
        if not re.fullmatch(r"[A-L]", body[8]):
            raise ValueError(f"character {9 + len(country)} is the month, A to L")
        raise ValueError("the last three characters are figures: the year's last digit and the model year")
    return HullId(
        country,
        match["maker"],
        match["serial"],
        ord(match["month"]) - 64,
        int(match["year"]),
        int(match["model"]),
    )
