// The board is true for who followed the ways of the page. Who came to a step otherwise, from a search, a link
// or the list of steps, is told so; going back is no other way unless something was turned on in between.
onJob((job) => {
  const told = job.querySelector(".arrival");
  if (!told || told.dataset.watches) return;
  told.dataset.watches = "yes";
  const { nodes, edges } = JSON.parse(document.getElementById("graph").textContent);
  const known = new Map(nodes.map((node) => [node.id, node]));
  let trail = [{ number: 0 }];

  const leads = (from, to) => edges.some((edge) => edge.from === from && edge.to === to);

  const arrive = (id) => {
    const { number, restores } = known.get(id) ?? { number: 0 };
    const here = trail.at(-1);
    const before = trail.findLastIndex((place) => place.number === number);
    if (!number) trail = [{ number }];
    else if (leads(here.number, number)) trail.push({ number, restores, straight: here.straight });
    else if (before > 0 && !trail.slice(before).some((place) => place.restores)) trail.length = before + 1;
    else trail.push({ number, restores, straight: true });
    tell(trail.at(-1).straight);
  };

  const tell = (straight) => {
    told.hidden = !straight;
    board.fit(told.closest(".board"));
  };

  told.querySelector("button").addEventListener("click", () => {
    for (const place of trail) place.straight = false;
    tell(false);
  });
  job.addEventListener("stillbench:open", (event) => arrive(event.detail.step));
});
