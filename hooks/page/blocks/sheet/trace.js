// What was on, over time, as lines that are full, hatched or hollow, and when hands were in: drawn from what was kept.
const trace = (() => {
  const MINUTE = 60_000;
  const LONG = 45 * MINUTE;
  const STEPS = [1, 2, 5, 10, 15, 30, 60, 120, 240, 480, 1440].map((minutes) => minutes * MINUTE);
  const LOOKS = { on: "on", off: "off", released: "off", proved: "proved" };
  const WORDS = { on: "on", off: "off, not proved", proved: "proved off" };
  const ON = { blade: ["i-blade-open", "i-blade-closed"], tap: ["i-tap-shut", "i-tap-open"] };
  const APART = 4.2;
  const pct = (x) => `${x.toFixed(2)}%`;

  // Time as per cent of the width; where nothing happened for long, the line is cut short.
  const scaleOf = (times) => {
    const gaps = times.slice(1).map((at, i) => [times[i], at, at - times[i]]);
    const usual = gaps.filter(([, , gap]) => gap <= LONG).reduce((sum, [, , gap]) => sum + gap, 0);
    const short = Math.max(usual * 0.08, MINUTE);
    let wide = 0;
    const parts = gaps.map(([from, to, gap]) => ({ from, to, x: wide, cut: gap > LONG, wide: ((wide += gap > LONG ? short : gap), gap > LONG ? short : gap) }));
    const place = (at) => {
      const part = parts.findLast(({ from }) => from <= at);
      return part && wide ? ((part.x + part.wide * Math.min((at - part.from) / (part.to - part.from || 1), 1)) / wide) * 100 : 0;
    };
    return { place, wide, cuts: parts.filter(({ cut }) => cut), whole: (at) => !parts.some(({ cut, from, to }) => cut && from < at && at < to) };
  };

  const spellsOf = ({ events, course, record }, until) => {
    const spells = [];
    let [at, since] = [0, events[0].at];
    const hands = (number) => course.nodes.get(number)?.hands;
    const add = (from, to) => (spells.at(-1)?.[1] === from ? (spells.at(-1)[1] = to) : spells.push([from, to]));
    for (const { kind, step, to, passed, at: now } of events) {
      if (kind === "done" && !passed && hands(step)) add(step === at ? since : now, now);
      if (["done", "go", "back"].includes(kind)) [at, since] = [to ?? step, now];
    }
    if (!record.end && hands(at)) add(since, until);
    return spells;
  };

  // A device's clock may have been set back: what came later stands later.
  const inOrder = (list) => {
    let last = 0;
    return list.map((one) => ({ ...one, at: (last = Math.max(last, one.at)) }));
  };

  const stretchesOf = (energy, line, course, until) => {
    const all = line.map(({ at, known }) => ({ at, look: LOOKS[course.states(known)[energy]] ?? "on" }));
    const changed = all.filter(({ look }, i) => look !== all[i - 1]?.look);
    return changed.map((one, i) => ({ ...one, to: changed[i + 1]?.at ?? until, before: changed[i - 1]?.look }));
  };

  // The isolating point where it was cut or turned on, a tick at each proof; a little apart where they fell together.
  const signsOf = ({ name, point }, stretches, { events, course }, place) => {
    const turned = stretches.flatMap(({ at, look, before }) => (before && ON[point] && (look === "on") !== (before === "on") ? { at, look: ON[point][Number(look === "on")] } : []));
    const proofs = events.filter(({ kind, step, verdict }) => kind === "done" && verdict === "proved" && course.nodes.get(step)?.verifies?.includes(name));
    const signs = [...turned, ...proofs.map(({ at }) => ({ at, look: "i-tick" }))].sort((a, b) => a.at - b.at || (a.look === "i-tick") - (b.look === "i-tick"));
    let least = 0;
    return signs.map(({ at, look }) => ({ look, x: (least = Math.max(place(at), least)) && ((least += APART), least - APART) })).filter(({ x }) => x <= 100);
  };

  const pipe = ({ at, to, look }, y, place) => {
    const [x, width] = [pct(place(at)), pct(Math.max(place(to) - place(at), 0))];
    const edge = (down) => drawn("rect", { class: `edge-${look}`, x, y: y + down, width, height: 2 });
    return [drawn("rect", { class: `fill-${look}`, x, y, width, height: 14 }), ...(look === "on" ? [] : [edge(0), edge(12)])];
  };

  const use = (id, x, y, more = {}) => drawn("svg", { x: pct(x), y, overflow: "visible" }, drawn("use", { class: "sign", href: `#${id}`, ...more }));
  const word = (text, x, y, anchor) => drawn("text", { x: pct(x), y, "text-anchor": anchor }, text);

  const axis = (start, until, { place, wide, whole }, y) => {
    const step = STEPS.find((one) => wide / one <= 6) ?? STEPS.at(-1);
    const shift = new Date(start).getTimezoneOffset() * MINUTE;
    const labels = [word(clock(start), 0, y, "start")];
    let last = 0;
    for (let at = Math.ceil((start - shift) / step) * step + shift; at < until && labels.length < 60; at += step) {
      const x = place(at);
      if (whole(at) && x - last >= 13 && x <= 86) labels.push(word(clock(at), (last = x), y, "middle"));
    }
    return until > start ? [...labels, word(clock(until), 100, y, "end")] : labels;
  };

  const spent = (ms) => (ms >= 2 * 3600_000 ? `${Math.round(ms / 3600_000)} h` : `${Math.round(ms / MINUTE)} min`);
  const cutsOf = ({ cuts, place }, height) =>
    cuts.flatMap(({ from, to }) => {
      const x = (place(from) + place(to)) / 2;
      return [drawn("svg", { x: pct(x), y: 0, overflow: "visible" }, drawn("path", { class: "cut", d: `M-5 30V${height - 24}M5 30V${height - 24}` })), word(`nothing for ${spent(to - from)}`, Math.min(Math.max(x, 8), 92), 12, "middle")];
    });

  const tell = (shown, stretches) => `${shown}: ${stretches.map(({ at, look }) => `${WORDS[look]} from ${clock(at)}`).join(", ")}.`;

  // The figure's content; nothing where the page of the job is not known.
  return (whole, energies) => {
    const ordered = { ...whole, events: inOrder(whole.events) };
    const line = inOrder(whole.record.line);
    const start = ordered.events[0].at;
    const ended = ordered.events.find(({ id }) => id === whole.record.end?.id);
    const until = ended?.at ?? ordered.events.at(-1).at;
    const scale = scaleOf([...new Set(ordered.events.map(({ at }) => at).filter((at) => at <= until))]);
    const { place } = scale;
    const rows = energies.map((energy) => ({ ...energy, stretches: stretchesOf(energy.name, line, whole.course, until) }));
    const spells = spellsOf(ordered, until);
    const height = 28 + 34 * rows.length + 24;
    const hands = spells.flatMap(([from, to]) => {
      const [x, wide] = [place(from), Math.max(place(to) - place(from), 0.6)];
      return [drawn("rect", { class: "ink", x: pct(x), y: 25, width: pct(wide), height: 4 }), drawn("svg", { x: pct(Math.min(Math.max(x + wide / 2, 2), 98)), y: 0, overflow: "visible" }, drawn("svg", { x: -12, y: -2, width: 24, height: 24 }, drawn("use", { href: "#i-hand" })))];
    });
    const pipes = rows.flatMap(({ stretches }, i) => stretches.flatMap((one) => pipe(one, 38 + 34 * i, place)));
    const signs = rows.flatMap((row, i) => signsOf(row, row.stretches, ordered, place).map(({ look, x }) => use(look, x, 45 + 34 * i)));
    const told = spells.length ? `Hands in ${spells.map(([from, to]) => `${clock(from)} to ${clock(to)}`).join(", ")}.` : "No step with hands in.";
    const label = [...rows.map(({ shown, stretches }) => tell(shown, stretches)), told].join(" ");
    return [
      made("ul", { className: "names", ariaHidden: "true" }, ...rows.map(({ shown }) => made("li", {}, shown))),
      drawn("svg", { height, role: "img", "aria-label": label }, ...hands, ...pipes, ...cutsOf(scale, height), ...signs, ...axis(start, until, scale, height - 6)),
    ];
  };
})();
