import type { BuildView, Sentence, Subject } from "../api.gen";

/** firstMissing is the entry that would let an unknown figure be worked out. */
export function firstMissing(view: BuildView, claim?: Sentence): Subject | undefined {
  const unknown = view.findings.filter((one) => one.verdict === "unknown" && (one.missing ?? []).length > 0);
  const own = claim === undefined ? undefined : unknown.find((one) => one.key === claim.key);
  return (own ?? unknown[0])?.missing.find((one) => one.path !== "");
}
