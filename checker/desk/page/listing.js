// The folder's jobs: every name at once, each verdict as soon as it is known.

import { addressOf } from "./addresses.js";
import * as api from "./api.js";
import { h, shape } from "./dom.js";

const ORDER = ["hold", "rework", "confirm", "ready", ""];
const UNREAD = "cannot be read";
// More at once are slow to draw and nobody reads them; a word in the search brings them up.
const MOST = 200;
const PAUSE = 150;

export function openList(root, form) {
  document.title = `Desk: ${form.folder.name}`;
  const stop = new AbortController();
  const jobs = new Map();
  const chosen = new Set();
  const list = h("ul", { class: "jobs", id: "jobs" });
  const found = h("p", { class: "soft", role: "status" }, "Reading the folder.");
  let most = MOST;
  let timer = 0;
  const more = h("button", { type: "button", hidden: true, onclick: () => { most += MOST; draw(); } });
  const drawSoon = () => { if (!timer) timer = setTimeout(() => { timer = 0; draw(); }, PAUSE); };
  const search = h("input", { type: "search", id: "search", autocomplete: "off", oninput: draw });
  const filters = h("div", { class: "pills", role: "group", "aria-label": "Only these verdicts" });
  const order = h("select", { id: "order", onchange: draw },
    h("option", { value: "name" }, "by name"), h("option", { value: "grave" }, "gravest first"));
  for (const verdict of [...ORDER.slice(0, -1), UNREAD]) {
    const one = h("button", { type: "button", class: "pill", "aria-pressed": "false", onclick: () => {
      if (!chosen.delete(verdict)) chosen.add(verdict);
      one.setAttribute("aria-pressed", String(chosen.has(verdict)));
      draw();
    } }, mark(verdict), verdict);
    filters.append(one);
  }

  function mark(verdict) {
    const told = form.verdicts[verdict];
    return told ? shape(form, told.grade) : "";
  }

  function matches(job) {
    const verdict = job.mistake ? UNREAD : job.verdict || "";
    if (chosen.size && !chosen.has(verdict)) return false;
    const text = [job.name, job.reference, job.title, job.site, job.kind, job.stage].join(" ").toLowerCase();
    return search.value.toLowerCase().split(/\s+/).every((word) => text.includes(word));
  }

  function draw() {
    const all = [...jobs.values()];
    if (order.value === "grave") {
      const rank = (j) => (j.mistake ? -1 : ORDER.indexOf(j.verdict || ""));
      all.sort((a, b) => rank(a) - rank(b) || a.name.localeCompare(b.name));
    }
    const fit = all.filter(matches);
    list.replaceChildren(...fit.slice(0, most).map(card));
    more.hidden = fit.length <= most;
    more.textContent = `Show ${Math.min(MOST, fit.length - most)} more of ${fit.length}`;
    const waiting = all.filter((j) => !j.verdict && !j.mistake).length;
    found.textContent = all.length === 0 ? "No description in this folder yet."
      : `${fit.length === all.length ? all.length : `${fit.length} of ${all.length}`} ${all.length === 1 ? "job" : "jobs"}${waiting ? `, ${waiting} not checked yet` : ""}.`;
  }

  function card(job) {
    const told = form.verdicts[job.verdict];
    const counts = Object.entries(job.counts || {}).filter(([g, n]) => n && !["met", "not-applicable"].includes(g));
    return h("li", { class: `job ${told ? `g-${told.grade}` : ""}` },
      h("a", { href: addressOf(job.name, "", Boolean(job.fitted)) },
        h("span", { class: "word" }, told ? [shape(form, told.grade), " ", job.verdict] : job.mistake ? UNREAD : "…"),
        h("span", { class: "head", dir: "auto" }, [job.reference, job.title].filter(Boolean).join(" · ") || job.name),
        h("span", { class: "soft" }, [job.name, (job.kind || "").replaceAll("-", " "), job.stage].filter(Boolean).join(" · ")),
        counts.length ? h("span", { class: "soft" }, counts.map(([g, n]) => `${n} ${g}`).join(", ")) : null,
        job.mistake ? h("span", { class: "soft" }, job.mistake) : null),
      job.fitted ? h("a", { class: "beside", href: addressOf(job.name, "", false) }, "Its plan") : null);
  }

  root.replaceChildren(
    h("a", { class: "skip", href: "#jobs", onclick: (e) => { e.preventDefault(); list.querySelector("a")?.focus(); } }, "To the jobs"),
    h("header", { class: "top" },
      h("h1", {}, "Desk", h("span", { class: "soft" }, ` ${form.folder.name}`)),
      h("button", { type: "button", class: "main", onclick: begin }, "New job")),
    h("main", { class: "list" },
      h("div", { class: "finder" },
        h("p", { class: "labelled" }, h("label", { for: "search" }, "Search"), search),
        h("p", { class: "labelled" }, h("label", { for: "order" }, "Order"), order)),
      filters, found, list, more,
      h("details", { class: "standing" }, h("summary", {}, "What a check is"), form.cautions.map((c) => h("p", {}, c)))));

  api.jobs((line) => {
    for (const one of line.names || [line]) jobs.set(one.name, { ...jobs.get(one.name), ...one });
    if (line.names) draw();
    else drawSoon();
  }, stop.signal).then(draw).catch((error) => {
    if (!stop.signal.aborted) found.textContent = error.message;
  });

  function begin() {
    const choose = (id, field, otherwise) => h("p", { class: "labelled" },
      h("label", { for: id }, otherwise.label),
      h("select", { id, name: id }, otherwise.none ? h("option", { value: "" }, otherwise.none) : null,
        form.fields.children[field[0]].children[field[1]].choices.map((c) => h("option", { value: c }, c.replaceAll("-", " ")))));
    const wrong = h("p", { class: "mistake", role: "alert", hidden: true });
    const name = h("input", { id: "new-name", required: true, maxlength: 120, autocomplete: "off", "aria-describedby": "new-name-about" });
    const dialog = h("dialog", { "aria-labelledby": "new-head" },
      h("h2", { id: "new-head" }, "New job"),
      h("form", { method: "dialog" },
        h("p", { class: "labelled" }, h("label", { for: "new-name" }, "File name"), name,
          h("span", { class: "soft", id: "new-name-about" }, "Such as k-2101; .yaml is added.")),
        choose("new-kind", ["mount", "kind"], { label: "What holds the unit" }),
        choose("new-stage", ["job", "stage"], { label: "Stage" }),
        choose("new-place", ["job", "jurisdiction"], { label: "Where the machine stands", none: "not stated yet" }),
        wrong,
        h("div", { class: "answers" },
          h("button", { class: "main", type: "submit" }, "Begin"),
          h("button", { type: "button", onclick: () => dialog.close() }, "Leave it"))));
    const value = (id) => dialog.querySelector(`#${id}`).value;
    dialog.querySelector("form").addEventListener("submit", async (event) => {
      event.preventDefault();
      try {
        const made = await api.post("new", { name: name.value.trim(), kind: value("new-kind"), stage: value("new-stage"), jurisdiction: value("new-place") });
        dialog.close();
        location.hash = addressOf(made.name, "job");
      } catch (error) {
        const first = error.entries[0];
        wrong.textContent = first ? [first.what, first.hint].filter(Boolean).join("; ") : error.message;
        wrong.hidden = false;
      }
    });
    dialog.addEventListener("close", () => dialog.remove());
    document.body.append(dialog);
    dialog.showModal();
  }

  return () => {
    stop.abort();
    clearTimeout(timer);
  };
}
