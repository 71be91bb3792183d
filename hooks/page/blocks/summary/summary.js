// The answers as plain text. Nothing leaves the page unless someone copies, shares, mails or prints it.
const MOST_TOLD = 2000; // characters that the complaint of a job takes

const summaryText = (box, job, way, kept) => {
  const titled = (id) => document.getElementById(`${id}--title`).lastChild.textContent.trim();
  const named = [...box.querySelectorAll("label")].map((label) => [label.textContent, (kept[label.control.name] ?? "").trim()]);
  const head = [box.dataset.told, kept.ended, ...named.filter(([, value]) => value).map((pair) => pair.join(": "))];
  const asked = way.slice(0, -1).filter(({ id }) => !document.getElementById(id).matches(".end")).map(({ id, answer }) => `${titled(id)}\n- ${answer ?? box.dataset.unanswered}`);
  const told = (some, more = []) => [[...head, box.dataset.came.replace("{end}", titled(way.at(-1).id))].join("\n"), ...more, ...some].join("\n\n");
  for (let out = 0; out <= asked.length; out += 1) {
    const text = told(asked.slice(out), out ? [box.dataset.leftOut.replace("{number}", out)] : []);
    if (text.length <= MOST_TOLD) return text;
  }
  return told([]).slice(0, MOST_TOLD);
};

const hourNow = () => {
  const now = new Date();
  return new Date(now - now.getTimezoneOffset() * 60_000).toISOString().slice(0, 16).replace("T", " ");
};

const showSummary = (job, question, kept) => {
  const box = job.querySelector(".summary");
  box.hidden = !question.classList.contains("end");
  if (box.hidden) return delete kept.ended;
  kept.ended ??= hourNow();
  for (const field of box.querySelectorAll("input")) field.value = kept[field.name] ?? "";
  tellSummary(box, job, kept);
};

const tellSummary = (box, job, kept) => {
  const text = summaryText(box, job, kept.way, kept);
  box.querySelector(".told").textContent = text;
  box.querySelector(".outcome").textContent = "";
  const mail = box.querySelector("[data-mail]");
  const subject = encodeURIComponent(box.dataset.told);
  if (mail) mail.href = `mailto:${mail.dataset.mail}?subject=${subject}&body=${encodeURIComponent(text.replaceAll("\n", "\r\n"))}`;
};

const copySummary = async (box) => {
  const told = box.querySelector(".told");
  const outcome = box.querySelector(".outcome");
  try {
    await navigator.clipboard.writeText(told.textContent);
    outcome.textContent = box.dataset.copied;
  } catch {
    getSelection().selectAllChildren(told);
    outcome.textContent = box.dataset.marked;
  }
};

const wireSummary = (job, kept, keep) => {
  const box = job.querySelector(".summary");
  const share = box.querySelector("[data-share]");
  share.hidden = !navigator.share;
  share.addEventListener("click", () => {
    const text = box.querySelector(".told").textContent;
    navigator.share({ title: box.dataset.told, text }).catch(() => {}); // closed without choosing, or refused: the text is still there
  });
  box.querySelector("[data-copy]").addEventListener("click", () => copySummary(box));
  box.querySelector("[data-print-answers]").addEventListener("click", () => {
    job.dataset.printing = "answers";
    print();
  });
  addEventListener("afterprint", () => delete job.dataset.printing);
  box.addEventListener("input", ({ target }) => {
    kept[target.name] = target.value;
    keep();
    tellSummary(box, job, kept);
  });
};
