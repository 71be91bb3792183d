// What a job has come to: its events, taken one after the other along the course of its page.
(() => {
  const stillbench = (window.stillbench ??= {});

  const begun = () => ({
    known: 0, at: 0, trail: [], history: [], steps: new Map(), proofs: {}, readings: new Map(), photos: [], notes: [],
    parts: new Map(), timers: new Map(), stopped: new Map(), line: [], breaks: [], facts: {}, told: "", end: null, handed: null,
  });

  const live = (record) => record.trail.filter((entry) => !entry.undone);

  // The energies after every step that was really done and not taken back.
  const follow = (record, course, known, entry, at) => {
    const before = course.states(known);
    const after = course.after(known, entry.step, entry.verdict);
    const now = course.states(after);
    for (const energy of Object.keys(now)) {
      if (now[energy] !== "proved") delete record.proofs[energy];
      else if (before[energy] !== "proved" || course.nodes.get(entry.step)?.verifies?.includes(energy)) record.proofs[energy] = { step: entry.step, at };
    }
    return after;
  };

  const known = (record, next, at) => {
    record.known = next;
    record.line.push({ at, known: next });
  };

  // Done again from here on: what was ticked after it is of the round before. Nobody took it back: parts stay fitted.
  const supersede = (record, step) => {
    const from = record.trail.findIndex((entry) => entry.step === step && !entry.undone);
    if (from >= 0) for (const entry of record.trail.slice(from)) if (!entry.undone) entry.undone = entry.rounded = true;
  };

  // A wait that was over when a step was ticked is no longer told of.
  const waited = (record, { at }) => {
    for (const [timer, one] of record.timers) if (at - one.at >= one.seconds * 1000) record.timers.delete(timer);
  };

  // Taking a tick back takes back what it made safe; what it turned on stays on.
  const lowers = (course, entry) => entry.verdict === "not proved" || Boolean(course.nodes.get(entry.step)?.restores);

  const again = (record, course) => {
    let next = 0;
    for (const one of record.history) {
      if (one.kind === "away") next = one.stayed ? next : course.away(next);
      else if (!one.passed && (!one.undone || lowers(course, one))) next = follow(record, course, next, one, one.at);
    }
    return next;
  };

  const KINDS = {
    begin: (record, { kind, job, id, at, n, ...facts }) => {
      Object.assign(record.facts, facts);
      known(record, 0, at);
    },
    facts: (record, { facts }) => Object.assign(record.facts, facts),
    done(record, event, course) {
      supersede(record, event.step);
      waited(record, event);
      const entry = { ...event, undone: false, rounded: false };
      record.trail.push(entry);
      record.history.push(entry);
      if (!event.passed) known(record, follow(record, course, record.known, entry, event.at), event.at);
      record.at = event.to ?? event.step;
    },
    go: (record, { to }) => (record.at = to),
    back(record, { to, at }, course) {
      const from = record.trail.findLastIndex((entry) => entry.step === to && !entry.undone);
      if (from >= 0) for (const entry of record.trail.slice(from)) Object.assign(entry, { undone: true, rounded: false });
      record.proofs = {};
      known(record, again(record, course), at);
      record.at = to;
      record.end = null;
    },
    away(record, { at, since }, course) {
      const away = { kind: "away", since, at, known: record.known, proofs: { ...record.proofs }, stayed: false };
      record.breaks.push(away);
      record.history.push(away);
      known(record, course.away(record.known), at);
      record.proofs = {};
    },
    stayed(record, { at }) {
      const last = record.breaks.at(-1);
      if (!last || last.stayed || record.line.at(-1).at !== last.at) return;
      last.stayed = true;
      record.proofs = last.proofs;
      known(record, last.known, at);
    },
    // What was kept before it could be judged, and now is, is one reading; a time that was stopped for it is in it.
    reading(record, event) {
      const all = record.readings.get(event.reading) ?? [];
      const same = all.at(-1)?.text === event.text && !all.at(-1).sentence;
      record.readings.set(event.reading, [...(same ? all.slice(0, -1) : all), event]);
      for (const [timer, { reading }] of record.stopped) if (reading === event.reading) record.stopped.delete(timer);
    },
    photo(record, event) {
      const old = record.photos.findIndex(({ photo }) => photo === event.photo);
      record.photos.splice(old < 0 ? Infinity : old, 1, { ...event, at: record.photos[old]?.at ?? event.at });
    },
    "photo-gone": (record, { photo }) => (record.photos = record.photos.filter((one) => one.photo !== photo)),
    // A step has one note: its last words.
    note: (record, event) => (record.notes = [...record.notes.filter(({ step }) => step !== event.step), ...(event.text ? [event] : [])]),
    part: (record, { name, number, state }) => record.parts.set(name, { name, number, state }),
    told: (record, { text }) => (record.told = text),
    timer: (record, { timer, step, at, seconds, reading }) => record.timers.set(timer, { step, at, seconds, reading }),
    "timer-stop": (record, { timer, ...stop }) => record.timers.delete(timer) && "seconds" in stop && record.stopped.set(timer, stop),
    end: (record, event) => (record.end = event),
    handed: (record, { to }) => (record.handed = to),
  };

  stillbench.record = (course, events) => {
    const record = begun();
    for (const event of events) KINDS[event.kind]?.(record, event, course);
    for (const entry of record.trail) record.steps.set(entry.step, entry);
    record.last = events.at(-1)?.at ?? 0;
    record.live = live(record);
    return record;
  };
})();
