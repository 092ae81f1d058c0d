// Elements made one by one: what a person wrote is always text, never markup.

const SVG = new DOMParser();

/** An element with attributes and children; `on...` are listeners, false and null are left out. */
export function h(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (name.startsWith("on")) element.addEventListener(name.slice(2), value);
    else if (name === "class") element.className = value;
    else if (value === true) element.setAttribute(name, "");
    else element.setAttribute(name, String(value));
  }
  element.append(...children.flat(Infinity).filter((c) => c !== null && c !== undefined && c !== false));
  return element;
}

/** A drawing that the desk has made; read as XML, in which nothing runs. */
export function drawing(text) {
  const whole = text.includes("xmlns") ? text : text.replace("<svg", '<svg xmlns="http://www.w3.org/2000/svg"');
  const read = SVG.parseFromString(whole, "image/svg+xml").documentElement;
  return read.nodeName === "svg" ? document.importNode(read, true) : h("span");
}

const icons = new Map();

/** The shape of a grade; the word stands beside it. */
export function shape(form, grade) {
  if (!icons.has(grade)) icons.set(grade, drawing(form.grades[grade].icon));
  return icons.get(grade).cloneNode(true);
}

/** Say something at the edge of the page for a while, with one thing to do about it. */
export function note(text, action = null, seconds = 8) {
  const place = document.getElementById("notes");
  const shown = h("div", { class: "note" }, h("span", {}, text));
  const gone = () => shown.remove();
  if (action) {
    shown.classList.add("acting");
    shown.append(h("button", { type: "button", onclick: () => { gone(); action.run(); } }, action.text));
  }
  shown.append(h("button", { type: "button", class: "quiet", "aria-label": "Close this note", onclick: gone }, "×"));
  while (place.children.length > 2) place.firstChild.remove();
  place.append(shown);
  if (seconds) setTimeout(gone, seconds * 1000);
  return gone;
}

/** Take away what could only be done on the view that is left. */
export function forgetNotes() {
  for (const shown of document.querySelectorAll(".note.acting")) shown.remove();
}

/** Say something to those who do not see the page. */
export function speak(text) {
  const place = document.getElementById("spoken");
  if (place.textContent !== text) place.textContent = text;
}

/** A question in the way of everything else; gives the key of the answer, or "" if it was put aside. */
export function ask(title, body, answers) {
  return new Promise((resolve) => {
    const dialog = h("dialog", { "aria-labelledby": "asked" },
      h("h2", { id: "asked" }, title), body,
      h("div", { class: "answers" }, answers.map(([key, text, kind]) =>
        h("button", { type: "button", class: kind || "", onclick: () => dialog.close(key) }, text))));
    dialog.addEventListener("close", () => { dialog.remove(); resolve(dialog.returnValue); });
    document.body.append(dialog);
    dialog.showModal();
  });
}
