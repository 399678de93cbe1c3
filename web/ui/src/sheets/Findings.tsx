import { useState } from "react";
import type { FindingView } from "../api.gen";
import { Figure } from "../bits/Figure";
import { Verdict, verdictOf } from "../bits/Verdict";
import { goToField } from "../form/jump";
import { useSession } from "../store/open";

const flagged = (finding: FindingView) => finding.verdict !== "holds" && finding.verdict !== "not-begun";

/** Findings lists what the checks say, worst first; what holds is behind one line. */
export function Findings({ findings }: { findings: FindingView[] }) {
  const [all, showAll] = useState(false);
  const raised = findings
    .filter(flagged)
    .toSorted((a, b) => Number(a.advisory === true) - Number(b.advisory === true));
  const quiet = findings.filter((finding) => !flagged(finding));
  return (
    <>
      {raised.length === 0 && <p className="none">No finding is raised.</p>}
      <ul className="findings">
        {[...raised, ...(all ? quiet : [])].map((finding) => (
          <One key={finding.key} finding={finding} />
        ))}
      </ul>
      {quiet.length > 0 && (
        <p className="says">
          <button type="button" className="word" aria-expanded={all} onClick={() => showAll(!all)}>
            {all ? "Hide what holds" : `${quiet.length} more hold`}
          </button>
        </p>
      )}
    </>
  );
}

function One({ finding }: { finding: FindingView }) {
  const session = useSession();
  const missing = finding.missing ?? [];
  return (
    <li>
      <p className="headline">
        <Verdict verdict={verdictOf(finding)} />
        <span className="text">
          <Figure slip={finding.slip}>{finding.text}</Figure>
        </span>
      </p>
      <p className="small">
        {[finding.title, finding.rule, finding.basis, finding.evidence]
          .filter((word) => word !== "")
          .join(" · ")}
      </p>
      {missing.length > 0 && (
        <p className="small">
          Missing:{" "}
          {missing.map((one, nth) => (
            <span key={one.path}>
              {nth > 0 && ", "}
              <button type="button" className="word" onClick={() => goToField(session, one.path)}>
                {one.name}
              </button>
            </span>
          ))}
        </p>
      )}
      {finding.advice !== undefined && finding.advice !== "" && <p className="advice">{finding.advice}</p>}
      {finding.caution !== undefined && finding.caution !== "" && <p className="small">{finding.caution}</p>}
    </li>
  );
}
