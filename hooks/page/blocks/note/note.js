// A step's note: kept when it rests, shown again where the step is opened.
onJob((article) => {
  if (!article.matches(".procedure") || article.dataset.notes) return;
  article.dataset.notes = "yes";
  const { desk } = stillbench;
  const numberOf = (place) => Number(place.closest(".step").dataset.number);
  const keptOf = (place) => desk.record.notes.find(({ step }) => step === numberOf(place))?.text ?? "";

  settle(article, ".record .note", async (note) => {
    const text = note.querySelector("textarea").value.trim();
    if (text === keptOf(note)) return;
    note.shown = text;
    await desk.act("note", { step: numberOf(note), text });
  });

  onRecord(article, (step, place) => {
    const note = place.querySelector(".note");
    const field = note.querySelector("textarea");
    const text = keptOf(note);
    if (field.value.trim() !== (note.shown ?? "")) return;
    note.shown = text;
    if (field.value.trim() !== text) field.value = text;
    if (text) note.open = true;
  });
});
