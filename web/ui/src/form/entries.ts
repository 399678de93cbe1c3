// Entries of the build that a form can hold several of: promises, decisions, plated sets.

import type { BuildView, Edit, FormSection } from "../api.gen";

interface Several {
  /** how the ids of its sections begin */
  begins: string;
  list: string;
  word: string;
  value(id: string): string;
}

const several: readonly Several[] = [
  {
    begins: "promise-",
    list: "job/promises",
    word: "promise",
    value: (id) => `{id: ${id}, what: payload-left}`,
  },
  { begins: "decision-", list: "job/decisions", word: "decision", value: (id) => `{id: ${id}}` },
  { begins: "plate-", list: "van/plates", word: "plated set", value: (id) => `{id: ${id}, basis: uprated}` },
];

const single = new Set(["plate-in-use"]);

/** added makes one more entry of a list, under an id not in use. */
export function added(list: string, sections: readonly FormSection[]): Edit[] {
  const kind = several.find((one) => one.list === list);
  if (kind === undefined) return [];
  const base = kind.word.replace(/\s/g, "-");
  const used = new Set(sections.map((one) => one.id));
  let nth = 1;
  while (used.has(`${kind.begins}${base}-${nth}`)) nth += 1;
  return [{ kind: "ops", ops: [{ op: "insert", path: list, value: kind.value(`${base}-${nth}`) }] }];
}

/** removal takes the entry of a section out again; null when the section is no such entry. */
export function removal(section: FormSection): { word: string; edits: Edit[] } | null {
  if (single.has(section.id)) return null;
  const kind = several.find((one) => section.id.startsWith(one.begins));
  if (kind === undefined) return null;
  const path = `${kind.list}/${section.id.slice(kind.begins.length)}`;
  return { word: kind.word, edits: [{ kind: "ops", ops: [{ op: "remove", path }] }] };
}

export const allSections = (view: BuildView): FormSection[] => [...view.job, ...view.van];
