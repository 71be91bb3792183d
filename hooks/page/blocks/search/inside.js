// What stands inside the pages: from the index of texts of a published site, else the titles of steps.
(() => {
  const stillbench = (window.stillbench ??= {});
  const PAGES = 6;
  const steps = [];
  let engine = null;
  let opened = null;

  stillbench.shelveSteps = (pages) => {
    for (const [address, own] of Object.entries(pages)) steps.push(...own.map(([id, title, stage]) => stillbench.stepItem(address, id, title, stage)).filter(Boolean));
  };

  // An index cannot be fetched from a folder on a stick.
  async function open(index, fetchScript) {
    if (index && location.protocol !== "file:") {
      try {
        engine = await import(new URL(document.querySelector("[data-search]").dataset.root + index, document.baseURI));
        await engine.options({ noWorker: true }); // one script less to fetch; a search takes milliseconds
        await engine.init();
        return;
      } catch {
        engine = null;
      }
    }
    await fetchScript("find-more.js");
  }

  // Pages with all the words; where there are none, pages with any of them.
  async function pagesWith(words) {
    const { results } = await engine.search(words.join(" "));
    if (results.length || words.length < 2) return results;
    const each = await Promise.all(words.map((word) => engine.search(word)));
    const once = new Map(each.flatMap((found) => found.results).map((one) => [one.id, one]));
    return [...once.values()].sort((a, b) => b.score - a.score);
  }

  function taken({ raw_url, content, anchors }) {
    const address = decodeURI(raw_url).replace(/^\//, "");
    const words = content.split(/\s+/);
    const heads = anchors.filter(({ element }) => /^h[23]$/.test(element)).sort((a, b) => a.location - b.location);
    const before = words.slice(0, heads[0]?.location).join(" ");
    const under = heads.map(({ id, text, location }, at) => {
      const title = text.trim();
      const [step, stage] = id.split("|").map(decodeURIComponent);
      const from = location + title.split(/\s+/).length;
      return stillbench.stepItem(address, step, title, stage, words.slice(from, heads[at + 1]?.location).join(" "));
    });
    return [stillbench.stepItem(address, "", "", "", before), ...under].filter(Boolean);
  }

  // Items to find among, beside the pages themselves: steps and texts with these words.
  stillbench.inside = async (words, fetchScript) => {
    opened ??= open(stillbench.textIndex, fetchScript);
    await opened.catch(() => (opened = null));
    if (!engine) return steps;
    const pages = await pagesWith(words);
    return (await Promise.all(pages.slice(0, PAGES).map((page) => page.data()))).flatMap(taken);
  };
})();
