// Which job a sheet is of.
const headline = (() => {
  const facts = ({ job, record, graph }) => {
    const { facts: own } = record;
    const end = record.end?.at ?? record.last;
    const day = dayOf(job.began);
    const last = dayOf(end);
    return {
      machine: [job.appliance, job.model].filter(Boolean).join(" "),
      serial: own.serial || "not noted",
      date: day === last ? day : `${day} to ${last}`,
      place: own.place,
      times: `${clock(job.began)} to ${record.end ? clock(end) : "…"}`,
      page: [job.title ?? graph.title, job.revision && `revision ${job.revision}`].filter(Boolean).join(", "),
      from: own.from?.title,
      complaint: own.complaint && `“${own.complaint}”`,
      reference: own.reference,
    };
  };

  // Each sheet of paper says of which job it is.
  const footer = (words) => {
    const foot = new CSSStyleSheet();
    foot.replaceSync(`@page { margin: 10mm 14mm 14mm; @bottom-left { content: ${JSON.stringify(words)}; font: 9pt sans-serif; } }`);
    document.adoptedStyleSheets = [foot];
  };

  return { facts, footer };
})();
