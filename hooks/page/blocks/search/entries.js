// What search looks through: pages, parts, machines, and the steps of pages, numbered in the order in which they come.
// A table is lines: a text and, behind a tab, the numbers of all that it belongs to, each written as its distance from the
// one before, the first from the first of the line before. So what many pages have is compared once, and a line that does
// not fit is never taken apart.
(() => {
  const stillbench = (window.stillbench ??= {});
  const { cutPlain, plain } = stillbench.alike;
  const FOUND_BY = ["title", "symptoms", "codes", "appliance", "about"];
  const SAID = ["sort", "appliance", "stage", "about", "language"];
  const made = new Map();
  const lines = (text) => (text ? text.split("\n") : []);
  let [given, late] = [{}, {}];
  let [addresses, titles, tables, steps, size] = [[], [], [], tableOf("steps", ""), 0];

  // Made comparable all at once: that is many times quicker than each line by itself.
  function tableOf(field, text) {
    const flat = plain(text);
    const all = field === "codes" ? flat.replace(/[^\p{L}\p{N}\n\t]/gu, "") : flat;
    const found = lines(text);
    return { field, lines: found, plains: lines(all), bases: bases(found), rows: new Array(found.length) };
  }

  function shelve(found, index = "") {
    [given, late] = [found, {}];
    addresses = lines(found.address);
    titles = lines(found.title).map((title, at) => (title.endsWith(": ") ? title + told("appliance", at) : title));
    tables = FOUND_BY.map((field) => tableOf(field, field === "title" ? titles.join("\n") : found[field]));
    stillbench.textIndex = index;
  }

  // Behind the numbers of its pages a step has its id and its stage.
  function shelveSteps(found) {
    steps = tableOf("steps", found);
    size = steps.lines.reduce((sum, line) => sum + line.split("\t")[1].split(" ").length, 0);
  }

  // For each line the first number of the line before.
  function bases(lines) {
    let base = 0;
    return lines.map((line) => {
      const before = base;
      base += parseInt(line.slice(line.indexOf("\t") + 1), 10);
      return before;
    });
  }

  function held(places, base) {
    let at = base;
    return places.split(" ").map((far) => (at += Number(far)));
  }

  // By number what the table says; where it says several things, the last.
  function column(table) {
    const all = new Array(addresses.length);
    const own = lines(table);
    for (const [place, base] of bases(own).entries()) {
      const [text, places] = own[place].split("\t");
      for (const at of held(places, base)) all[at] = text;
    }
    return all;
  }

  const columnOf = (name) => (late[name] ??= column(given[name]));
  const told = (name, at) => columnOf(name)[at];

  function givers() {
    const own = lines(given.on);
    let giver = 0;
    return new Map(bases(own).map((base, at) => {
      const [far, places] = own[at].split("\t");
      return [(giver += Number(far)), held(places, base)];
    }));
  }

  // The pages that a part or machine is on.
  const pagesOf = (at) => (late.givers ??= givers()).get(at);

  // A line of a table.
  function text({ field, lines, plains, bases, rows }, at) {
    if (!rows[at]) {
      const [text, places, ...rest] = lines[at].split("\t");
      const of = field !== "title" ? field : told("sort", at) === "part" ? "names" : "titles";
      rows[at] = { field: of, text, plain: plains[at], cuts: cutPlain(plains[at].split("\t")[0]), on: places ? held(places, bases[at]) : [at], rest };
    }
    return rows[at];
  }

  function entry(at) {
    if (!made.has(at)) {
      const own = Object.fromEntries(SAID.map((name) => [name, told(name, at)]));
      const codes = told("codes", at);
      made.set(at, { address: addresses[at].replace(/#$/, () => `#${codes.toLowerCase()}`), title: titles[at], codes, ...own });
    }
    return made.get(at);
  }

  function stepOf(at, { text: title, rest: [id, stage] }) {
    const { address, appliance, sort } = entry(at);
    const on = sort === "procedure" || sort === "self-check" ? "step" : sort;
    return { address: `${address}#${id}`, title, sort: on, of: entry(at), appliance, stage };
  }

  // A step with its text, or the text before the first step where it has no id; null where its page is not on the shelf.
  function stepItem(address, id, title, stage, text = "") {
    late.numbers ??= new Map(addresses.map((one, at) => [one, at]));
    const page = late.numbers.get(address);
    if (page === undefined) return null;
    const texts = [["steps", id && title], ["text", text]].filter(([, one]) => one);
    const own = texts.map(([field, one]) => ({ field, text: one, plain: plain(one), cuts: cutPlain(plain(one)) }));
    return { entry: id ? stepOf(page, { text: title, rest: [id, stage] }) : entry(page), page, texts: own };
  }

  // The words of all that is found by words.
  const known = () => (late.known ??= new Set([...tables, steps].flatMap(({ field, plains }) => (field === "codes" ? [] : cutPlain(plains.join(" "))))));
  const shelf = () => ({ tables, steps, known, size: addresses.length + size });

  Object.assign(stillbench, { shelve, shelveSteps, shelf, told, pagesOf, text, entry, stepOf, stepItem });
})();
