"""Steps told by what was done to a part: replaced, cleaned, adjusted."""

from __future__ import annotations

from dictate.mentions.handled import handled_of
from dictate.mentions.handled.came_with import comes_with
from dictate.mentions.handled.in_vain import NOTHING
from dictate.mentions.narration import Narration
from dictate.mentions.steps.found import Found
from dictate.mentions.steps.phrases import RULED_OUT
from dictate.vocabulary.load import table

NO_STEP = frozenset(table("parts")["words"]["bits_of_a_repair"])
DRIERS = ("filter drier", "suction drier")


def rule_out_vain(narration: Narration) -> None:
    """Keep that the words of parts that came to nothing are no replacement, whatever they sound like."""
    ruled_out = narration.found.setdefault(RULED_OUT, {})
    for code in ("part_replaced", "filter_drier_replaced"):
        ruled_out.setdefault(code, []).extend(narration.found.get(NOTHING, ()))


def from_handled_parts(narration: Narration) -> list[Found]:
    """Return the steps that the doings with parts are."""
    out: list[Found] = []
    for h in handled_of(narration):
        if h.action in ("replaced", "installed"):
            if h.unknown is not None:
                out.append(Found("part_replaced", h.status, h.start, h.end, h.unknown, why=h.why))
            for thing in h.things:
                if thing.name in DRIERS:
                    out.append(
                        Found("filter_drier_replaced", h.status, h.start, h.end, "filter drier", why=h.why)
                    )
                elif (
                    thing.name in ("o-ring", "gasket", "seal")
                    and h.verb is None
                    and comes_with(narration, h.start, thing.name)
                ):
                    continue  # "both caps on with new o-rings"
                elif h.action == "replaced" and thing.name not in NO_STEP:
                    out.append(Found("part_replaced", h.status, h.start, h.end, thing.name, why=h.why))
        elif h.action == "cleaned":
            for thing in h.things:
                name = None if thing.generic else thing.name
                out.append(Found("cleaned", h.status, h.start, h.end, name, why=h.why))
        elif h.action == "adjusted":
            for thing in h.things:
                out.append(Found("adjusted", h.status, h.start, h.end, thing.name, why=h.why))
    return out
