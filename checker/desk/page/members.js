// A list: its members one below the other, added, ordered and taken out by hand.

import { h, note } from "./dom.js";
import * as model from "./model.js";

export function drawList(job, name, spec, path, level, group) {
  const own = job.value(path);
  const plan = job.planned(path) || [];
  const count = Math.max(own?.length || 0, plan.length);
  const label = model.spoken(name);
  const heading = `h${Math.min(level, 6)}`;
  const members = [];
  for (let i = 0; i < count; i += 1) members.push(drawMember(job, spec, path, i, count, plan, group));
  const blank = count > 0 && !plan.length && !own.some(model.said);
  const stated = own !== undefined && own !== null && !blank;
  const none = (text) => (text || "").replaceAll("[]", "'There is none'");
  const first = blank || !count;
  return h("section", { class: "group list", "aria-label": label, "data-field": path },
    h(heading, {}, label, h("span", { class: "soft" }, first ? (stated ? " none" : " not stated") : ` ${count}`)),
    h("p", { class: "soft" }, none(spec.about)),
    spec.where ? h("p", { class: "soft" }, `Where to get it: ${none(spec.where)}`) : null,
    members,
    h("div", { class: "answers" },
      h("button", { type: "button", class: "main", id: `add:${path}`, onclick: () => (job.value(path)?.length && !plan.length && !job.value(path).some(model.said) ? open(path, 0) : add(job, path, count)) }, first ? `Describe the first of ${label.toLowerCase()}` : `Add another to ${label.toLowerCase()}`),
      first && !stated && !job.plan ? h("button", { type: "button", onclick: () => job.type(path, [], { redraw: true }) }, "There is none") : null,
      !count && stated && !job.plan ? h("button", { type: "button", onclick: () => job.type(path, undefined, { redraw: true }) }, "Not known after all") : null));
}

function drawMember(job, spec, path, i, count, plan, group) {
  const called = model.nameOf(job.form, job.tree, path, i, job.plan);
  const below = `${path}[${i}]`;
  const fixed = i < plan.length;
  const move = (to) => {
    const list = job.value(path);
    list.splice(to, 0, list.splice(i, 1)[0]);
    job.changed(true);
    document.getElementById(`${to < i ? "up" : "down"}:${path}[${to}]`)?.focus();
  };
  const remove = () => {
    const list = job.value(path);
    const [gone] = list.splice(i, 1);
    job.changed(true);
    document.getElementById(`add:${path}`)?.focus();
    note(`${called} is taken out.`, { text: "Undo", run: () => {
      const again = job.value(path) || [];
      again.splice(i, 0, gone);
      if (!job.value(path)) model.put(job.tree, path, again);
      job.changed(true);
    } }, 15);
  };
  const first = plan.length;
  return h("details", { class: "member", "data-path": below, "data-field": below },
    h("summary", {}, h("span", { dir: "auto" }, called), h("span", { class: "soft" }, ` ${i + 1} of ${count}${job.plan && !fixed ? ", not in the plan" : ""}`)),
    h("div", { class: "inside" }, group(spec.item, below),
      fixed ? null : h("div", { class: "answers" },
        i > first ? h("button", { type: "button", id: `up:${below}`, onclick: () => move(i - 1) }, "Up", h("span", { class: "unseen" }, ` ${called}`)) : null,
        i + 1 < count ? h("button", { type: "button", id: `down:${below}`, onclick: () => move(i + 1) }, "Down", h("span", { class: "unseen" }, ` ${called}`)) : null,
        h("button", { type: "button", class: "remove", onclick: remove }, "Take out", h("span", { class: "unseen" }, ` ${called}`)))));
}

function add(job, path, count) {
  const list = job.value(path);
  if (Array.isArray(list)) {
    while (list.length < count) list.push({});
    list.push({});
  } else model.put(job.tree, `${path}[${count}]`, {});
  job.changed(true);
  open(path, count);
}

/** Unfolds a member and goes to its first field. */
function open(path, index) {
  const made = document.querySelector(`[data-field="${CSS.escape(`${path}[${index}]`)}"]`);
  if (!made) return;
  made.open = true;
  made.querySelector(".inside input, .inside select, .inside button:not(.ask)")?.focus();
}
