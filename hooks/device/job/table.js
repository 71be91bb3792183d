// The readings of a job as a table for spreadsheets: RFC 4180, and no cell that a spreadsheet would work out.
(() => {
  const NUMBER = /^[-+]?\d+(\.\d+)?(e[-+]?\d+)?$/i;
  const FORMULA = /^\s*[=+\-@\t\r\n＝＋－＠]/u;
  const FACTS = ["reference", "place", "model", "serial", "title", "revision"];
  const READING = [
    "step", "label", "text", "unit", "low", "high", "verdict", "sentence", "value", "uncertainty", "valueUnit",
    "meter", "calculator", "version", "reading",
  ];

  const cell = (data) => {
    const text = String(data ?? "");
    const inert = FORMULA.test(text) && !NUMBER.test(text) ? `'${text}` : text;
    return /[",\r\n]/.test(inert) || inert !== inert.trim() ? `"${inert.replaceAll('"', '""')}"` : inert;
  };

  stillbench.table = ({ job, record }) => {
    const all = [...record.readings.values()].flatMap((ones) => ones.map((one) => ({ ...one, stands: one === ones.at(-1) ? "yes" : "no" })));
    const head = [...FACTS, "time", "stands", ...READING];
    const line = (one) => [...FACTS.map((name) => job[name]), new Date(one.at).toISOString(), one.stands, ...READING.map((name) => one[name])];
    const rows = all.sort((a, b) => a.at - b.at).map(line);
    return [head, ...rows].map((row) => `${row.map(cell).join(",")}\r\n`).join("");
  };

  // A spreadsheet takes it for UTF-8 by its first mark.
  stillbench.saveTable = async (id) => {
    const whole = await stillbench.whole(id);
    if (!whole) return;
    const blob = new Blob(["\ufeff", stillbench.table(whole)], { type: "text/csv;charset=utf-8" });
    stillbench.download(blob, stillbench.fileName(whole.job, "csv"));
  };
})();
