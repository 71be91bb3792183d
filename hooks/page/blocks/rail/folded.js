// The energies run on beside a row that stands for several steps: from what the first came with to what the last left;
// where that differs stands what was done last. Steps that were not done only let them through.
const railOf = (rails, done) => {
  const pipes = rails.map((rail) => new Map([...rail.children].map((pipe) => [pipe.getAttribute("x"), pipe])));
  const percent = (rect, name) => parseFloat(rect.getAttribute(name));
  const comes = (rect) => percent(rect, "y") === 0;
  const leaves = (rect) => percent(rect, "y") + percent(rect, "height") === 100;
  const rects = (pipe, reaches) => [...(pipe?.querySelectorAll(":scope > rect") ?? [])].filter(reaches);
  const drawn = (those) => those.map((rect) => rect.getAttribute("class")).join(" ");

  const put = (pipe, those, y, height) => {
    for (const rect of those.map((one) => pipe.appendChild(one.cloneNode()))) {
      rect.setAttribute("y", y);
      rect.setAttribute("height", height);
    }
  };

  const whole = rails.at(-1).cloneNode(false);
  for (const [x, last] of pipes.at(-1)) {
    const left = rects(last, leaves);
    const came = done ? rects(pipes[0].get(x), comes) : left;
    const pipe = whole.appendChild(last.cloneNode(false));
    const signs = pipes.flatMap((all) => [...(all.get(x)?.querySelectorAll(":scope > svg") ?? [])]);
    if (drawn(came) === drawn(left)) {
      put(pipe, left, "0%", "100%");
      continue;
    }
    put(pipe, came, "0%", "50%");
    put(pipe, left, "50%", "50%");
    if (signs.length) pipe.appendChild(signs.at(-1).cloneNode(true)).setAttribute("y", "50%");
  }
  return whole;
};
