"""What hangs on a check: the policy by which a finding weighs, written once."""

from __future__ import annotations

from enum import Enum

from generator.reading.findings import Weight


class Stake(Enum):
    """What it costs if a check's finding is true and nobody mends it; the weight follows from that alone.

    How far a source was verified limits claims about rules only: what can cost a life is a defect whoever says so, and can
    mostly be deferred, with reason and date, where one may sail with it.
    """

    LIFE = (
        "life",
        Weight.DEFECT,
        "somebody may die of it: what saves is missing, barred, run out or given to nobody able",
    )
    TRUTH = (
        "truth",
        Weight.DEFECT,
        "the manual would say what is not so, two things at once, or nothing, and be believed",
    )
    RULE = ("rule", Weight.DEFECT, "a rule that she is kept by, and whose text was read, is not met")
    HELP = (
        "help",
        Weight.RECOMMENDATION,
        "it is slower or harder, and another way stands aboard or in the steps",
    )
    UPKEEP = (
        "upkeep",
        Weight.RECOMMENDATION,
        "it works today, and is to be tested, dated, serviced or practised",
    )
    ADVICE = (
        "advice",
        Weight.RECOMMENDATION,
        "advice, or a rule nobody here has read, asks for it; no step relies on it",
    )
    FORM = ("form", Weight.RECOMMENDATION, "only the form of the manual or of the file suffers")
    NOTICE = ("notice", Weight.NOTE, "worth knowing; nothing is to be mended")

    def __init__(self, word: str, weight: Weight, cost: str) -> None:
        self.word, self.weight, self.cost = word, weight, cost
