// One job: what is typed, the check of it as it is typed, and what stands around it.

import { addressOf } from "./addresses.js";
import * as api from "./api.js";
import { drawnPanel } from "./findings.js";
import { forgetNotes, h, note, shape, speak } from "./dom.js";
import { drawForm } from "./form.js";
import * as model from "./model.js";
import { Saving } from "./saving.js";

const PAUSE = 200;

/** Opens a job in the page; gives what closes it. */
export async function openJob(root, form, asked) {
  const opened = await api.post("open", { name: asked.name });
  const job = new Job(form, opened, asked);
  await job.begin(root);
  const leave = () => job.close();
  leave.section = (name) => job.show(name, { focus: true });
  return leave;
}

class Job {
  constructor(form, opened, asked) {
    this.form = form;
    this.name = opened.name;
    this.opened = opened;
    this.fitted = asked.fitted && opened.site !== null;
    this.plan = this.fitted ? opened.tree : null;
    this.tree = this.fitted ? opened.site.tree : opened.tree;
    this.nameless = new Set(this.fitted ? opened.site.nameless : []);
    this.section = Object.hasOwn(form.fields.children, asked.section) ? asked.section : "job";
    this.window = crypto.randomUUID();
    this.bodies = new Map();
    this.answer = { serial: 0, entries: [], verdict: "", counts: {}, order: [] };
    this.around = { needs: null, views: [], notes: [], curves: "", moved: [] };
    this.since = 0;
    this.typed = 0;
    this.asking = false;
    this.again = false;
    this.timer = 0;
    this.times = [];
    this.closed = false;
  }

  async begin(root) {
    const { form } = this;
    const file = this.fitted ? this.opened.site.name : this.name;
    this.saving = new Saving(this, file, this.fitted ? this.opened.site.etag : this.opened.etag);
    const restored = this.saving.restore();
    this.panel = drawnPanel(this);
    this.sheet = drawForm(this);
    this.head = h("h1", { dir: "auto" });
    this.bar = h("button", { type: "button", class: "bar-below", "aria-controls": "findings", "aria-expanded": "false", onclick: () => this.unfold(true) });
    root.replaceChildren(
      h("a", { class: "skip", href: "#form", onclick: (e) => { e.preventDefault(); this.sheet.focus(); } }, "To the form"),
      h("a", { class: "skip", href: "#findings", onclick: (e) => { e.preventDefault(); this.unfold(true); } }, "To the findings"),
      this.top(),
      h("div", { class: "desk" }, this.sheet.nav, this.sheet.main, this.panel.element),
      this.bar);
    this.onkey = (event) => { if (event.key === "Escape" && document.body.classList.contains("unfolded")) this.unfold(false); };
    document.addEventListener("keydown", this.onkey);
    this.titled();
    this.panel.draw();
    this.below();
    this.show(this.section, { focus: false });
    if (restored) this.saving.told(restored);
    window.desk = { times: this.times };
    this.check();
  }

  top() {
    const { opened, name } = this;
    const views = opened.may_fit && (opened.site || model.at(opened.tree, "job.stage") !== "fitted")
      ? h("div", { class: "switch", role: "group", "aria-label": "Which values" },
        h("a", { href: addressOf(name, this.section, false), "aria-current": this.fitted ? null : "page" }, "Plan"),
        h("a", { href: addressOf(name, this.section, true), "aria-current": this.fitted ? "page" : null, onclick: (e) => this.fit(e) }, "Fitted"))
      : null;
    const print = (kind, text) => h("a", { href: api.printed(kind, name, this.fitted), target: "_blank", rel: "noopener", onclick: (e) => this.print(e) }, text);
    return h("header", { class: "top" },
      h("a", { href: "#/", class: "back" }, "Jobs"),
      h("div", { class: "which" }, this.head, h("p", { class: "soft" }, this.fitted ? opened.site.name : name, " ", this.saving.state)),
      views,
      h("nav", { class: "prints", "aria-label": "To print" }, print("report", "Report"), print("sheet", "Fitting sheet")));
  }

  titled() {
    const tree = this.plan ?? this.tree;
    const words = [model.at(tree, "job.reference"), model.at(tree, "job.title")].map(model.textOf).filter(Boolean);
    this.head.textContent = words.join(" · ") || this.name;
    document.title = `${words[0] || this.name}: ${this.answer.verdict || "desk"}`;
  }

  /** The value that stands at a path: on site, where that is what is looked at. */
  value(path) {
    return model.at(this.tree, path);
  }

  planned(path) {
    return this.plan ? model.at(this.plan, path) : undefined;
  }

  need(path) {
    return model.needOf(this.around.needs, path);
  }

  /** Take over what was typed at a field. */
  type(path, value, { redraw = false } = {}) {
    model.put(this.tree, path, value);
    this.changed(redraw);
  }

  changed(redraw = false) {
    this.typed = performance.now();
    if (redraw) this.sheet.draw();
    this.saving.changed();
    this.titled();
    this.check();
  }

  /** Put a value in place of another, with a way back. */
  takeOver(path, value, said) {
    const before = model.copy(this.value(path));
    this.type(path, value);
    this.show(model.parts(path)[0], { path });
    note(said, { text: "Undo", run: () => { this.type(path, before); this.show(model.parts(path)[0], { path }); } });
  }

  async check() {
    if (this.asking) {
      this.again = true;
      return;
    }
    this.asking = true;
    do {
      this.again = false;
      const typed = this.typed;
      const sent = performance.now();
      try {
        const answer = await api.post("check", { window: this.window, since: this.since, tree: this.tree, plan: this.plan });
        if (this.closed) return;
        const received = performance.now();
        this.take(answer);
        if (typed) this.times.push({ all: performance.now() - typed, answer: received - sent, drawing: performance.now() - received });
        this.panel.reachable(true);
      } catch (error) {
        this.panel.reachable(false, error.message);
      }
    } while (this.again && !this.closed);
    this.asking = false;
  }

  take(answer) {
    for (const [name, body] of Object.entries(answer.bodies)) this.bodies.set(name, body);
    const kept = new Set(answer.order);
    for (const name of this.bodies.keys()) if (!kept.has(name)) this.bodies.delete(name);
    this.since = answer.serial;
    const before = this.answer;
    this.answer = answer;
    this.panel.draw();
    this.sheet.marks();
    this.below();
    if (before.verdict !== answer.verdict) this.titled();
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.lookAround(), PAUSE);
  }

  async lookAround() {
    if (this.closed) return;
    let around;
    try {
      around = await api.post("around", { window: this.window });
    } catch {
      return;
    }
    if (this.closed || !around.needs) return;
    this.around = around;
    this.panel.drawAround();
    this.sheet.drawIfNeeded();
    speak(this.summary());
  }

  summary() {
    const { answer } = this;
    const counts = Object.entries(answer.counts).filter(([g, n]) => n && !["met", "not-applicable"].includes(g)).map(([g, n]) => `${n} ${g}`).join(", ");
    const unread = answer.entries.length ? `${answer.entries.length} cannot be read` : "";
    return [answer.verdict || "no verdict", unread, counts].filter(Boolean).join(": ");
  }

  below() {
    const { answer, form } = this;
    const told = form.verdicts[answer.verdict];
    this.bar.className = `bar-below ${told ? `g-${told.grade}` : ""}`;
    this.bar.replaceChildren(
      h("span", { class: "word" }, told ? [shape(form, told.grade), " ", answer.verdict] : answer.serial ? "no verdict" : "…"),
      h("span", {}, this.panel.shortly()),
      h("span", { class: "unseen" }, "Open the findings"));
  }

  /** On a narrow screen the findings lie over the form. */
  unfold(open) {
    document.body.classList.toggle("unfolded", open);
    this.bar.setAttribute("aria-expanded", String(open));
    const narrow = matchMedia("(max-width: 62rem)").matches;
    for (const other of [this.sheet.main, this.sheet.nav]) other.inert = open && narrow;
    if (open) this.panel.focus();
    else if (narrow) this.bar.focus();
  }

  /** Shows a section, or the very field of a path. */
  show(section, { path = "", focus = true } = {}) {
    document.body.classList.remove("unfolded");
    for (const other of [this.sheet.main, this.sheet.nav]) other.inert = false;
    this.bar.setAttribute("aria-expanded", "false");
    this.section = section;
    history.replaceState(null, "", addressOf(this.name, section, this.fitted));
    this.sheet.draw(path);
    if (path) this.sheet.focusField(path);
    else if (focus) this.sheet.focus();
  }

  async fit(event) {
    if (this.opened.site) return;
    event.preventDefault();
    try {
      await this.saving.now();
      const made = await api.post("fit", { name: this.name });
      note(`${made.name} is begun: only what was measured or changed goes into it.`);
      location.hash = addressOf(this.name, this.section, true);
    } catch (error) {
      note(error.message);
    }
  }

  async print(event) {
    if (!this.saving.waiting) return;
    event.preventDefault();
    const { href } = event.currentTarget;
    const page = window.open("", "_blank");
    await this.saving.now();
    if (page) page.location = href;
  }

  close() {
    this.closed = true;
    clearTimeout(this.timer);
    document.removeEventListener("keydown", this.onkey);
    document.body.classList.remove("unfolded");
    forgetNotes();
    this.sheet.close();
    this.saving.close();
  }
}
