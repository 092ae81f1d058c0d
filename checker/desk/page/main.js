// The page: the folder's jobs, or one of them, as the address says.

import * as api from "./api.js";
import { h } from "./dom.js";
import { openJob } from "./job.js";
import { openList } from "./listing.js";

const root = document.getElementById("root");
let form = null;
let leave = () => {};
let shown = "";

function read() {
  const [, kind, name, section] = location.hash.split("/");
  if ((kind === "job" || kind === "fitted") && name) {
    try {
      return { name: decodeURIComponent(name), section: section || "", fitted: kind === "fitted" };
    } catch {
      return null;
    }
  }
  return null;
}

async function show() {
  const asked = read();
  const key = asked ? `${asked.name}|${asked.fitted}` : "";
  if (asked && key === shown && leave.section) {
    leave.section(asked.section);
    return;
  }
  leave();
  leave = () => {};
  shown = key;
  try {
    const opened = asked ? await openJob(root, form, asked) : openList(root, form);
    if (shown === key) leave = opened;
    else opened();
  } catch (error) {
    root.replaceChildren(h("main", { class: "plain" },
      h("h1", {}, asked ? asked.name : "Desk"),
      h("p", {}, "This cannot be opened here:"),
      h("pre", { class: "told", tabindex: "0" }, error.message),
      h("p", {}, h("a", { href: "#/" }, "Back to the jobs"))));
  }
}

try {
  form = await api.form();
  window.addEventListener("hashchange", show);
  await show();
} catch (error) {
  root.replaceChildren(h("main", { class: "plain" }, h("h1", {}, "Desk"), h("p", {}, error.message)));
}
