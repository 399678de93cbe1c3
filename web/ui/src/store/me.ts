/** newId makes an id for a change: made once, sent as often as needed. */
export function newId(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(10));
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, "0")).join("");
}

/** client names this window: undo takes back its own last change. It survives a reload. */
export function client(): string {
  const known = sessionStorage.getItem("berthwright.client");
  if (known !== null) return known;
  const made = `page-${newId()}`;
  sessionStorage.setItem("berthwright.client", made);
  return made;
}
