// Of several fields, which are still to be typed: said once one of them was.
const remind = (reading, missing) => {
  const todo = reading.querySelector(".todo");
  if (!todo) return;
  todo.dataset.bare ??= todo.textContent;
  const begun = [...reading.querySelectorAll(".gauge input")].some((input) => input.value.trim());
  const labels = missing.map((input) => input.labels[0].textContent.toLowerCase());
  todo.textContent = begun ? `Still to type: ${labels.join("; ")}.` : todo.dataset.bare;
};

// One more row of the fields that may be typed several times; gives its fields.
const moreRows = (entries) => {
  const first = entries.querySelectorAll(".many:not(.added)");
  const row = entries.querySelectorAll(".added").length / first.length + 2;
  const made = [...first].map((entry) => {
    const more = entry.cloneNode(true);
    more.classList.add("added");
    const input = more.querySelector("input");
    input.value = "";
    input.id += `--${row}`;
    more.querySelector("label").htmlFor = input.id;
    more.querySelector("label").append(`, ${row}`);
    entries.querySelector("[data-again]").before(more);
    return input;
  });
  entries.dispatchEvent(new CustomEvent("stillbench:rows", { bubbles: true }));
  return made;
};

// The field of a reading: what stands in it is ready to be typed over, and its verdict and ways come into view
// before anything is typed, so that nothing moves when the verdict comes.
onJob((job) => {
  if (job.dataset.fields) return;
  job.dataset.fields = "yes";

  const inView = (reading) => {
    const last = reading.closest(".step").querySelector(".ways .way") ?? reading;
    const top = job.querySelector(".board").getBoundingClientRect().bottom;
    const bottom = document.querySelector(".bar").getBoundingClientRect().top;
    return reading.getBoundingClientRect().top >= top && last.getBoundingClientRect().bottom <= bottom;
  };

  job.addEventListener("focusin", ({ target }) => {
    const reading = target.matches(".field input") && target.closest(".reading");
    if (!reading) return;
    // A digit that was typed before the turn of this came is not typed over.
    const stood = target.value;
    setTimeout(() => target.value === stood && target.select());
    if (!inView(reading)) reading.scrollIntoView();
  });

  job.addEventListener("click", ({ target }) => {
    const again = target.closest("[data-again]");
    if (again) moreRows(again.closest(".entries"))[0].focus();
  });

  job.addEventListener("click", ({ target }) => {
    const key = target.closest("[data-type]");
    if (!key) return;
    const input = key.closest(".field").querySelector("input");
    input.value = key.dataset.type;
    input.dispatchEvent(new Event("input", { bubbles: true }));
  });

  // What no calculator judges is still said again where it is decided about.
  job.addEventListener("input", ({ target }) => {
    const reading = target.closest(".reading:not([data-calculator])");
    if (!reading) return;
    const read = target.value.trim();
    const unit = reading.querySelector(".field .unit").textContent;
    for (const line of job.querySelectorAll(`[data-judged="${CSS.escape(reading.dataset.reading)}"]`)) {
      line.querySelector(".word").textContent = read ? `${read} ${unit}` : "not read yet";
    }
  });
});
