// What is typed is saved as it goes: into the file, and until that is done into the browser's own store.

import { addressOf } from "./addresses.js";
import * as api from "./api.js";
import { ask, h, note } from "./dom.js";
import * as model from "./model.js";

const PAUSE = 1000;
const RETRY = 5000;
const MOST_DIFFERENCES = 12;

export class Saving {
  constructor(job, name, etag) {
    this.job = job;
    this.name = name;
    this.etag = etag;
    this.key = `desk:${job.form.folder.key}:${name}`;
    this.waiting = false;
    this.running = null;
    this.stuck = false;
    this.timer = 0;
    this.state = h("span", { class: "saved", id: "saved" }, "");
    this.onhide = () => { if (document.visibilityState === "hidden" && this.waiting && !this.stuck) this.now(); };
    document.addEventListener("visibilitychange", this.onhide);
  }

  /** What was typed and did not reach the file, if there is any: put back into the tree. */
  restore() {
    const kept = this.kept();
    if (!kept || !kept.tree) return null;
    const differ = model.differences(this.job.tree, kept.tree);
    if (!differ.length) {
      this.forget();
      return null;
    }
    const before = model.copy(this.job.tree);
    this.replace(kept.tree);
    this.waiting = true;
    if (kept.etag !== this.etag) this.etag = kept.etag;
    this.timer = setTimeout(() => this.now(), PAUSE);
    return { at: kept.at, before, differ };
  }

  told({ at, before, differ }) {
    const when = new Date(at).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });
    const many = differ.length === 1 ? "1 value" : `${differ.length} values`;
    note(`Put back: ${many} typed until ${when} and not in the file yet.`, {
      text: "Leave them out",
      run: () => { this.replace(before); this.job.changed(true); },
    }, 20);
  }

  replace(tree) {
    const { job } = this;
    for (const key of Object.keys(job.tree)) delete job.tree[key];
    Object.assign(job.tree, model.copy(tree));
  }

  changed() {
    this.waiting = true;
    this.keep();
    this.say(this.stuck ? "Not in the file: it was changed elsewhere." : "Saving …");
    clearTimeout(this.timer);
    if (!this.stuck) this.timer = setTimeout(() => this.now(), PAUSE);
  }

  keep() {
    try {
      localStorage.setItem(this.key, JSON.stringify({ at: Date.now(), etag: this.etag, tree: this.job.tree }));
    } catch {
      // No room in the store: the file is still written.
    }
  }

  kept() {
    try {
      return JSON.parse(localStorage.getItem(this.key) || "null");
    } catch {
      return null;
    }
  }

  forget() {
    localStorage.removeItem(this.key);
  }

  /** Save what is waiting; resolves when nothing is. */
  async now() {
    clearTimeout(this.timer);
    while (this.running) await this.running;
    if (!this.waiting || this.stuck) return;
    this.running = this.save();
    await this.running;
    this.running = null;
  }

  async save() {
    const { job } = this;
    this.waiting = false;
    const places = model.members(job.tree);
    try {
      const done = await api.post("save", { name: this.name, tree: job.tree, etag: this.etag, plan: job.plan });
      this.etag = done.etag;
      if (done.places) this.placed(done.places);
      else for (const [member, place] of places) member[model.PLACE] = place;
      if (!this.waiting) this.forget();
      const left = done.left_out.map((p) => model.words(job.form, job.tree, p));
      const time = new Date().toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", second: "2-digit" });
      this.say(left.length ? `Saved ${time}, without ${left.join(", ")}` : `Saved ${time}`);
    } catch (error) {
      this.waiting = true;
      this.keep();
      if (error.status === 409) await this.conflict();
      else if (error.status === 422) this.say(`Not in the file: ${error.entries[0]?.what || error.message}. Kept in this browser.`);
      else {
        this.say("Not in the file yet: the desk cannot be reached. Kept in this browser.");
        this.timer = setTimeout(() => this.now(), RETRY);
      }
    }
  }

  /** Where the members of lists now stand in the file of what was found on site. */
  placed(tree) {
    const walk = (own, told) => {
      if (Array.isArray(own) && Array.isArray(told)) {
        own.forEach((member, i) => {
          if (!member || typeof member !== "object") return;
          if (told[i] && model.PLACE in told[i]) member[model.PLACE] = told[i][model.PLACE];
          else delete member[model.PLACE];
          walk(member, told[i] || {});
        });
      } else if (own && typeof own === "object") {
        for (const key of Object.keys(own)) if (key !== model.PLACE) walk(own[key], told?.[key]);
      }
    };
    walk(this.job.tree, tree);
  }

  /** The file is another by now: nothing of either is lost, the person says how to go on. */
  async conflict() {
    const { job } = this;
    this.stuck = true;
    this.say("Not in the file: it was changed elsewhere.");
    let theirs = null;
    try {
      const opened = await api.post("open", { name: job.name });
      theirs = job.fitted ? opened.site : opened;
    } catch {
      theirs = null;
    }
    const differ = theirs ? model.differences(job.tree, theirs.tree) : [];
    if (theirs && !differ.length) {
      // The same by another way, such as a second window: go on from there.
      this.etag = theirs.etag;
      this.stuck = this.waiting = false;
      this.replace(theirs.tree);
      this.forget();
      this.say("Saved");
      return;
    }
    const body = h("div", {},
      h("p", {}, `${this.name} was changed elsewhere since it was opened here. What you typed is kept in this browser; the file is as the other left it.`),
      differ.length ? h("table", {},
        h("caption", {}, differ.length > MOST_DIFFERENCES ? `The first ${MOST_DIFFERENCES} of ${differ.length} differences` : "Where they differ"),
        h("thead", {}, h("tr", {}, ["field", "yours", "in the file"].map((t) => h("th", { scope: "col" }, t)))),
        h("tbody", {}, differ.slice(0, MOST_DIFFERENCES).map(([path, mine, other]) => h("tr", {},
          h("th", { scope: "row" }, model.words(job.form, job.tree, path)),
          h("td", { dir: "auto" }, model.textOf(mine) || "not stated"), h("td", { dir: "auto" }, model.textOf(other) || "not stated"))))) : null);
    const answers = [["new", "Keep mine in a new file", "main"]];
    if (theirs) answers.push(["theirs", "Look at the file's"]);
    answers.push(["", "Decide later"]);
    const answer = await ask("Two have changed this file", body, answers);
    if (answer === "new") await this.elsewhere();
    else if (answer === "theirs") this.turn(theirs);
    else {
      note("Your values are not in the file; they stay in this browser.", { text: "Decide now", run: () => this.conflict() }, 0);
    }
  }

  turn(theirs) {
    const mine = model.copy(this.job.tree);
    const old = this.etag;
    this.replace(theirs.tree);
    this.etag = theirs.etag;
    this.stuck = this.waiting = false;
    this.forget();
    this.say("As it is in the file");
    this.job.sheet.draw();
    this.job.check();
    note("These are the file's values.", { text: "Back to mine", run: () => {
      this.replace(mine);
      this.etag = old;
      this.job.changed(true);
    } }, 60);
  }

  async elsewhere() {
    const dot = this.name.lastIndexOf(".");
    for (let number = 2; number < 100; number += 1) {
      const into = `${this.name.slice(0, dot)}-${number}${this.name.slice(dot)}`;
      try {
        const made = await api.post("save", { name: this.name, tree: this.job.tree, etag: this.etag, plan: this.job.plan, into });
        this.forget();
        this.waiting = false;
        note(`Yours is in ${made.name}.`, null, 20);
        location.hash = addressOf(made.name, this.job.section);
        return;
      } catch (error) {
        if (error.status === 409) continue;
        note(error.message);
        return;
      }
    }
  }

  say(text) {
    this.state.textContent = text;
  }

  close() {
    clearTimeout(this.timer);
    document.removeEventListener("visibilitychange", this.onhide);
    if (this.waiting && !this.stuck) this.now();
  }
}
