// What was typed into a field, with the unit that is chosen beside it where a number stands alone; of several
// values parted by semicolons, each has its own.
const typedText = (input) => {
  const unit = input.parentElement.querySelector("select.unit")?.value;
  const bare = (text) => text && !/[\p{L}°%∞"'″]/u.test(text.replace(/e[-+−]?\d+$/i, ""));
  const whole = (text) => (bare(text) && unit ? `${text} ${unit}` : text);
  return input.value.split(";").map((text) => whole(text.trim())).join("; ").trim();
};

// Puts such a text back, its unit picked beside it.
const typeBack = (input, text) => {
  const select = input.parentElement.querySelector("select.unit");
  const parts = text.split("; ");
  const unit = [...(select?.options ?? [])].findIndex(({ value }) => parts.every((part) => part.endsWith(` ${value}`)));
  if (unit >= 0) select.selectedIndex = unit;
  input.value = unit < 0 ? text : parts.map((part) => part.slice(0, -select.value.length - 1)).join("; ");
};

// What stands in the fields of a reading, by name.
const typedFields = (reading) => {
  const fields = {};
  for (const input of reading.querySelectorAll(".gauge input")) (fields[input.name] ??= []).push(typedText(input));
  return fields;
};
// Why a calculator judged nothing, where what was typed is not to blame; else "".
const unjudged = ({ refused }) => refused.find(({ field }) => !field)?.message ?? "";
const typedTexts = (reading) => Object.values(typedFields(reading)).flat().filter(Boolean).join(", ");
