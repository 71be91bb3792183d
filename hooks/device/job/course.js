// Follows the energies of a job by the tables of its page: what is known is a number in them.
// No rule about energy stands here; what is in no table counts as the start: everything on.
(() => {
  const stillbench = (window.stillbench ??= {});

  stillbench.course = (graph, model) => {
    const machine = graph.machines?.find(({ models }) => models.includes(model) || models.includes(""));
    const nodes = new Map(graph.nodes.map((node) => [node.number, node]));
    const table = machine ?? { known: [{}], away: [0], acts: {}, fits: {}, boards: { "": [] } };
    const edges = graph.edges.filter(({ models }) => !models?.length || models.includes(model));
    const next = new Map([...nodes.keys(), 0].map((number) => [number, []]));
    for (const { from, to } of edges) next.get(from)?.push(to);

    return {
      nodes,
      edges,
      states: (known) => table.known[known] ?? table.known[0],
      // What is known after a step was done; `proof` says how its proof ended.
      after(known, number, proof) {
        const ends = table.acts[number];
        if (!ends) return known;
        return (ends[""] ?? ends[proof === "proved" ? "proved" : "not proved"])?.[known] ?? 0;
      },
      away: (known) => table.away[known] ?? 0,
      fits: (known, number) => table.fits[number]?.includes(known) ?? false,
      board: (known, number) => table.boards[number]?.[known] ?? table.boards[""][known] ?? table.boards[""][0],
      // The edges over which the steps that this model lacks are passed, from one on.
      passing(from) {
        const passed = [];
        const over = (at) => (this.fitted(at) ? null : edges.find((edge) => edge.from === at && edge.words.startsWith("not on")));
        for (let edge = over(from); edge; edge = over(edge.to)) passed.push(edge);
        return passed;
      },
      fitted: (number) => nodes.get(number)?.fitted?.includes(model) ?? true,
      // The steps that can still come, with the one at which the job stands.
      ahead(at) {
        const seen = new Set([at]);
        for (const number of seen) for (const to of next.get(number) ?? []) seen.add(to);
        return seen;
      },
    };
  };
})();
