// One field: its label, the value as people write it, what is wrong with it, and what there is to know.

import { h, shape } from "./dom.js";
import * as model from "./model.js";

const FEW = 5;
const UNSTATED = "not stated";

export function drawEntry(job, name, spec, path) {
  const id = `f:${path}`;
  const label = model.spoken(name);
  const mistake = h("div", { class: "mistake", id: `${id}:wrong`, hidden: true });
  const found = h("div", { class: "finds" });
  const about = h("p", { class: "says soft", id: `${id}:about` }, spec.about);
  const locked = lockedBy(job, path);
  const input = locked ? null : control(job, spec, path, id, label);
  const grouped = input?.tagName === "FIELDSET";
  const more = further(job, spec, path, id);
  const element = h("div", { class: "field", "data-field": path },
    h("div", { class: "head" },
      grouped || !input ? h("span", { class: "label", id: `${id}:label` }, label) : h("label", { for: id, class: "label" }, label),
      tag(job, spec, path), more.button),
    about,
    planned(job, spec, path, () => set(textOfPlan(job, path))),
    locked ? h("p", { class: "soft" }, locked) : input,
    mistake, found, more.element);

  function set(text) {
    job.type(path, withOrigin(job.value(path), text), { redraw: true });
  }

  return {
    element,
    mark(entries, findings) {
      const waits = entries.length > 0;
      mistake.hidden = !waits;
      const target = grouped ? input : element.querySelector(`[id="${CSS.escape(id)}"]`);
      if (target) {
        target.setAttribute("aria-invalid", String(waits));
        target.setAttribute("aria-describedby", waits ? `${id}:about ${id}:wrong` : `${id}:about`);
      }
      if (waits) mistake.replaceChildren(...entries.map((e) => told(job, spec, path, e, set)));
      found.replaceChildren(...findings.map(([key, finding]) => h("button", { type: "button", class: `find g-${finding.grade}`, onclick: () => job.panel.focusFinding(key) },
        shape(job.form, finding.grade), h("span", { class: "grade" }, finding.grade), " ", finding.title)));
    },
  };
}

/** What is wrong, in the words of the command line, and the nearest right thing to tap. */
function told(job, spec, path, entry, set) {
  const typed = model.textOf(job.value(path));
  const hints = [];
  const near = entry.hint.match(/^did you mean '([^']+)'(?: or '([^']+)')?/);
  if (/without a unit|has no unit/.test(entry.what) && spec.units) {
    hints.push(...spec.units.map((u) => [u, `${typed.trim()} ${u}`]));
  } else if (near && /unknown unit '/.test(entry.what)) {
    const wrong = entry.what.match(/unknown unit '([^']+)'/)[1];
    for (const unit of near.slice(1).filter(Boolean)) hints.push([typed.replace(wrong, unit), typed.replace(wrong, unit)]);
  } else if (near) {
    for (const word of near.slice(1).filter(Boolean)) hints.push([word, word]);
  } else if (/comma/.test(entry.what)) {
    const point = typed.replace(",", ".");
    const none = typed.replaceAll(",", "");
    for (const text of /\d,\d{3}(?!\d)/.test(typed) ? [none, point] : [point]) hints.push([text, text]);
  } else {
    // Only what is made of the digits that were typed: other examples show a form, not a value.
    const digits = (text) => text.replace(/\D/g, "");
    for (const match of entry.hint.matchAll(/'([^']+)'/g)) {
      if (digits(typed) && digits(match[1]) === digits(typed)) hints.push([match[1], match[1]]);
    }
  }
  return h("div", {},
    h("p", {}, entry.what, entry.hint ? h("span", { class: "soft" }, `: ${entry.hint}`) : ""),
    hints.length ? h("div", { class: "pills" }, hints.slice(0, 8).map(([text, whole]) => h("button", { type: "button", class: "pill", onclick: () => set(whole) }, text))) : null);
}

function withOrigin(value, text) {
  const origin = model.originOf(value);
  return origin && text ? { is: text, origin } : text;
}

function textOfPlan(job, path) {
  return model.textOf(job.planned(path));
}

/** Why a value cannot be given here: what only the plan can name. */
function lockedBy(job, path) {
  if (!job.plan) return "";
  const member = path.match(/^(.*\[\d+\])\.[^[\]]+$/)?.[1];
  for (const one of job.nameless) {
    if (path.startsWith(`${one}.`)) return "Name it in the plan first, each by its own name: only then can what was found on site be told apart.";
  }
  if (member) {
    const list = member.slice(0, member.lastIndexOf("["));
    const naming = model.specAt(job.form, list)?.naming;
    if (path === `${member}.${naming}` && model.said(job.planned(path))) return `Named in the plan: ${textOfPlan(job, path)}.`;
  }
  return "";
}

function planned(job, spec, path, take) {
  if (!job.plan) return null;
  const was = textOfPlan(job, path);
  const moved = job.around.moved.find((m) => m.path === path);
  return h("div", { class: `planned ${moved ? "moved" : ""}` },
    h("span", {}, "Planned: ", h("strong", { dir: "auto" }, said(was, spec) || UNSTATED)),
    was && !model.said(job.value(path)) && !lockedBy(job, path) ? h("button", { type: "button", class: "quiet", onclick: take }, "As planned") : null,
    moved ? h("span", { class: "moved-by" }, ` Moved: ${moved.change}${moved.beyond ? ", outside the tolerance of the plan" : ""}`) : null,
    moved ? moved.grades.filter((g) => g.was !== "not-applicable" || g.now !== "met").map((g) => h("p", { class: "soft" }, shape(job.form, g.now), ` ${job.form.rules[g.rule.replace(/\[\d+\]$/, "")] || g.rule}: ${g.was} → ${g.now}`)) : null);
}

function said(text, spec) {
  if (spec.type === "flag") return { true: "yes", false: "no" }[text] ?? text;
  return text;
}

function tag(job, spec, path) {
  const need = job.need(path);
  if (!need) return job.around.needs ? h("span", { class: "tag" }, "not asked for") : null;
  if (need[0] && !spec.required) return h("span", { class: "tag" }, "may be left out");
  return null;
}

/** The control itself: what people write, choose or tick. */
function control(job, spec, path, id, label) {
  const value = job.value(path);
  const text = model.textOf(value);
  const describedby = `${id}:about`;
  if (spec.type === "flag") {
    return pills(job, path, id, label, [["true", "yes"], ["false", "no"]], text, (t) => (t === "true" ? true : t === "false" ? false : ""));
  }
  if (spec.type === "choice" && spec.choices.length <= FEW && (!text || spec.choices.includes(text))) {
    return pills(job, path, id, label, spec.choices.map((c) => [c, c.replaceAll("-", " ")]), text, (t) => t);
  }
  if (spec.type === "choice") {
    const odd = text && !spec.choices.includes(text);
    return h("select", { id, "aria-describedby": describedby, onchange: (e) => job.type(path, e.target.value) },
      h("option", { value: "", selected: !text }, UNSTATED),
      odd ? h("option", { value: text, selected: true }, text) : null,
      spec.choices.map((c) => h("option", { value: c, selected: c === text }, c.replaceAll("-", " "))));
  }
  const dated = spec.type === "date" && (!text || /^\d{4}-\d{2}-\d{2}$/.test(text));
  const input = h("input", {
    id, type: dated ? "date" : "text", value: text, autocomplete: "off", autocapitalize: "off", spellcheck: spec.type === "text" ? null : "false",
    "aria-describedby": describedby, dir: spec.type === "text" ? "auto" : null,
    inputmode: spec.type === "count" ? "numeric" : spec.type === "number" ? "decimal" : null,
    placeholder: spec.type === "quantity" ? spec.unit : null,
  });
  input.addEventListener("input", () => {
    const typed = input.value;
    job.type(path, spec.type === "quantity" ? withOrigin(job.value(path), typed) : typed);
  });
  if (spec.type !== "quantity") return input;
  return h("div", { class: "written" }, input, origin(job, spec, path, id, label));
}

/** Where a value comes from; shown beside it once there is a value. */
function origin(job, spec, path, id, label) {
  const value = job.value(path);
  const chosen = model.originOf(value);
  const select = h("select", { id: `${id}:origin`, "aria-label": `Where ${label} comes from`, class: chosen ? "" : "unset", onchange: () => {
    const text = model.textOf(job.value(path));
    select.className = select.value ? "" : "unset";
    job.type(path, select.value ? { is: text, origin: select.value } : text);
  } }, h("option", { value: "" }, "from where"), job.form.origins.map((o) => h("option", { value: o, selected: o === chosen }, o)));
  return select;
}

function pills(job, path, id, label, choices, text, valueOf) {
  const fieldset = h("fieldset", { class: "pills choices", id, "aria-describedby": `${id}:about` }, h("legend", { class: "unseen" }, label));
  for (const [word, shown] of [...choices, ["", UNSTATED]]) {
    const radio = h("input", { type: "radio", name: id, id: `${id}:${word || "none"}`, value: word, checked: word === text, onchange: () => job.type(path, valueOf(word)) });
    fieldset.append(h("label", { class: word ? "pill" : "pill none" }, radio, h("span", {}, shown)));
  }
  return fieldset;
}

/** What a tap on '?' tells: where to get it, how to write it, its usual range, who reads it. */
function further(job, spec, path, id) {
  const element = h("div", { class: "further", id: `${id}:more`, hidden: true });
  const button = h("button", { type: "button", class: "quiet ask", "aria-expanded": "false", "aria-controls": `${id}:more`, "aria-label": `About ${path.replace(/^.*\./, "").replaceAll("_", " ")}` }, "?");
  button.addEventListener("click", () => {
    element.hidden = !element.hidden;
    button.setAttribute("aria-expanded", String(!element.hidden));
    if (!element.hidden && !element.children.length) element.append(...tell(job, spec, path));
  });
  return { element, button };
}

function tell(job, spec, path) {
  const need = job.need(path);
  const rules = spec.rules || [];
  const lines = [];
  if (spec.where) lines.push(["Where to get it", spec.where]);
  if (spec.how) lines.push(["Kind of value", spec.how]);
  if (spec.usual) lines.push(["Usually", `${spec.usual}. Outside of that it is kept, and asked about in the check.`]);
  if (spec.type === "quantity") {
    lines.push(["Units", spec.units.join(", ")]);
    lines.push(["How sure", `With its tolerance: 28 ${spec.unit} ± 0.5 ${spec.unit}, or 26..30 ${spec.unit}. The check looks at the worst of that range.`]);
  }
  if (need?.[1]) lines.push(["Only where", need[1]]);
  lines.push(["Name in the file", path]);
  return [
    h("dl", {}, lines.map(([term, text]) => [h("dt", {}, term), h("dd", {}, text)])),
    spec.type === "quantity" ? tolerance(job, path) : null,
    h("details", {}, h("summary", {}, rules.length ? `Checks that use it: ${rules.length}` : "No check uses it; it is for the record."),
      h("ul", {}, rules.map((r) => h("li", {}, job.form.rules[r] || r, h("span", { class: "soft" }, ` ${r}`))))),
  ].filter(Boolean);
}

/** The tolerance on its own, for those who would not write the sign. */
function tolerance(job, path) {
  const id = `f:${path}:tolerance`;
  const halves = model.textOf(job.value(path)).split("±");
  return h("p", { class: "labelled" }, h("label", { for: id }, "Give or take (±)"),
    h("input", { id, type: "text", autocomplete: "off", value: (halves[1] || "").trim(), onchange: (e) => {
      const base = model.textOf(job.value(path)).split("±")[0].trim();
      const text = e.target.value.trim() ? `${base} ± ${e.target.value.trim()}` : base;
      job.type(path, withOrigin(job.value(path), text), { redraw: true });
    } }));
}
