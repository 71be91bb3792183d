"""The one file that MkDocs knows: each event hands over to one layer.

A shop names it under `hooks:`, or the installed plugin `stillbench` under `plugins:`.
"""

from __future__ import annotations

import gc
import logging
import sys
from pathlib import Path

from jinja2 import Environment
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files
from mkdocs.structure.pages import Page
from mkdocs.theme import Theme

ROOT = Path(__file__).resolve().parents[1]
sys.path.append(str(ROOT))  # a shop that names this file by its path has not installed the package

from hooks import check, device, parse, runtime  # noqa: E402
from hooks.diagnostics import has_errors  # noqa: E402
from hooks.kept import Kept, place  # noqa: E402
from hooks.page import inert, languages, site, theme  # noqa: E402
from hooks.report import text  # noqa: E402

FONT = "files/atkinson-hyperlegible-next-latin-wght-normal.woff2"
log = logging.getLogger("mkdocs.plugins.stillbench")


class StillbenchPlugin(BasePlugin):
    """The events of one run of MkDocs; `serve` keeps the object between builds."""

    preview = False
    site: site.Site
    runtime: runtime.RuntimeFiles
    kept: Kept | None = None

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """Remember whether a writer is looking."""
        self.preview = command == "serve"

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Dress the site."""
        config.theme = Theme(**theme.settings())
        config.markdown_extensions.append(inert.Inert())
        config.mdx_configs["tables"] = {"use_align_attribute": True, **config.mdx_configs.get("tables", {})}
        config.validation.nav.omitted_files = logging.DEBUG  # the navigation holds sections
        return config

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Parse and check everything before MkDocs empties the folder of the last good site."""
        folder = Path(config.docs_dir)
        self.kept = self.kept or Kept(place(folder))
        read = parse.contents(folder)
        parsed = parse.whole(read, self.kept)
        report = check.examine(parsed, kept=self.kept)
        self.kept.put("shop", read.digest, report.findings)
        self.kept.save()
        gc.freeze()  # what was made so far stays: no need to search it for garbage, again and again
        said = text.render(report.findings, {s.name: s for s in parsed.sources}, len(parsed.pages))
        if has_errors(report.findings) and not self.preview:
            raise PluginError(f"the site is not built.\n\n{said}")
        log.log(logging.WARNING if report.findings else logging.INFO, said)
        prefix = parse.shown(folder / parse.FACTS, folder).removesuffix(parse.FACTS)
        self.site = site.Site(parsed, report, prefix, self.preview, self.kept)

    def on_files(self, files: Files, *, config: MkDocsConfig) -> Files:
        """Add the pages that no one wrote and the site's own files; keep the shop facts back."""
        for made in self.site.generated:
            files.append(File.generated(config, made.path, content=" "))
        font = runtime.package("@fontsource-variable/atkinson-hyperlegible-next") / FONT
        own = self.site.files(device.SCRIPTS, device.JOBS_SCRIPTS, font)
        for path, content in own.items():
            files.append(File.generated(config, path, content=content))
        for file in files.documentation_pages():
            if not self.site.is_text(file.src_uri):
                file.content_string = " "  # it was read in on_pre_build; MkDocs would read it again
        if not self.preview:
            for path in self.site.drawn_in:
                if file := files.get_file_from_path(path):
                    files.remove(file)
        if facts := files.get_file_from_path(parse.FACTS):
            files.remove(facts)
        self.runtime = runtime.lay(Path(config.site_dir), ROOT / "calculators", ROOT / ".cache/runtime")
        runtime.offer(Path(config.site_dir), ROOT / "calculators")
        said = theme.words(self.site.parsed.shop, self.runtime.folder, self.preview)
        config.extra["stillbench"] = said | theme.assets(own)
        config.nav = self.site.nav
        return files

    def on_env(self, env: Environment, **_: object) -> Environment:
        """Show what stands in the shop's words as text, whatever it looks like; give the frame the site's own."""
        env.autoescape = env.trim_blocks = env.lstrip_blocks = True
        env.globals["language"] = languages.language
        return env

    def on_page_markdown(self, markdown: str, *, page: Page, **_: object) -> str:
        """Leave to MkDocs only the Markdown of ordinary pages."""
        return markdown if self.site.is_text(page.file.src_uri) else ""

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Put our article in the place of what Markdown made."""
        page.meta = self.site.meta(page.file.src_uri)
        page.title = page.meta["title"]
        return self.site.html(page.file.src_uri, html)

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Index the texts of the finished pages; last of all, list what devices may keep."""
        folder = Path(config.site_dir)
        search = self.site.index_texts(folder)
        if self.preview:
            device.withdraw(folder)
        else:
            device.publish(folder, self.site.library, self.runtime.files, search)
        self.kept.save()


_HOOK = StillbenchPlugin()
on_startup, on_config, on_pre_build = _HOOK.on_startup, _HOOK.on_config, _HOOK.on_pre_build
on_files, on_page_markdown = _HOOK.on_files, _HOOK.on_page_markdown
on_env, on_page_content = _HOOK.on_env, _HOOK.on_page_content
on_post_build = _HOOK.on_post_build
