// Where each view of the page is found.

/** The address of a job, in its folder's words. */
export function addressOf(name, section = "", fitted = false) {
  return `#/${fitted ? "fitted" : "job"}/${encodeURIComponent(name)}${section ? `/${section}` : ""}`;
}
