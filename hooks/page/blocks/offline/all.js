// The page "On this device": the machines and pages that are kept, and the page that was looked for in vain.
document.addEventListener("DOMContentLoaded", async () => {
  const box = document.querySelector("[data-kept]");
  if (!box) return;
  const { keeper } = window.stillbench;
  const root = new URL("./", location);
  const said = box.querySelector(".said");
  const wanted = new URLSearchParams(location.search).get("page");

  // A sheet is one of a job, and listed with it.
  const NOT_TO_READ = ["offline.html", "404.html", "job-sheet.html"];
  const plain = (title) => new DOMParser().parseFromString(title, "text/html").body.textContent.replace(/ - [^-]*$/, "");

  const rowOf = ([path, title]) => {
    const link = document.createElement("a");
    link.href = new URL(path.split("/").map(encodeURIComponent).join("/"), root);
    const name = document.createElement("b");
    name.textContent = path === "index.html" ? "Start" : plain(title);
    const row = document.createElement("li");
    link.append(name);
    row.append(link);
    return row;
  };

  if (wanted !== null) {
    const head = box.querySelector("h1");
    head.textContent = head.dataset.missing;
    const again = new URL(wanted.split("/").map(encodeURIComponent).join("/"), root);
    for (const one of box.querySelectorAll(".missing")) {
      one.hidden = false;
      if (again.href.startsWith(root.href)) one.querySelector(".again").href = again;
    }
  }
  const { trouble, sets } = await keeper.ask("ask");
  for (const row of box.querySelectorAll("[data-set]")) row.hidden = !sets?.[row.dataset.set]?.kept;
  const machines = box.querySelectorAll("[data-set]:not([hidden])").length;
  box.querySelector("[data-machines]")?.toggleAttribute("hidden", !machines);
  const { pages = [] } = trouble ? {} : await keeper.ask("kept");
  const read = pages.filter(([path]) => !NOT_TO_READ.includes(path));
  box.querySelector("[data-pages]").replaceChildren(...read.map(rowOf));
  box.querySelector(".pages").hidden = !pages.length;
  const { usage } = (await navigator.storage?.estimate?.()) ?? {};
  const takes = usage ? ` All of it takes ${(usage / 1e6).toFixed(1)} MB.` : "";
  said.textContent = pages.length ? `These open without a network.${takes}` : "No page is kept on this device.";
});
