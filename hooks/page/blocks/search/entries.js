// What search looks through: pages, parts, machines, and the steps of pages, numbered in the order in which they come.
// A table has for each of its texts, once, the numbers of what it belongs to; each number is written as its distance from
// the one before. So what is typed is compared once with a text that many pages have, and most numbers are never read.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { plain } = stillbench.alike;
  const SAID = ["sort", "appliance", "stage", "about", "language"];
  const FOUND_BY = ["symptoms", "codes", "appliance", "about"];
  const made = new Map();
  let [addresses, titles, texts, steps, numbers] = [[], [], [], [], null];
  let [said, codes, givers] = [{}, new Map(), new Map()];

  const lines = (text) => (text ? text.split("\n") : []);
  const rows = (table) => lines(table).map((line) => line.split("\t"));

  function held(places) {
    let at = 0;
    return places.split(" ").map((far) => (at += Number(far)));
  }

  // For each number what the table says of it.
  function column(table) {
    const all = [];
    for (const [text, places] of rows(table)) for (const at of held(places)) all[at] = text;
    return all;
  }

  // Made comparable all at once: that is many times quicker than each by itself.
  function comparable(field, given) {
    const all = plain(given.map(([text]) => text).join("\n"));
    const plains = (field === "codes" ? all.replace(/[^\p{L}\p{N}\n]/gu, "") : all).split("\n");
    return given.map(([text, places, ...rest], at) => ({ field, text, plain: plains[at], places, rest }));
  }

  // `found` has addresses and titles as lines, the rest as tables; `on` has by a part or machine the pages that it is on.
  function shelve(found, index = "") {
    [addresses, titles] = [lines(found.address), lines(found.title)];
    said = Object.fromEntries(SAID.map((name) => [name, column(found[name])]));
    givers = new Map(rows(found.on).map(([at, places]) => [Number(at), places]));
    const named = comparable("titles", titles.map((title, at) => [title, String(at)]));
    for (const [at, one] of named.entries()) if (said.sort[at] === "part") one.field = "names";
    texts = [...named, ...FOUND_BY.flatMap((field) => comparable(field, rows(found[field])))];
    for (const { field, text, places } of texts) {
      if (field === "codes") for (const at of held(places)) codes.set(at, [...(codes.get(at) ?? []), text]);
    }
    stillbench.textIndex = index;
  }

  // A table of steps has id and stage behind the numbers of the pages.
  const shelveSteps = (found) => (steps = comparable("steps", rows(found)));

  function entry(at) {
    if (!made.has(at)) {
      const own = Object.fromEntries(SAID.map((name) => [name, said[name][at]]));
      made.set(at, { address: addresses[at], title: titles[at], codes: codes.get(at), ...own });
    }
    return made.get(at);
  }

  function stepOf(at, id, title, stage) {
    const { address, appliance, sort } = entry(at);
    const on = sort === "procedure" || sort === "self-check" ? "step" : sort;
    return { address: `${address}#${id}`, title, sort: on, of: entry(at), appliance, stage };
  }

  // A step with its text, or the text before the first step where it has no id; null where its page is not on the shelf.
  function stepItem(address, id, title, stage, text = "") {
    numbers ??= new Map(addresses.map((one, at) => [one, at]));
    const page = numbers.get(address);
    if (page === undefined) return null;
    const given = [["steps", id && title], ["text", text]].filter(([, one]) => one);
    const own = given.flatMap(([field, one]) => comparable(field, [[one]]));
    return { entry: id ? stepOf(page, id, title, stage) : entry(page), page, texts: own };
  }

  const shelf = () => ({ texts, steps, givers, size: addresses.length + steps.reduce((sum, { places }) => sum + places.split(" ").length, 0) });

  Object.assign(stillbench, { shelve, shelveSteps, stepItem, stepOf, entry, held, shelf });
})();
