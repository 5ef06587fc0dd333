"""The modified Baudot code of distress beacons (C/S T.001 Table A3, the same as C/S T.018 Table 3.2)."""

from __future__ import annotations

_CODES = {
    "A": "111000",
    "B": "110011",
    "C": "101110",
    "D": "110010",
    "E": "110000",
    "F": "110110",
    "G": "101011",
    "H": "100101",
    "I": "101100",
    "J": "111010",
    "K": "111110",
    "L": "101001",
    "M": "100111",
    "N": "100110",
    "O": "100011",
    "P": "101101",
    "Q": "111101",
    "R": "101010",
    "S": "110100",
    "T": "100001",
    "U": "111100",
    "V": "101111",
    "W": "111001",
    "X": "110111",
    "Y": "110101",
    "Z": "110001",
    " ": "100100",
    "-": "011000",
    "/": "010111",
    "0": "001101",
    "1": "011101",
    "2": "011001",
    "3": "010000",
    "4": "001010",
    "5": "000001",
    "6": "010101",
    "7": "011100",
    "8": "001100",
    "9": "000011",
}
_LETTERS = {code: letter for letter, code in _CODES.items()}
_SHORT = {code[1:]: letter for letter, code in _CODES.items() if code[0] == "1"}


def text_of(bits: str) -> str | None:
    """The characters of six-bit codes, spaces kept; None where a code is undefined.

    Limits: a whole number of six-bit codes, else ValueError.

    >>> text_of("101101" "111000")
    'PA'
    """
    if len(bits) % 6:
        raise ValueError(f"six bits a character are needed, got {len(bits)} bits")
    return _joined([_LETTERS.get(bits[n : n + 6]) for n in range(0, len(bits), 6)])


def letters_of_five(bits: str) -> str | None:
    """The letters of five-bit codes (the leading 1 dropped); None where one is no letter's code."""
    if len(bits) % 5:
        raise ValueError(f"five bits a letter are needed, got {len(bits)} bits")
    return _joined([_SHORT.get(bits[n : n + 5]) for n in range(0, len(bits), 5)])


def _joined(letters: list[str | None]) -> str | None:
    known = [letter for letter in letters if letter is not None]
    return "".join(known) if len(known) == len(letters) else None
