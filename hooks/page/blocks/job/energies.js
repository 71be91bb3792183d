// The board of a job: drawn for what is known now, with the steps that proved it and when.
onJob(() => {
  const { desk } = stillbench;
  if (desk.missing) return;
  const plain = { of: board.of, show: board.show };
  const opened = () => desk.course && desk.record && document.querySelector(".job").dataset.desk === "open";

  desk.named = (energy) => document.querySelector(`.board [data-energy="${energy}"] .name`)?.textContent.toLowerCase() ?? energy;

  // The step that proves an energy: the next one on the page, else the last one before.
  const proofOf = (energy, number) => {
    const all = [...desk.course.nodes.values()].filter((node) => node.verifies?.includes(energy) && desk.course.fitted(node.number));
    return (all.find((node) => node.number >= number) ?? all.at(-1))?.number;
  };

  // What is not proved off now, in words, and the first step that would prove it.
  desk.missing = (number) => {
    const states = Object.entries(desk.course.states(desk.record.known)).filter(([, state]) => state !== "proved");
    const names = states.map(([energy]) => desk.named(energy));
    const proofs = states.map(([energy]) => proofOf(energy, 1)).filter(Boolean);
    return [names.length > 1 ? `${names.slice(0, -1).join(", ")} and ${names.at(-1)} are` : `${names[0]} is`, Math.min(...proofs, number) === number ? proofs[0] : Math.min(...proofs)];
  };

  board.of = (place) => {
    if (!opened()) return plain.of(place);
    return desk.course.board(desk.record.known, Number(place.dataset.number ?? 0));
  };

  const link = (number, text) => Object.assign(document.createElement("a"), { href: `#${document.querySelector(`.step[data-number="${number}"]`).id}`, textContent: text });

  board.show = (job, id) => {
    plain.show(job, id);
    if (!opened()) return;
    const at = Number(job.querySelector("[data-open]")?.dataset.number ?? 0);
    const states = desk.course.states(desk.record.known);
    for (const line of job.querySelectorAll(".board .line[data-energy]")) {
      const { energy } = line.dataset;
      const words = line.querySelector("p");
      for (const old of words.querySelectorAll("a, .at")) old.remove();
      const proof = desk.record.proofs[energy];
      const wanted = !proof && ["off", "released"].includes(states[energy]) && proofOf(energy, at);
      if (proof) words.append(" ", link(proof.step, `step ${proof.step}`), Object.assign(document.createElement("span"), { className: "at", textContent: ` ${clock(proof.at)}` }));
      else if (wanted) words.append(" ", link(wanted, `prove it: step ${wanted}`));
    }
    board.fit(job.querySelector(".board"));
  };
});
