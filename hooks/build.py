"""The one file that MkDocs knows: each event hands over to one layer.

A shop names it under `hooks:`, or the installed plugin `stillbench` under `plugins:`.
"""

from __future__ import annotations

import gc
import logging
import sys
from collections.abc import Callable
from pathlib import Path

from jinja2 import Environment
from mkdocs.commands.build import _build_page
from mkdocs.config.defaults import MkDocsConfig
from mkdocs.exceptions import PluginError
from mkdocs.livereload import LiveReloadServer
from mkdocs.plugins import BasePlugin
from mkdocs.structure.files import File, Files, InclusionLevel
from mkdocs.structure.nav import Navigation
from mkdocs.structure.pages import Page
from mkdocs.theme import Theme

ROOT = Path(__file__).resolve().parents[1]
sys.path.append(str(ROOT))  # a shop that names this file by its path has not installed the package

from hooks import check, device, parse, runtime  # noqa: E402
from hooks.diagnostics import has_errors  # noqa: E402
from hooks.kept import Kept, digest, generator, place  # noqa: E402
from hooks.library.past import Past  # noqa: E402
from hooks.page import again, inert, languages, site, theme, versions  # noqa: E402
from hooks.page.generated import GeneratedPage  # noqa: E402
from hooks.report import text  # noqa: E402

SITEMAP = "sitemap.xml"
FONT = "files/atkinson-hyperlegible-next-latin-wght-normal.woff2"
log = logging.getLogger("mkdocs.plugins.stillbench")


class StillbenchPlugin(BasePlugin):
    """The events of one run of MkDocs; `serve` keeps the object between builds."""

    preview = False
    site: site.Site
    runtime: runtime.RuntimeFiles
    kept: Kept | None = None
    others: list[tuple[str, int, int]]
    nav: Navigation
    drawing: tuple[MkDocsConfig, Files, Environment]
    last: device.LastSite | None = None
    frame: str
    drawn_from: dict[str, str]
    written: dict[str, device.Listed]

    def on_startup(self, *, command: str, dirty: bool) -> None:
        """Remember whether a writer is looking; what a build makes stays until it ends, so there is no garbage to look for."""
        self.preview = command == "serve"
        if not self.preview:
            gc.disable()

    def on_config(self, config: MkDocsConfig) -> MkDocsConfig:
        """Dress the site."""
        config.theme = Theme(**theme.settings())
        config.markdown_extensions.append(inert.Inert())
        config.mdx_configs["tables"] = {"use_align_attribute": True, **config.mdx_configs.get("tables", {})}
        config.validation.nav.omitted_files = logging.DEBUG  # the navigation holds sections
        return config

    def on_pre_build(self, *, config: MkDocsConfig) -> None:
        """Parse and check everything before MkDocs empties the folder of the last good site."""
        self.site = self._examined(Path(config.docs_dir))
        self.others = _others(config)
        findings = self.site.report.findings
        said = text.render(findings, {s.name: s for s in self.site.parsed.sources}, len(self.site.parsed.pages))
        if has_errors(findings) and not self.preview:
            raise PluginError(f"the site is not built.\n\n{said}")
        log.log(logging.WARNING if findings else logging.INFO, said)
        alone = len(config.plugins) == 1  # another plugin may make anything of a page
        self.last = device.LastSite(Path(config.site_dir)) if alone and not self.preview else None

    def _examined(self, folder: Path, carried: tuple[GeneratedPage, ...] | None = None) -> site.Site:
        """The site of the shop as it is now."""
        self.kept = self.kept or Kept(place(folder))
        read = parse.contents(folder)
        parsed = parse.whole(read, self.kept)
        report = check.examine(parsed, kept=self.kept)
        self.kept.put("shop", read.digest, report.findings)
        self.kept.save()
        gc.freeze()  # what was made so far stays: no need to search it for garbage, again and again
        prefix = parse.shown(folder / parse.FACTS, folder).removesuffix(parse.FACTS)
        return site.Site(parsed, report, prefix, self.preview, self.kept, carried, Past(folder))

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
        self._pictures(files, config)
        if facts := files.get_file_from_path(parse.FACTS):
            files.remove(facts)
        self.runtime = runtime.lay(Path(config.site_dir), ROOT / "calculators", ROOT / ".cache/runtime")
        runtime.offer(Path(config.site_dir), ROOT / "calculators")
        said = theme.words(self.site.parsed.shop, self.runtime.folder, self.preview, versions.lists(self.site.library))
        config.extra["stillbench"] = said | theme.assets(own)
        config.nav = self.site.nav
        return files

    def _pictures(self, files: Files, config: MkDocsConfig) -> None:
        """Photos as the site scales them, in the place of the shop's own; nothing for what cannot be shown."""
        folder = Path(config.docs_dir)
        cache = (place(folder) or ROOT / ".cache/stillbench/kept").with_name("pictures")
        names = [file.src_uri for file in files if file.src_dir == config.docs_dir]
        for path, laid in self.site.pictures(names, folder, cache).items():
            if file := files.get_file_from_path(path):
                files.remove(file)
            if laid:
                files.append(File.generated(config, path, abs_src_path=str(laid)))

    def on_nav(self, nav: Navigation, *, config: MkDocsConfig, **_: object) -> None:
        """Remember the sections, and all that the frame of a page comes of beside the page."""
        self.nav, self.drawn_from, self.written = nav, {}, {}
        told = (config.site_name, config.site_description, config.nav, config.extra["stillbench"])
        self.frame = digest(generator(), repr(told))

    def on_env(self, env: Environment, *, config: MkDocsConfig, files: Files) -> Environment:
        """Show what stands in the shop's words as text, whatever it looks like; give the frame the site's own."""
        self.drawing = (config, files, env)
        env.autoescape = env.trim_blocks = env.lstrip_blocks = True
        env.globals |= {"language": languages.language, "part": theme.parts(env)}
        return env

    def on_page_markdown(self, markdown: str, *, page: Page, **_: object) -> str:
        """Leave to MkDocs only the Markdown of ordinary pages: what is none costs as much as a short page."""
        if self.site.is_text(page.file.src_uri):
            return markdown
        page.content, page.render = "", lambda *_: None
        return ""

    def on_page_content(self, html: str, *, page: Page, config: MkDocsConfig, files: Files) -> str:
        """Put our article in the place of what Markdown made."""
        page.meta = self.site.meta(page.file.src_uri)
        page.title = page.meta["title"]
        return "" if self._stands(page) else self.site.html(page.file.src_uri, html)

    def _stands(self, page: Page) -> bool:
        """Whether the last site has this very page; it is in its place then."""
        article = self.site.drawn_from(page.file.src_uri) if self.last else None
        if self.last is None or article is None:
            return False
        made = self.drawn_from[page.file.dest_uri] = digest(self.frame, page.file.url, repr(page.meta), article)
        return self.last.take(page.file.dest_uri, lambda: self.kept.get("file", made))

    def on_post_page(self, output: str, *, page: Page, **_: object) -> str:
        """List the page as MkDocs is about to write it, where nobody else changes it any more."""
        if self.last:
            path = page.file.dest_uri
            self.written[path] = device.read(output.encode("utf-8", errors="xmlcharrefreplace"), path)
        return output

    def on_post_template(self, output: str, *, template_name: str, config: MkDocsConfig) -> str:
        """Once the map of the site names them, let MkDocs draw no page that stands."""
        if self.last and template_name == SITEMAP:
            _, files, _ = self.drawing
            for file in [f for f in files.documentation_pages() if f.dest_uri in self.last.taken]:
                files.remove(file)
        return output

    def on_post_build(self, *, config: MkDocsConfig) -> None:
        """Index the texts of the finished pages; last of all, list what devices may keep."""
        folder = Path(config.site_dir)
        if self.last:
            self.last.drop()
        search = self.site.index_texts(folder)
        if self.preview:
            device.withdraw(folder)
        else:
            known = {**self.last.taken, **self.written} if self.last else {}
            listed = device.publish(folder, self.site.library, self.runtime.files, search, known)
            for path, made in self.drawn_from.items():
                self.kept.put("file", made, listed[path])
        self.kept.save()

    def on_build_error(self, error: Exception, **_: object) -> None:
        """Leave nothing of the last site beside what is half made."""
        if self.last:
            self.last.drop()

    def on_serve(self, server: LiveReloadServer, *, config: MkDocsConfig, builder: Callable[[], None]) -> LiveReloadServer:
        """After a save, draw what is another; where that could be more than procedures, draw all."""
        server.builder = lambda: self._again() or builder()
        return server

    def _again(self) -> bool:
        """Draw again the pages that are others now; False where that is not enough."""
        config, files, env = self.drawing
        others, self.others = self.others, []  # until all is drawn, nothing may be built upon
        if _others(config) != others:
            return False
        before, self.site = self.site, self._examined(Path(config.docs_dir), self.site.generated)
        paths = again.redrawn(before, self.site)
        if paths is None:
            return False
        shown = files.documentation_pages(inclusion=InclusionLevel.is_in_serve)
        for page in (file.page for file in shown if file.src_uri in set(paths)):
            page.content = self.on_page_content("", page=page, config=config, files=files)
            _build_page(page, config, shown, self.nav, env)  # as MkDocs does: a page drawn alone is the same
        place, titles = self.site.step_titles
        Path(config.site_dir, place).write_bytes(titles)
        self.others = others
        return True


def _others(config: MkDocsConfig) -> list[tuple[str, int, int]]:
    """The shop's settings and each of its files that is no page, with time and size."""
    found = [Path(config.config_file_path), *Path(config.docs_dir).rglob("*")]
    known = ((path, path.stat()) for path in found if path.is_file() and path.suffix != ".md")
    return sorted((str(path), one.st_mtime_ns, one.st_size) for path, one in known)


_HOOK = StillbenchPlugin()
globals().update({event: getattr(_HOOK, event) for event in vars(StillbenchPlugin) if event.startswith("on_")})
