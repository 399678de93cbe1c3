/** shared gives the new value with every part that did not change taken from the old one, so that what is
 *  drawn from it is left alone. */
export function shared<T>(before: T, after: T): T {
  if (Object.is(before, after)) return before;
  if (Array.isArray(before) && Array.isArray(after)) return sharedList(before, after) as T;
  if (!isRecord(before) || !isRecord(after)) return after;
  let same = true;
  const out: Record<string, unknown> = {};
  for (const key of Object.keys(after)) {
    out[key] = shared(before[key], after[key]);
    same &&= out[key] === before[key] && key in before;
  }
  return same && Object.keys(before).length === Object.keys(after).length ? before : (out as T);
}

function sharedList(before: readonly unknown[], after: readonly unknown[]): readonly unknown[] {
  const byId = new Map(before.filter(hasId).map((one) => [one.id, one] as const));
  const out = after.map((one, nth) =>
    shared(hasId(one) ? (byId.get(one.id) ?? before[nth]) : before[nth], one),
  );
  return out.length === before.length && out.every((one, nth) => one === before[nth]) ? before : out;
}

const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const hasId = (value: unknown): value is { id: string } => isRecord(value) && typeof value.id === "string";
