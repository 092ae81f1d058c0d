// The tree of what is typed, and the ways into it: "mount.fixings[0].thread".

export const PLACE = "#";

/** "a.b[0].c" as ["a", "b", 0, "c"]. */
export function parts(path) {
  const found = [];
  for (const word of path.split(".")) {
    const [name, ...members] = word.split("[");
    if (name) found.push(name);
    for (const member of members) found.push(Number.parseInt(member, 10));
  }
  return found;
}

export function at(tree, path) {
  let value = tree;
  for (const part of parts(path)) {
    if (value === null || value === undefined || typeof value !== "object") return undefined;
    value = Object.hasOwn(value, part) ? value[part] : undefined;
  }
  return value ?? undefined;
}

export function put(tree, path, value) {
  const way = parts(path);
  const last = way.pop();
  let box = tree;
  way.forEach((part, i) => {
    const next = i + 1 < way.length ? way[i + 1] : last;
    if (box[part] === null || typeof box[part] !== "object") box[part] = typeof next === "number" ? [] : {};
    box = box[part];
    if (Array.isArray(box)) while (typeof next === "number" && box.length < next) box.push({});
  });
  if (value === undefined || value === "") delete box[last];
  else box[last] = value;
}

/** The members of all lists of a tree, each with its place in its list. */
export function members(tree, found = []) {
  if (Array.isArray(tree)) {
    tree.forEach((member, i) => {
      if (member && typeof member === "object") found.push([member, i]);
      members(member, found);
    });
  } else if (tree && typeof tree === "object") {
    for (const value of Object.values(tree)) members(value, found);
  }
  return found;
}

/** Whether anything is stated in a part of the tree. */
export function said(value) {
  if (value === undefined || value === null || value === "") return false;
  if (Array.isArray(value)) return true;
  if (typeof value === "object") return Object.entries(value).some(([k, v]) => k !== PLACE && said(v));
  return true;
}

export function copy(tree) {
  return tree === undefined ? undefined : JSON.parse(JSON.stringify(tree));
}

/** The differences of two trees as [path, one, other], lists member by member. */
export function differences(one, other, path = "", found = []) {
  const group = (v) => v !== null && typeof v === "object";
  if (group(one) && group(other)) {
    for (const key of new Set([...Object.keys(one), ...Object.keys(other)])) {
      if (key === PLACE) continue;
      const below = Array.isArray(one) || Array.isArray(other) ? `${path}[${key}]` : path ? `${path}.${key}` : key;
      differences(one[key], other[key], below, found);
    }
  } else if (group(one) && said(one)) differences(one, {}, path, found);
  else if (group(other) && said(other)) differences({}, other, path, found);
  else if (String(one ?? "") !== String(other ?? "") && (said(one) || said(other))) found.push([path, one, other]);
  return found;
}

/** The text of a value, whichever way it is stated. */
export function textOf(value) {
  if (value === undefined || value === null) return "";
  if (typeof value === "object") return Array.isArray(value) ? `${value.length} in the list` : textOf(value.is);
  return String(value);
}

export function originOf(value) {
  return value && typeof value === "object" && !Array.isArray(value) ? textOf(value.origin) : "";
}

/** What a field, section or list is, by its path. */
export function specAt(form, path) {
  let spec = form.fields;
  for (const part of parts(path)) {
    if (typeof part === "number") spec = spec.item;
    else spec = spec?.children && Object.hasOwn(spec.children, part) ? spec.children[part] : undefined;
    if (!spec) return undefined;
  }
  return spec;
}

export const general = (path) => path.replace(/\[\d+\]/g, "[]");

const CAPITALS = new Map(["gfci", "rcd", "nfpa", "niosh"].map((w) => [w, w.toUpperCase()]));

/** "retained_liquid" as "Retained liquid". */
export function spoken(name) {
  const text = name.split("_").map((w) => CAPITALS.get(w) ?? w).join(" ");
  return text.slice(0, 1).toUpperCase() + text.slice(1);
}

/** A path in words, members of lists by their names. */
export function words(form, tree, path, plan = null) {
  const found = [];
  let way = "";
  for (const part of parts(path)) {
    if (typeof part === "number") {
      const list = way;
      way = `${way}[${part}]`;
      found.push(nameOf(form, tree, list, part, plan));
    } else {
      way = way ? `${way}.${part}` : part;
      found.push(spoken(part));
    }
  }
  return found.join(" › ");
}

/** What a member of a list is called. */
export function nameOf(form, tree, list, index, plan = null) {
  const naming = specAt(form, list)?.naming;
  const own = naming ? textOf(at(tree, `${list}[${index}].${naming}`)) || textOf(plan ? at(plan, `${list}[${index}].${naming}`) : "") : "";
  return own || `no. ${index + 1}`;
}

/** Why a field is asked for, or undefined; a member that nobody described stands for any. */
export function needOf(needs, path) {
  if (!needs) return undefined;
  let head = path;
  let tail = "";
  for (;;) {
    if (Object.hasOwn(needs, head + tail)) return needs[head + tail];
    const open = head.lastIndexOf("[");
    if (open < 0) return undefined;
    tail = `[]${head.slice(head.indexOf("]", open) + 1)}${tail}`;
    head = head.slice(0, open);
  }
}
