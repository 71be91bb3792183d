// Whether data is as a JSON Schema has it: the part of draft 2020-12 that the schema of a saved job uses.
(() => {
  const isObject = (data) => data !== null && typeof data === "object" && !Array.isArray(data);
  const TYPES = {
    array: Array.isArray,
    boolean: (data) => typeof data === "boolean",
    integer: Number.isInteger,
    null: (data) => data === null,
    number: (data) => typeof data === "number",
    object: isObject,
    string: (data) => typeof data === "string",
  };
  const long = (text, most) => text.length > most && [...text].length > most;
  const first = (list, find) => {
    for (const one of list) {
      const found = find(one);
      if (found) return found;
    }
    return "";
  };

  // Each gives what is wrong, or nothing; what a keyword does not speak of it lets pass.
  const KEYWORDS = {
    $ref: (at, data, ref, look) => look(ref.split("/").slice(1).reduce((place, key) => place[key], look.root), data, at),
    type: (at, data, types) => ![types].flat().some((type) => TYPES[type](data)) && `${at} is not of the right kind`,
    const: (at, data, only) => data !== only && `${at} is not “${only}”`,
    enum: (at, data, those) => !those.includes(data) && `${at} is not one of the words that are known`,
    minimum: (at, data, least) => typeof data === "number" && data < least && `${at} is too small`,
    maximum: (at, data, most) => typeof data === "number" && data > most && `${at} is too large`,
    maxLength: (at, data, most) => typeof data === "string" && long(data, most) && `${at} is too long`,
    pattern: (at, data, form) => typeof data === "string" && !new RegExp(form, "u").test(data) && `${at} is not of the right form`,
    minItems: (at, data, least) => Array.isArray(data) && data.length < least && `${at} is empty`,
    maxItems: (at, data, most) => Array.isArray(data) && data.length > most && `${at} has too many entries`,
    items: (at, data, each, look) => Array.isArray(data) && first(data.entries(), ([i, one]) => look(each, one, `${at}/${i}`)),
    maxProperties: (at, data, most) => isObject(data) && Object.keys(data).length > most && `${at} has too many entries`,
    required: (at, data, names) => isObject(data) && first(names, (name) => !Object.hasOwn(data, name) && `${at}/${name} is missing`),
    propertyNames: (at, data, form, look) => isObject(data) && first(Object.keys(data), (name) => look(form, name, `${at}: the name of an entry`)),
    properties: (at, data, known, look) =>
      isObject(data) && first(Object.keys(known), (name) => Object.hasOwn(data, name) && look(known[name], data[name], `${at}/${name}`)),
    additionalProperties(at, data, others, look, schema) {
      if (!isObject(data)) return "";
      const rest = Object.keys(data).filter((name) => !Object.hasOwn(schema.properties ?? {}, name));
      return first(rest, (name) => (others === false ? `${at} has an entry that is not known` : look(others, data[name], `${at}/${name}`)));
    },
    allOf: (at, data, all, look) => first(all, (one) => look(one, data, at)),
    if: (at, data, when, look, schema) => !look(when, data, at) && look(schema.then, data, at),
  };

  // The first thing that is wrong with the data, as words with its place; "" where nothing is.
  stillbench.wrong = (schema, data) => {
    const look = (part, value, at) =>
      first(Object.keys(part), (keyword) => Object.hasOwn(KEYWORDS, keyword) && KEYWORDS[keyword](at, value, part[keyword], look, part));
    look.root = schema;
    return look(schema, data, "").replace(/^\//, "") || "";
  };
  stillbench.wrong.keywords = Object.keys(KEYWORDS);
})();
