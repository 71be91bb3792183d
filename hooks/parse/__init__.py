"""Text to model and findings. The rest of the house sees only what stands here."""

from __future__ import annotations

from hooks.parse.result import ParsedPage, ParsedShop
from hooks.parse.rules import RULES
from hooks.parse.shared_page import drawn
from hooks.parse.shop_facts import shop_facts
from hooks.parse.shop_folder import FACTS, Contents, contents, folder, page_paths, shown, whole
from hooks.parse.whole_page import page

__all__ = [
    "FACTS",
    "RULES", "Contents", "ParsedPage", "ParsedShop", "contents", "drawn", "folder", "page", "page_paths", "shop_facts",
    "shown", "whole",
]  # fmt: skip
