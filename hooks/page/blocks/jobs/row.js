// A job in a list: which it is, where it stands, what can be done with it.
const jobRow = (() => {
  const button = (act, text) => made("button", { type: "button", data: { act } }, text);

  const acts = (job) => {
    const place = job.end ? null : placeOf(job);
    const on = place ? [made("a", { className: "main", href: place }, "Go on")] : [];
    return made("p", { className: "acts" }, ...on, made("a", { href: sheetOf(job) }, "Job sheet"), button("save", "Save to a file"), button("ask", "Delete for good"));
  };

  // Asked once more, in the place of what was pressed.
  const sure = (job, events, photos) => {
    const [entries, pictures] = [`${events} ${events === 1 ? "entry" : "entries"}`, `${photos} ${photos === 1 ? "photo" : "photos"}`];
    const text = made("p", {}, made("b", {}, "Delete this job for good?"), ` Its ${entries} and ${pictures} go, from this device. What was not saved to a file is nowhere else.`);
    return made("div", { className: "sure", data: { lost: `${entries} and ${pictures}` } }, text, made("p", { className: "acts" }, button("delete", "Delete it"), button("keep", "Keep it")));
  };

  const row = async (job) => {
    const said = made("p", { className: "which" }, made("b", {}, nameOf(job)), made("span", {}, await standingOf(job)));
    return made("li", { data: { job: job.id } }, said, acts(job));
  };

  return { row, acts, sure };
})();

// What is said of a device that keeps nothing.
const STORAGE = {
  full: "This device is full. What is done now is not kept: save the job to a file, make room, then go on.",
  refused: "This browser keeps nothing here. What is done is lost when the page is closed: save the job to a file before that.",
  silent: "This device does not answer. It is asked again and again; what it has kept is not lost by that. If it stays so, close the browser and open it anew.",
  wiped: "The device has forgotten this job. What is still open in a page can be saved to a file there.",
};
