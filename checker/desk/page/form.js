// The form: one section at a time, what is needed first, the rest folded away.

import { h, shape } from "./dom.js";
import { drawEntry } from "./entry.js";
import { drawList } from "./members.js";
import * as model from "./model.js";

export function drawForm(job) {
  const { form } = job;
  const sections = Object.keys(form.fields.children);
  const heading = h("h2", { tabindex: "-1" });
  const about = h("p", { class: "soft" });
  const body = h("div", { class: "body" });
  const onward = h("div", { class: "onward" });
  const main = h("main", { id: "form" }, heading, about, body, onward);
  const list = h("ul", {});
  const fold = h("details", { class: "sections" }, h("summary", {}, ""), list);
  const nav = h("nav", { "aria-label": "Sections" }, fold);
  const wide = matchMedia("(min-width: 62.01rem)");
  const unfold = () => { fold.open = wide.matches; };
  wide.addEventListener("change", unfold);
  unfold();
  let entries = new Map();

  /** How many fields of a part are asked for and not stated. */
  function open(spec, path) {
    let count = 0;
    for (const [name, child] of Object.entries(spec.children)) {
      const below = path ? `${path}.${name}` : name;
      if (child.children) count += open(child, below);
      else if (child.type === "list") {
        const stated = job.value(below) ?? job.planned(below);
        if (!stated) count += job.need(below) && !job.need(below)[0] ? 1 : 0;
        else stated.forEach((_, i) => { count += open(child.item, `${below}[${i}]`); });
      } else if (!model.said(job.value(below)) && !model.said(job.planned(below))) {
        const need = job.need(below);
        if (need && !need[0]) count += 1;
      }
    }
    return count;
  }

  function gravest(section) {
    const order = Object.keys(form.grades);
    let found = order.length;
    for (const finding of job.bodies.values()) {
      if (finding.missing.length) continue;
      const paths = finding.remedies.length ? finding.remedies : finding.fields;
      if (paths.some((f) => model.parts(f.path)[0] === section)) found = Math.min(found, order.indexOf(finding.grade));
    }
    return order[found] ?? "";
  }

  let waiting = 0;

  /** The list of sections counts through all fields: not while somebody waits for a letter. */
  function drawNavSoon() {
    clearTimeout(waiting);
    waiting = setTimeout(drawNav, 120);
  }

  function drawNav() {
    fold.querySelector("summary").textContent = `${model.spoken(job.section)}: section ${sections.indexOf(job.section) + 1} of ${sections.length}`;
    list.replaceChildren(...sections.map((name) => {
      const left = open(form.fields.children[name], name);
      const grade = gravest(name);
      const wrong = job.answer.entries.filter((e) => model.parts(e.path)[0] === name).length;
      return h("li", {}, h("button", { type: "button", "aria-current": name === job.section ? "true" : null, onclick: () => { unfold(); job.show(name); } },
        h("span", {}, model.spoken(name)),
        h("span", { class: "soft" }, wrong ? `${wrong} unread` : left ? `${left} open` : ""),
        ["stop", "correct"].includes(grade) ? [shape(form, grade), h("span", { class: "unseen" }, ` ${grade}`)] : null));
    }));
  }

  function wanted(spec, path) {
    if (spec.children) return Object.entries(spec.children).some(([n, c]) => wanted(c, path ? `${path}.${n}` : n));
    if (model.said(job.value(path)) || model.said(job.planned(path))) return true;
    if (job.answer.entries.some((e) => e.path === path)) return true;
    if (job.need(path)) return true;
    return spec.type === "list" && Object.entries(spec.item.children).some(([n, c]) => wanted(c, `${path}[].${n}`));
  }

  /** What decides how a section looks, apart from the values: when it stays the same, so does the form. */
  function signature() {
    const found = [];
    const walk = (spec, path) => {
      if (spec.children) for (const [n, c] of Object.entries(spec.children)) walk(c, path ? `${path}.${n}` : n);
      else if (spec.type === "list") {
        found.push(path, wanted(spec, path));
        const count = Math.max(job.value(path)?.length || 0, job.planned(path)?.length || 0);
        for (let i = 0; i < count; i += 1) {
          found.push(model.nameOf(form, job.tree, path, i, job.plan));
          walk(spec.item, `${path}[${i}]`);
        }
      } else found.push(path, wanted(spec, path), job.need(path)?.[0] ?? "");
    };
    walk(form.fields.children[job.section], job.section);
    for (const moved of job.around.moved) {
      if (model.parts(moved.path)[0] === job.section) found.push(JSON.stringify(moved));
    }
    return found.join(";");
  }

  let drawnAs = "";
  let pressed = false;
  let late = false;
  // Never under a finger: what was pressed down must still be there when it is let go.
  main.addEventListener("pointerdown", () => { pressed = true; });
  const released = () => {
    if (!pressed) return;
    pressed = false;
    if (late) setTimeout(() => { late = false; drawIfNeeded(); });
  };
  addEventListener("pointerup", released);
  addEventListener("pointercancel", released);

  function drawIfNeeded() {
    if (drawnAs === signature()) {
      drawNav();
      return;
    }
    if (pressed) late = true;
    else draw();
  }

  /** The fields of a group, each by what it is. */
  function group(spec, path, level) {
    const shown = [];
    const folded = [];
    for (const [name, child] of Object.entries(spec.children)) {
      const below = path ? `${path}.${name}` : name;
      (wanted(child, below) ? shown : folded).push([name, child, below]);
    }
    const drawn = shown.map(([name, child, below]) => one(name, child, below, level));
    if (folded.length) {
      const rest = h("details", { class: "rest" },
        h("summary", {}, `Not asked for here: ${folded.map(([n]) => model.spoken(n).toLowerCase()).join(", ")}`));
      rest.addEventListener("toggle", () => {
        if (rest.open && rest.children.length === 1) {
          rest.append(...folded.map(([name, child, below]) => one(name, child, below, level)));
          marks();
        }
      }, { once: false });
      drawn.push(rest);
    }
    return drawn;
  }

  function one(name, spec, path, level) {
    if (spec.children) {
      return h("section", { class: "group", "aria-label": model.spoken(name) },
        h(`h${Math.min(level, 6)}`, {}, model.spoken(name)), h("p", { class: "soft" }, spec.about), group(spec, path, level + 1));
    }
    if (spec.type === "list") return drawList(job, name, spec, path, level, (s, p) => group(s, p, level + 2));
    const entry = drawEntry(job, name, spec, path);
    entries.set(path, entry);
    return entry.element;
  }

  function draw(path = "") {
    const active = document.activeElement;
    const inside = body.contains(active);
    const focused = inside ? active.id : "";
    const range = inside && active.tagName === "INPUT" && active.type === "text" ? [active.selectionStart, active.selectionEnd] : null;
    const height = inside ? active.getBoundingClientRect().top : 0;
    const unfolded = new Set([...body.querySelectorAll("details[open]")].map((d) => d.dataset.path).filter(Boolean));
    const spec = form.fields.children[job.section];
    heading.textContent = model.spoken(job.section);
    about.textContent = spec.about;
    entries = new Map();
    drawnAs = signature();
    body.replaceChildren(...group(spec, job.section, 3));
    for (const details of body.querySelectorAll("details[data-path]")) if (unfolded.has(details.dataset.path)) details.open = true;
    if (path && !entries.has(path)) {
      for (const rest of body.querySelectorAll("details.rest")) rest.open = true;
    }
    const place = sections.indexOf(job.section);
    const step = (to, text) => to ? h("button", { type: "button", onclick: () => { job.show(to); scrollTo(0, 0); } }, `${text}: ${model.spoken(to)}`) : null;
    onward.replaceChildren(...[step(sections[place - 1], "Back"), step(sections[place + 1], "Next")].filter(Boolean));
    drawNav();
    marks();
    clearTimeout(waiting);
    if (focused) {
      const again = document.getElementById(focused);
      if (again) {
        again.focus({ preventScroll: true });
        if (range && again.type === "text") again.setSelectionRange(...range);
        scrollBy(0, again.getBoundingClientRect().top - height);
      }
    }
  }

  /** What is wrong, beside each field that shows. */
  function marks() {
    const wrong = new Map();
    for (const entry of job.answer.entries) {
      if (!wrong.has(entry.path)) wrong.set(entry.path, []);
      wrong.get(entry.path).push(entry);
    }
    const graded = new Map();
    for (const [name, finding] of job.bodies) {
      if (finding.missing.length || !["stop", "correct", "confirm"].includes(finding.grade)) continue;
      const paths = finding.remedies.some((r) => r.values.length) ? finding.remedies.filter((r) => r.values.length) : finding.fields.slice(0, 3);
      for (const { path } of paths) {
        if (!graded.has(path)) graded.set(path, []);
        graded.get(path).push([name, finding]);
      }
    }
    for (const [path, entry] of entries) entry.mark(wrong.get(path) || [], graded.get(path) || []);
    drawNavSoon();
  }

  return {
    nav,
    main,
    draw,
    drawIfNeeded,
    marks,
    close: () => { removeEventListener("pointerup", released); removeEventListener("pointercancel", released); },
    focus: () => { heading.focus(); heading.scrollIntoView({ block: "nearest" }); },
    focusField(path) {
      for (let way = path; way; way = way.includes(".") ? way.slice(0, way.lastIndexOf(".")) : "") {
        const target = body.querySelector(`[data-field="${CSS.escape(way)}"]`);
        if (!target) continue;
        for (let up = target.closest("details"); up; up = up.parentElement?.closest("details")) up.open = true;
        const input = (target.querySelector(":scope > summary") ?? target.querySelector("input, select") ?? target.querySelector("button"));
        target.scrollIntoView({ block: "center" });
        input?.focus({ preventScroll: true });
        target.classList.add("found");
        setTimeout(() => target.classList.remove("found"), 2500);
        return;
      }
      this.focus();
    },
  };
}
