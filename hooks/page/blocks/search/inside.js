// What stands inside the pages, from the index of texts of a published site.
(() => {
  const stillbench = (window.stillbench ??= {});
  const PAGES = 4;
  let engine = null;
  let opened = null;

  // An index cannot be fetched from a folder on a stick.
  async function open(index) {
    if (!index || location.protocol === "file:") return;
    const found = await import(new URL(document.querySelector("[data-search]").dataset.root + index, document.baseURI));
    await found.options({ noWorker: true }); // one script less to fetch; a search takes milliseconds
    await found.init();
    engine = found;
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
      const [step, stage, title = text.trim()] = id.split("|").map(decodeURIComponent);
      const from = location + text.split(/\s+/).filter(Boolean).length; // its heading is left out where many have it
      return stillbench.stepItem(address, step, title, stage, words.slice(from, heads[at + 1]?.location).join(" "));
    });
    return [stillbench.stepItem(address, "", "", "", before), ...under].filter(Boolean);
  }

  // Gets the index ready to be asked.
  stillbench.openTexts = () => (opened ??= open(stillbench.textIndex).catch(() => (opened = null)));

  // Items to find among, beside the pages and their steps: texts with these words.
  stillbench.inside = async (words) => {
    await stillbench.openTexts();
    if (!engine) return [];
    const pages = await pagesWith(words);
    return (await Promise.all(pages.slice(0, PAGES).map((page) => page.data()))).flatMap(taken);
  };
})();
