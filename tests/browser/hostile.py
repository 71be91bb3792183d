"""A shop every text of which tries to run a script in the reader's browser."""

from __future__ import annotations

import json
from pathlib import Path

from tests.build import shop

ELSEWHERE = "http://elsewhere.example"


def attack(field: str) -> str:
    """A text that names its field, and does something wherever it is taken for more than a text."""
    return (
        f"{field}'><img src={ELSEWHERE}/{field} onerror=window.taken='{field}'>"
        f"</title></textarea></script><script>window.taken='{field}'</script><svg onload=window.taken='{field}'>"
    )


def quoted(field: str) -> str:
    """The same inside the double quotes of YAML or JSON."""
    return json.dumps(attack(field))


LINKS = f"""\
[script](javascript:window.taken='link') [hidden](java&#115;cript:window.taken='link')
[data](data:text/html,<script>window.taken='data'</script>)

![{attack("words")}](plug.svg "{attack("caption")}")

<a href="javascript:window.taken='raw'" onclick="window.taken='raw'">raw</a>
<iframe src="javascript:window.taken='frame'"></iframe>
"""

FACTS = f"""\
shop: {{name: {quoted("shop")}, phone: {quoted("phone")}, hours: {quoted("hours")}, about: {quoted("about")}}}
clearing: {quoted("clearing")}
skills: [{quoted("skill")}]
appliances:
  kettle:
    title: {quoted("appliance")}
    does: {quoted("does")}
    models: {{{quoted("model")}: []}}
    energies:
      electricity: {{points: [{quoted("point")}]}}
"""

HEAD = f"""\
appliance: kettle
revision: {quoted("revision")}
reviewed: 2026-11-02
people: {{number: 1, skill: {quoted("skill")}}}
time: 10 min
protect: [{quoted("protect")}]
tools: [{quoted("tool")}, voltage tester]
supplies: [{quoted("supply")}]
parts: [{{name: {quoted("part")}, number: {quoted("number")}, quantity: 1}}]
before: [{quoted("before")}]
after: [{quoted("after")}]
"""

PROCEDURE = f"""\
---
title: {quoted("title")}
page: procedure
symptoms: [{quoted("symptom")}]
{HEAD}---
# {attack("title")}

!!! warning electricity "{attack("message")}"
    {attack("message-text")}

{attack("intro")}

{LINKS}

## {attack("stage")}

### {attack("first-step")} {{#unplug isolate="electricity"}}

Keep the plug in sight. {attack("prose")}

### Prove it {{#prove verify="electricity" needs="voltage tester"}}

- **Proved**, {attack("way-out")}: [{attack("link-text")}](#measure)
- **Not proved**: [Stop](#stop)

### Measure {{#measure work reads="coil"}}

{LINKS}

```reading
id: coil
label: {quoted("label")}
unit: ohm
limits: [100, 500]
calculator: coil
```

```reading
id: other
label: {quoted("other-label")}
unit: {quoted("unit")}
limits: [1, 2]
```

```
{attack("fence")}
```

### Is it good? {{#good decide judges="coil"}}

- **In limits**: [On](#plug)
- **Out of limits**: [Measure again](#measure)
- **Too close to call**: [Measure again](#measure)

### Plug it in {{#plug restore="electricity" clear}}

Dry hands.

### Done {{#done end="in service" outcome="repaired" cause="{attack("cause")}"}}

Boil once.

### Stop {{#stop end="stopped"}}

Tell the office.
"""

SELF_CHECK = f"""\
---
title: {quoted("check-title")}
page: self-check
revision: 1
reviewed: 2026-11-02
symptoms: [{quoted("check-symptom")}]
appliance: kettle
---
# {attack("check-title")}

{attack("check-intro")}

### {attack("question")} {{#first check decide}}

{LINKS}

- {attack("answer")}: [Good](#good)
- No: [We come](#book)

### Good {{#good end="solved"}}

Good.

### We come {{#book end="book a repair"}}

Ring us.
"""

TEXT = f"""\
---
title: {quoted("text-title")}
page: text
---
# {attack("text-heading")}

{attack("text")}

{LINKS}

| a |
|--:|
| {attack("cell")} |
"""

PAGES = {"procedure.md": PROCEDURE, "check.md": SELF_CHECK, "text.md": TEXT, "it's <b>&amp; so.md": TEXT}
FIELDS = sorted(
    {
        "shop", "phone", "hours", "about", "clearing", "appliance", "does", "model", "point", "revision", "skill",
        "protect", "tool", "supply", "part", "number", "before", "after", "title", "symptom", "message",
        "message-text", "intro", "stage", "first-step", "prose", "label", "other-label",
        "unit", "fence", "check-title", "check-symptom", "check-intro", "question", "text-title",
        "text-heading", "text", "cell", "caption",
    }
)  # fmt: skip
"""The texts that must be seen, as they were written, on some page."""
ARMS = ("answer", "link-text", "way-out")
"""The texts of ways out, which lose what looks like a tag and keep the words around it."""


def build(folder: Path) -> Path:
    """Build the shop in `folder`; gives its site."""
    shop.lay(folder)
    for name in ("shop.yml", "switch.md"):
        (folder / "procedures" / name).unlink()
    (folder / "procedures/shop.yml").write_text(FACTS, "utf-8")
    (folder / "procedures/plug.svg").write_text('<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"/>', "utf-8")
    for name, text in PAGES.items():
        (folder / "procedures" / name).write_text(text, "utf-8")
    settings = (folder / "mkdocs.yml").read_text("utf-8")
    named = f"{settings}markdown_extensions: [attr_list, md_in_html]\n".replace("Test shop", quoted("site"))
    (folder / "mkdocs.yml").write_text(named, "utf-8")
    done = shop.run(folder, "mkdocs", "build")
    assert done.returncode == 0, done.stderr
    return folder / "site"
