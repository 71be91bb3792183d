// Printing, and a foot on each sheet: a page's own title and revision cannot stand in a style file.
onJob((job) => {
  const foot = new CSSStyleSheet();
  foot.replaceSync(`@page { @bottom-left { content: ${JSON.stringify(job.dataset.foot ?? "")}; font: 9pt sans-serif; } }`);
  document.adoptedStyleSheets = [foot];
  addEventListener("beforeprint", () => document.querySelectorAll("img[loading]").forEach((image) => (image.loading = "eager")));
  if (job.dataset.prints) return;
  job.dataset.prints = "yes";
  job.addEventListener("click", (event) => {
    if (event.target.closest("[data-print]")) print();
  });
});
