// Requests to the desk that served this page; nothing else is ever asked.

const BASE = new URL(".", document.baseURI);

/** What went wrong, in words: the server's own, or that it cannot be reached. */
export class Trouble extends Error {
  constructor(status, told) {
    super(told?.text || "The desk cannot be reached. Is 'mistwright desk' still running?");
    this.status = status;
    this.entries = told?.entries || [];
  }
}

async function answered(response) {
  let told = null;
  try {
    told = await response.json();
  } catch {
    told = null;
  }
  if (!response.ok) throw new Trouble(response.status, told);
  return told;
}

export async function post(name, body) {
  let response;
  try {
    response = await fetch(new URL(`api/${name}`, BASE), {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify(body),
    });
  } catch {
    throw new Trouble(0, null);
  }
  return answered(response);
}

export async function form() {
  return answered(await fetch(new URL("api/form", BASE)));
}

/** The jobs of the folder: `each` is called for every line as it comes. */
export async function jobs(each, signal) {
  const response = await fetch(new URL("api/jobs", BASE), { signal });
  if (!response.ok) throw new Trouble(response.status, null);
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  let rest = "";
  for (;;) {
    const { value, done } = await reader.read();
    if (done) break;
    const lines = (rest + value).split("\n");
    rest = lines.pop();
    for (const line of lines) each(JSON.parse(line));
  }
}

export function printed(kind, name, fitted) {
  const url = new URL(kind, BASE);
  url.searchParams.set("name", name);
  if (fitted) url.searchParams.set("fitted", "1");
  return url.href;
}
