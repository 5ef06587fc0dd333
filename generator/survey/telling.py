"""What is told of the checks themselves: what each looks at, why, what to do."""

from __future__ import annotations

from generator.options import Misuse
from generator.reading.nearest import nearest
from generator.survey.registry import all_checks


def why(name: str | None) -> str:
    """What a check is about. Raises Misuse where there is none of that name."""
    checks = all_checks()
    if not name:
        raise Misuse("why which check? Give an id as findings print it, or --all")
    if name not in checks:
        family = [each for each in checks if each.startswith(f"{name}.")]
        meant = f"write one of: {', '.join(family)}" if family else nearest(name, checks)
        raise Misuse(f"there is no check '{name}'; {meant}; all of them: musterbook why --all")
    one = checks[name]
    return (
        f"{one.id} ({one.weight.word}, {one.stage} stage{'' if one.deferrable else ', cannot be deferred'})\n\n{one.title}\n\n"
        f"Why: {one.why}\n\nRemedy: {one.remedy}\n\n"
        f"It is a {one.weight.word} because {one.stake.cost}.\n\nSource: {one.source}"
    )


def all_of_them() -> str:
    """Every check, a line each."""
    return "\n".join(f"{one.id}  {one.weight.word}  {one.title}" for one in all_checks().values())
