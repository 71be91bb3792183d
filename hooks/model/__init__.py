"""What a shop and its pages are, once parsed: frozen, complete at birth.

Every element carries the span it was written at. A field that is `None` was not
written; an empty tuple in a list field means the writer said `none`.
"""

from __future__ import annotations

from hooks.model.figure import Figure, Picture
from hooks.model.front import Condition, Front, HELD, Item, Part, People
from hooks.model.page import (
    Kind,
    LANGUAGES,
    Message,
    ORIGINAL,
    PROOFS,
    Page,
    Reading,
    Stage,
    Step,
    VERDICTS,
    WayOut,
)
from hooks.model.shop import Appliance, Energy, Guard, Model, Raised, Shop

__all__ = [
    "Appliance",
    "Condition",
    "Energy",
    "Figure",
    "Front",
    "Guard",
    "HELD",
    "Item",
    "Kind",
    "LANGUAGES",
    "Message",
    "Model",
    "ORIGINAL",
    "PROOFS",
    "Page",
    "Part",
    "People",
    "Picture",
    "Raised",
    "Reading",
    "Shop",
    "Stage",
    "Step",
    "VERDICTS",
    "WayOut",
]
