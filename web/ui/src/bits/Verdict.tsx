// A verdict is a word and a mark whose shape says the same: nothing hangs on tone alone.

const words: Record<string, string> = {
  holds: "holds",
  tight: "tight",
  "does-not-hold": "does not hold",
  unknown: "unknown",
  "not-begun": "not begun",
  note: "note",
};

export const verdictWord = (verdict: string) => words[verdict] ?? verdict;

/** verdictOf is how a finding is marked: what is only advice is a note, whatever it comes to. */
export const verdictOf = (finding: { verdict: string; advisory?: boolean }) =>
  finding.advisory === true && finding.verdict !== "holds" ? "note" : finding.verdict;

export function Mark({ verdict }: { verdict: string }) {
  return (
    <svg className="mark" viewBox="0 0 12 12" aria-hidden="true">
      {shape(verdict)}
    </svg>
  );
}

function shape(verdict: string) {
  switch (verdict) {
    case "holds":
      return <path d="M1 6.5 4.5 10 11 2" />;
    case "tight":
      return (
        <>
          <path d="M6 1 11.5 11H.5z" />
          <path className="full" d="M6 1 6 11H.5z" />
        </>
      );
    case "does-not-hold":
      return <path className="full" d="M.8 .8h10.4v10.4H.8z" />;
    case "unknown":
      return <path d="M1 1h10v10H1z" strokeDasharray="2.2 2" />;
    case "note":
      return <path d="M6 2.5a3.5 3.5 0 1 0 0 7 3.5 3.5 0 1 0 0-7" />;
    default:
      return <path d="M1 6h10" />;
  }
}

export function Verdict({ verdict }: { verdict: string }) {
  return (
    <span className={`verdict ${verdict}`}>
      <Mark verdict={verdict} />
      {verdictWord(verdict)}
    </span>
  );
}
