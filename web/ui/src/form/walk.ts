// Walking through a form by keyboard: Enter to the next field, PageDown to the next section.

const fieldIn = "[data-field]:not(:disabled)";

/** step finds the index to go to from a list of sections' field counts; null is past the end. */
export function step(
  counts: readonly number[],
  section: number,
  field: number,
  how: "next" | "previous" | "section" | "section-back",
): [number, number] | null {
  const filled = (from: number, by: number): number => {
    let at = from;
    while (counts[at] === 0) at += by;
    return at;
  };
  const last = (at: number) => (counts[at] ?? 1) - 1;
  switch (how) {
    case "next": {
      if (field < last(section)) return [section, field + 1];
      const at = filled(section + 1, 1);
      return counts[at] === undefined ? null : [at, 0];
    }
    case "previous": {
      if (field > 0) return [section, field - 1];
      const at = filled(section - 1, -1);
      return counts[at] === undefined ? null : [at, last(at)];
    }
    case "section": {
      const at = filled(section + 1, 1);
      return counts[at] === undefined ? null : [at, 0];
    }
    case "section-back": {
      const at = filled(section - 1, -1);
      return counts[at] === undefined ? null : [at, 0];
    }
  }
}

/** walk moves the focus inside the nearest form; past its end it goes to what is marked as coming next. */
export function walk(from: HTMLElement, how: "next" | "previous" | "section" | "section-back"): boolean {
  const form = from.closest("[data-form]");
  if (form === null) return false;
  const sections = [...form.querySelectorAll("[data-section]")].map((one) => [
    ...one.querySelectorAll<HTMLElement>(fieldIn),
  ]);
  const section = sections.findIndex((fields) => fields.includes(from));
  if (section < 0) return false;
  const field = sections[section]?.indexOf(from) ?? 0;
  const to = step(
    sections.map((fields) => fields.length),
    section,
    field,
    how,
  );
  const target = to === null ? form.querySelector<HTMLElement>("[data-next]") : sections[to[0]]?.[to[1]];
  if (target === undefined || target === null) return false;
  target.focus();
  if (target instanceof HTMLInputElement && target.type !== "checkbox") target.select();
  target.scrollIntoView({ block: "nearest" });
  return true;
}

export function walkKey(event: { key: string; shiftKey: boolean; ctrlKey: boolean }) {
  if (event.key === "Enter") return event.shiftKey ? "previous" : "next";
  if (event.key === "PageDown") return "section";
  if (event.key === "PageUp") return "section-back";
  return null;
}
