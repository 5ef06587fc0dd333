"""Spellings of a private value that people use, knowingly or not: each gives the value as it might stand in words of a boat's own."""

import html
import re
import unicodedata
from calendar import month_abbr, month_name
from urllib.parse import quote


def between(sign):
    """A sign between every two letters or digits."""
    return lambda text: sign.join(re.sub(r"\s+", "", text))


def instead(sign):
    """A sign instead of every blank."""
    return lambda text: re.sub(r"\s+", lambda _: sign, text)


def drawn_wide(text):
    """Full-width forms."""
    return "".join(chr(ord(sign) + 0xFEE0) if "!" <= sign <= "~" else sign for sign in text)


def in_digits(first):
    """Digits of another script, by its nought."""
    return lambda text: re.sub(r"[0-9]", lambda match: chr(ord(first) + int(match[0])), text)


def entities(text):
    """Each sign as a code of HTML."""
    return "".join(f"&#{ord(sign)};" for sign in text)


def broken(text):
    """Hyphenated in the middle of its longest word, at the end of a line."""
    word = max(re.findall(r"[^\W\d_]+", text), key=len, default="")
    at = len(word) // 2
    return text.replace(word, f"{word[:at]}-\n{word[at:]}", 1) if len(word) > 5 else text


ANY = {
    "as it is": str,
    "no blanks": lambda text: re.sub(r"\s+", "", text),
    "small letters": str.lower,
    "capitals": str.upper,
    "hyphens": instead("-"),
    "dots": instead("."),
    "slashes": instead(" / "),
    "underscores": instead("_"),
    "dashes": instead(" \u2013 "),
    "no-break blanks": instead("\u00a0"),
    "thin blanks": instead("\u2009"),
    "over two lines": instead("\n"),
    "letter by letter": between(" "),
    "hyphen by hyphen": between("-"),
    "zero-width blanks": between("\u200b"),
    "soft hyphens": between("\u00ad"),
    "word joiners": between("\u2060"),
    "full width": drawn_wide,
    "tags between": between("<wbr>"),
    "bold": lambda text: f"**{text[: len(text) // 2]}**{text[len(text) // 2 :]}",
    "entities": entities,
    "percent codes": quote,
    "in brackets": lambda text: f"({text})",
    "in a sentence": lambda text: f"Ask for {text}, day or night.",
    "decomposed": lambda text: unicodedata.normalize("NFD", text),
}


def digits(text):
    """The digits of a number, with its country's code and no sign before it."""
    return re.sub(r"\D", "", text)


PHONE = {
    **ANY,
    "from abroad": lambda text: "00" + digits(text),
    "at home": lambda text: "0" + digits(text)[2:],
    "at home, in brackets": lambda text: f"(0{digits(text)[2:6]}) {digits(text)[6:9]} {digits(text)[9:]}",
    "with a trunk nought": lambda text: f"+{digits(text)[:2]} (0) {digits(text)[2:6]} {digits(text)[6:]}",
    "another country's code": lambda text: f"+49 {digits(text)[2:]}",
    "last eight": lambda text: digits(text)[-8:],
    "last eight, in groups": lambda text: f"{digits(text)[-8:-4]} {digits(text)[-4:]}",
    "last seven": lambda text: f"{digits(text)[-7:-4]}-{digits(text)[-4:]}",
    "last six": lambda text: digits(text)[-6:],
    "in pairs": lambda text: " ".join(re.findall("..?", digits(text))),
    "in threes, with dots": lambda text: ".".join(re.findall("..?.?", digits(text))),
    "an address": lambda text: f"tel:+{digits(text)}",
    "Arabic digits": in_digits("\u0660"),
    "Devanagari digits": in_digits("\u0966"),
    "superscripts": lambda text: text.translate(str.maketrans("0123456789", "⁰¹²³⁴⁵⁶⁷⁸⁹")),
}
ID = {
    **ANY,
    "in threes": lambda text: " ".join(re.findall("..?.?", text)),
    "in fours, small": lambda text: "-".join(re.findall("..?.?.?", text.lower())),
    "behind its name": lambda text: f"id:{text}",
    "in another's number": lambda text: f"15-hex {text}.",
    "Arabic digits": in_digits("\u0660"),
}
NAME = {
    **ANY,
    "last name first": lambda text: ", ".join(text.rsplit(" ", 1)[::-1]),
    "last name": lambda text: text.split()[-1],
    "first name": lambda text: text.split()[0],
    "last name, capitals": lambda text: text.split()[-1].upper(),
    "last name, hyphens": lambda text: "-".join(re.findall("..?.?", text.split()[-1])),
    "first name, hyphens": lambda text: "-".join(re.findall("..?.?", text.split()[0])),
    "first name, letter by letter": lambda text: " ".join(text.split()[0]),
    "possessive": lambda text: f"{text}'s cabin",
    "without accents": lambda text: "".join(
        sign for sign in unicodedata.normalize("NFD", text) if unicodedata.category(sign) != "Mn"
    ),
    "broken": broken,
}


def words(text):
    """The words of a sentence."""
    return re.findall(r"[^\W_]+(?:['’][^\W_]+)?", text)


SENTENCE = {
    **ANY,
    "first half": lambda text: " ".join(words(text)[: len(words(text)) // 2]),
    "second half": lambda text: " ".join(words(text)[len(words(text)) // 2 :]),
    "first three words": lambda text: " ".join(words(text)[:3]),
    "first half, capitals": lambda text: " ".join(words(text)[: len(words(text)) // 2]).upper(),
    "first half, other signs": lambda text: " - ".join(words(text)[: len(words(text)) // 2]),
    "without small words": lambda text: " ".join(word for word in words(text) if len(word) > 3),
    "halves swapped": lambda text: " ".join(
        (*words(text)[len(words(text)) // 2 :], *words(text)[: len(words(text)) // 2])
    ),
    "broken": broken,
}


def _day(form):
    def written(text):
        year, month, day = map(int, text.split("-"))
        return form(year, month, day)

    return written


DAY = {
    "as it is": str,
    "figures": _day(lambda year, month, day: f"{day}.{month}.{year}"),
    "figures, two places": _day(lambda year, month, day: f"{day:02}/{month:02}/{year}"),
    "month first": _day(lambda year, month, day: f"{month}/{day}/{year}"),
    "short year": _day(lambda year, month, day: f"{day:02}.{month:02}.{year % 100:02}"),
    "in a row": _day(lambda year, month, day: f"{year}{month:02}{day:02}"),
    "in a row, day first": _day(lambda year, month, day: f"{day:02}{month:02}{year}"),
    "in words": _day(lambda year, month, day: f"{day} {month_name[month]} {year}"),
    "in words, month first": _day(lambda year, month, day: f"{month_name[month]} {day}, {year}"),
    "in short words": _day(lambda year, month, day: f"{day} {month_abbr[month].upper()} {year % 100:02}"),
    "ordinal": _day(lambda year, month, day: f"{day}th of {month_name[month]} {year}"),
    "no-break blanks": _day(lambda year, month, day: f"{day}\u00a0{month_name[month]}\u00a0{year}"),
    "zero-width blanks": between("\u200b"),
    "full width": drawn_wide,
}

VALUES = {
    "+44 7700 900138": PHONE,
    "+33 6 39 98 00 45": PHONE,
    "+47 22 51 36 48": PHONE,
    "2024000000FFBFF": ID,
    "1D04C8A93BFFBFF": ID,
    "SSR 184527": ID,
    "GB-ABC00042-A3-99": ID,
    "A7-33819": ID,
    "Marit Dijkzicht": NAME,
    "Ødegård Kvalsøyra": NAME,
    "Noémie Lavergne-Pradel": NAME,
    "diabetic; insulin in the refrigerator, sugar in the jacket's left pocket": SENTENCE,
    "allergic to penicillin and wasp stings, carries an adrenaline pen": SENTENCE,
    "epilepsy since childhood; two tablets of valproate each evening": SENTENCE,
    "1961-03-04": DAY,
}


def of(value):
    """Every disguise of a value, by its name: those that leave nothing of it are none."""
    for name, disguise in VALUES[value].items():
        yield name, disguise(value)


def escaped(text):
    """As a template escapes it."""
    return html.escape(text, quote=True)
