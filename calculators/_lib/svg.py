"""What the pictures are drawn with: SVG without colours, styles or ids of its own."""

from __future__ import annotations


def escaped(text: str) -> str:
    """For text and attributes; the module `html` would bring a table of all entities to the browser.

    >>> escaped('5 < 6 & "so"')
    '5 &lt; 6 &amp; &quot;so&quot;'
    """
    return text.replace("&", "&amp;").replace("<", "&lt;").replace('"', "&quot;")


def text(x: float, y: float, words: str, anchor: str = "start", css: str = "") -> str:
    """Words at x percent of the width, y pixels down.

    >>> text(50.0, 18, "312 ± 4", "middle", "big")
    '<text class="big" x="50.00%" y="18" text-anchor="middle">312 ± 4</text>'
    """
    named = f' class="{css}"' if css else ""
    return f'<text{named} x="{x:.2f}%" y="{y:g}" text-anchor="{anchor}">{escaped(words)}</text>'


def rect(css: str, left: float, right: float, y: float, height: float, fill: str = "") -> str:
    """A bar from left to right percent of the width, y and height in pixels.

    >>> rect("k", 0.0, 100.0, 54, 3)
    '<rect class="k" x="0.00%" y="54" width="100.00%" height="3"/>'
    """
    return f'<rect class="{css}"{fill} x="{left:.2f}%" y="{y:g}" width="{right - left:.2f}%" height="{height:g}"/>'


def placed(x: float, y: float, inner: str) -> str:
    """Shapes in pixels around a place at x percent of the width, y pixels down.

    >>> placed(50.0, 40.0, "<path/>")
    '<svg x="50.00%" y="40.0" overflow="visible"><path/></svg>'
    """
    return f'<svg x="{x:.2f}%" y="{y:.1f}" overflow="visible">{inner}</svg>'
