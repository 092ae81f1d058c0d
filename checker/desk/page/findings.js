// The findings beside the form: gravest first, what has to be found out gathered by field, the drawings.

import { drawing, h, shape } from "./dom.js";
import * as api from "./api.js";
import * as model from "./model.js";

const FEW_FIELDS = 4;

export function drawnPanel(job) {
  const { form } = job;
  const heading = h("h2", { tabindex: "-1" }, "Findings");
  const verdict = h("div", { class: "verdict" });
  const lost = h("p", { class: "mistake", role: "alert", hidden: true });
  const local = h("p", { class: "local", hidden: true });
  const unread = h("div", {});
  const list = h("div", {});
  const none = h("p", { class: "soft", hidden: true });
  const toFind = h("details", { class: "fold", open: true }, h("summary", {}, ""), h("div", {}));
  const moved = h("details", { class: "fold", open: true, hidden: !job.plan }, h("summary", {}, "Moved since the plan"), h("div", {}));
  const drawn = h("details", { class: "fold" }, h("summary", {}, "Drawing"), h("div", {}));
  const curves = h("details", { class: "fold" }, h("summary", {}, "Fan and system"), h("div", {}));
  const element = h("aside", { id: "findings", "aria-label": "Findings" },
    h("div", { class: "panel-head" }, heading, h("button", { type: "button", class: "close", onclick: () => job.unfold(false) }, "Back to the form")),
    lost, verdict, local, unread, list, none, toFind, moved, drawn, curves,
    h("details", { class: "fold standing" }, h("summary", {}, "What a check is"), h("div", {}, form.cautions.map((c) => h("p", {}, c)))));
  const cards = new Map();
  let asked = "";

  for (const fold of [drawn, curves, toFind]) fold.addEventListener("toggle", () => { if (fold.open) { if (fold === toFind) drawToFind(true); else drawAround(); } });

  function field(path, text = "") {
    return h("button", { type: "button", class: "goto", onclick: () => job.show(model.parts(path)[0], { path }) },
      text || model.words(form, job.tree, path, job.plan));
  }

  /** A field of a finding: without what the finding's own heading says already. */
  function near(path, subject) {
    const all = model.words(form, job.tree, path, job.plan).split(" › ");
    const rest = all.filter((w) => w !== subject);
    return field(path, rest.slice(all.length === rest.length ? -2 : -1).join(" › "));
  }

  /** The fields to go to: those whose change would meet it first, names of members left out. */
  function fieldsOf(f) {
    const paths = [...new Set([...f.remedies.map((r) => r.path), ...f.fields.map((x) => x.path)])];
    const naming = (p) => p.includes("[") && model.specAt(form, p.slice(0, p.lastIndexOf("[")))?.naming === p.slice(p.lastIndexOf(".") + 1);
    return paths.filter((p) => model.specAt(form, p) && !naming(p));
  }

  function drawVerdict() {
    const { answer } = job;
    const told = form.verdicts[answer.verdict];
    const counts = Object.entries(answer.counts).filter(([, n]) => n);
    verdict.className = `verdict ${told ? `g-${told.grade}` : ""}`;
    verdict.replaceChildren(
      h("p", { class: "word" }, told ? [shape(form, told.grade), " ", h("strong", {}, answer.verdict)] : h("strong", {}, answer.serial ? "no verdict" : "…")),
      h("p", {}, told ? told.meaning : answer.entries.length ? "What is listed here cannot be read; all else was checked without it." : answer.serial ? "Nothing can be checked yet." : "Checking."),
      counts.length ? h("p", { class: "counts" }, counts.map(([g, n]) => h("span", { class: `g-${g}` }, shape(form, g), ` ${n} ${g}`))) : "");
    unread.replaceChildren(...(answer.entries.length ? [h("ul", { class: "unread" }, answer.entries.map((e) => h("li", {},
      e.path && model.specAt(form, e.path) ? field(e.path) : h("code", {}, e.path), " ", e.what, e.found ? `: ${e.found}` : "", e.hint ? h("span", { class: "soft" }, `. ${e.hint}`) : "",
      e.path && !model.specAt(form, e.path) && model.said(job.value(e.path)) ? h("button", { type: "button", class: "quiet", onclick: () => job.type(e.path, undefined, { redraw: true }) }, "Take it out") : "")))] : []));
  }

  function card(name, finding) {
    const f = finding;
    const paths = fieldsOf(f);
    const details = h("details", { class: "working" }, h("summary", {}, "Working and sources"));
    details.addEventListener("toggle", async () => {
      if (!details.open || details.children.length > 1) return;
      try {
        details.append(inside(await api.post("detail", { window: job.window, finding: name })));
      } catch (error) {
        details.append(h("p", {}, error.message));
      }
    });
    return h("article", { class: `finding g-${f.grade}`, tabindex: "-1" },
      h("h3", {}, shape(form, f.grade), " ", h("span", { class: "grade" }, f.grade), " ", f.title, f.subject ? h("span", { class: "subject", dir: "auto" }, ` [${f.subject}]`) : ""),
      h("p", { class: "sentence", dir: "auto" }, f.sentence),
      f.demand && f.limit ? h("p", { class: "measure" }, "demand ", h("strong", {}, f.demand), " against ", h("strong", {}, f.limit), f.utilisation === null ? "" : [", ", bar(f.utilisation)]) : "",
      f.remedies.length ? h("div", { class: "remedies" }, h("p", {}, "What would meet it, the rest as stated:"),
        h("ul", {}, f.remedies.map((r) => h("li", {}, arrow(r.sentence), " ",
          r.values.map((v) => h("button", { type: "button", class: "take", onclick: () => job.takeOver(r.path, valueFor(r.path, v), `${model.words(form, job.tree, r.path, job.plan)} is ${v} now.`) }, `Take ${v}`)))))) : "",
      paths.length ? h("p", { class: "gotos" }, h("span", { class: "soft" }, "Rests on "), paths.slice(0, FEW_FIELDS).map((p) => near(p, f.subject))) : "",
      f.changes.map((c) => h("p", { class: "local" }, h("strong", {}, "Local: "), c)),
      f.remarks.map((r) => h("p", { class: "soft" }, r)),
      h("p", { class: "caution" }, h("strong", {}, "Caution: "), f.caution),
      paths.length > FEW_FIELDS ? h("details", {}, h("summary", {}, `All ${paths.length} fields that were read`), h("p", { class: "gotos" }, paths.map((p) => field(p)))) : "",
      details,
      h("p", { class: "soft" }, "Protects: ", f.protects, " Rule ", h("code", {}, f.rule)));
  }

  function valueFor(path, text) {
    return model.specAt(form, path)?.type === "flag" ? text === "true" : text;
  }

  function bar(ratio) {
    const box = h("span", { class: ratio > 1 ? "ratio over" : "ratio", "aria-hidden": "true" }, h("span", {}));
    box.firstChild.style.setProperty("inline-size", `${Math.min(ratio, 1.25) * 80}%`);
    return [ratio > 9.99 ? "more than 999 %" : `${Math.round(ratio * 100)} % of the limit`, " ", box];
  }

  function inside(told) {
    return h("div", {},
      h("ul", { class: "lines" }, told.working.map((w) => h("li", {}, h("code", {}, w.name), w.meaning ? h("span", { class: "soft" }, ` ${w.meaning}`) : "",
        h("br"), "= ", h("code", {}, w.formula), w.numbers ? [h("br"), "= ", w.numbers] : "", h("br"), "= ", h("strong", { dir: "auto" }, w.result)))),
      h("ul", { class: "lines" }, told.basis.map((b) => h("li", {}, [b.title, b.edition, b.clause].filter(Boolean).join(", "), " ", h("span", { class: "tag" }, b.confidence), h("span", { class: "soft" }, ` for ${b.of}`)))));
  }

  function draw() {
    drawVerdict();
    const shown = [];
    for (const name of job.answer.order) {
      const finding = job.bodies.get(name);
      if (!finding || (finding.grade === "confirm" && finding.missing.length)) continue;
      let one = cards.get(name);
      if (!one || one.finding !== finding) {
        one = { finding, element: card(name, finding) };
        cards.set(name, one);
      }
      shown.push(one.element);
    }
    for (const name of cards.keys()) if (!job.bodies.has(name)) cards.delete(name);
    arrange(list, shown);
    none.hidden = shown.length > 0 || !job.answer.serial;
    none.textContent = job.answer.order.length ? "Only values that are not stated stand against it." : "Nothing was found against it by the checks that were made.";
    drawToFind(false);
  }

  function missing() {
    const found = new Map();
    for (const name of job.answer.order) {
      const finding = job.bodies.get(name);
      if (!finding || finding.grade !== "confirm") continue;
      for (const m of finding.missing) {
        if (!found.has(m.path)) found.set(m.path, { ...m, waiting: [] });
        found.get(m.path).waiting.push(finding);
      }
    }
    return found;
  }

  function drawToFind(force) {
    const found = missing();
    const key = [...found].map(([p, m]) => `${p}:${m.waiting.length}`).join("|");
    toFind.hidden = found.size === 0;
    toFind.querySelector("summary").textContent = `To find out: ${found.size} ${found.size === 1 ? "value" : "values"}`;
    if ((!force && key === asked) || !toFind.open) return;
    asked = key;
    const sections = new Map();
    for (const m of found.values()) {
      const section = model.parts(m.path)[0];
      if (!sections.has(section)) sections.set(section, []);
      sections.get(section).push(m);
    }
    const unfolded = new Set([...toFind.querySelectorAll("details[open]")].map((d) => d.dataset.section));
    toFind.lastChild.replaceChildren(...[...sections].map(([section, all]) => {
      const one = h("details", { "data-section": section, open: unfolded.has(section) || (found.size <= 8) },
        h("summary", {}, `${model.spoken(section)}: ${all.length}`));
      const fill = () => {
        if (one.open && one.children.length === 1) {
          one.append(h("ul", { class: "asked" }, all.map((m) => h("li", {}, field(m.path), h("p", {}, m.meaning),
            m.where ? h("p", { class: "soft" }, `Where to get it: ${m.where}`) : "",
            h("p", { class: "soft" }, `Waits for it: ${m.waiting.slice(0, 3).map((f) => f.title).join("; ")}${m.waiting.length > 3 ? `; and ${m.waiting.length - 3} more` : ""}.`)))));
        }
      };
      one.addEventListener("toggle", fill);
      fill();
      return one;
    }));
  }

  function drawAround() {
    const { around } = job;
    local.hidden = !around.overlays?.length;
    local.textContent = `Local rules in force: ${(around.overlays || []).join(", ")}.`;
    if (job.plan) {
      moved.querySelector("summary").textContent = `Moved since the plan: ${around.moved.length}`;
      moved.lastChild.replaceChildren(around.moved.length ? h("ul", { class: "asked" }, around.moved.map((m) => h("li", {}, field(m.path),
        h("p", {}, h("span", { dir: "auto" }, m.planned), " → ", h("strong", { dir: "auto" }, m.fitted), ` (${m.change})${m.beyond ? ", outside the tolerance of the plan" : ""}`),
        m.grades.map((g) => h("p", { class: g.worse ? `g-${g.now}` : "" }, shape(form, g.now), ` ${form.rules[g.rule.replace(/\[\d+\]$/, "")] || g.rule}: ${g.was} → ${g.now}`))))) : h("p", {}, "Nothing is other than planned so far."));
    }
    if (drawn.open) {
      drawn.lastChild.replaceChildren(...around.notes.map((n) => h("p", { class: "soft" }, n)), ...around.views.map((v) => h("figure", {},
        h("figcaption", {}, `${v.title}: ${v.note}`),
        h("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": v.title }, drawing(v.svg)),
        v.dimensions.length ? h("details", {}, h("summary", {}, "The dimensions as a list"), h("ul", { class: "asked" }, v.dimensions.map((d) => h("li", {},
          field(d.field, `${d.number}: ${d.name} ${d.text}`), d.grade ? h("span", {}, " ", shape(form, d.grade), ` ${d.grade}, against ${d.limit}`) : h("span", { class: "soft" }, " no limit"))))) : "")));
    }
    curves.hidden = !around.curves;
    if (curves.open && around.curves) {
      curves.lastChild.replaceChildren(h("div", { class: "scroll", tabindex: "0", role: "region", "aria-label": "Fan and system curves" }, drawing(around.curves)));
    }
  }

  return {
    element,
    draw,
    drawAround,
    focus: () => heading.focus(),
    focusFinding(name) {
      job.unfold(true);
      const one = cards.get(name);
      if (one) {
        one.element.focus();
        one.element.scrollIntoView({ block: "nearest" });
      }
    },
    shortly() {
      const { counts, entries } = job.answer;
      const waiting = missing().size;
      return [entries.length ? `${entries.length} unread` : "", ...["stop", "correct", "advise"].filter((g) => counts[g]).map((g) => `${counts[g]} ${g}`), waiting ? `${waiting} to find out` : ""].filter(Boolean).join(" · ");
    },
    reachable(yes, text = "") {
      lost.hidden = yes;
      lost.textContent = yes ? "" : `${text} These findings are from before.`;
    },
  };
}

/** A sentence whose arrow does not break in two. */
function arrow(text) {
  const halves = text.split(" -> ");
  return halves.flatMap((half, i) => (i ? [" ", h("span", { class: "whole" }, "->"), " ", half] : [half]));
}

/** Puts elements into a box in order, leaving those that stand right where they are. */
function arrange(box, wanted) {
  const keep = new Set(wanted);
  for (const child of [...box.children]) if (!keep.has(child)) child.remove();
  wanted.forEach((element, i) => {
    if (box.children[i] !== element) box.insertBefore(element, box.children[i] ?? null);
  });
}
