import type { AxleLine, CaseView } from "../api.gen";
import { Figure } from "../bits/Figure";
import { Scroll } from "../bits/Scroll";
import { Verdict } from "../bits/Verdict";
import { useSession, useView } from "../store/open";

/** Tables are the figures behind the drawing: cases, payload, what can still be added, what clears it. */
export function Tables() {
  return (
    <div className="pad tables">
      <div className="cols">
        <Cases />
        <Party />
        <Added />
        <Wheels />
        <Plates />
        <Standing />
        <Clears />
      </div>
    </div>
  );
}

const line = (of: CaseView, id: string): AxleLine | undefined => of.lines.find((one) => one.id === id);

function Cases() {
  const { cases } = useView();
  const ids = ["front", "rear", "total"].filter((id) => cases.some((one) => line(one, id) !== undefined));
  return (
    <section className="part">
      <h2>Load cases</h2>
      {cases.length === 0 && <p className="none">No case can be worked out yet.</p>}
      {cases.length > 0 && (
        <Scroll label="load cases">
          <table className="schedule">
            <thead>
              <tr>
                <th>Case</th>
                {ids.map((id) => (
                  <th key={id} className="num" colSpan={2}>
                    {cases.map((one) => line(one, id)?.name).find((name) => name !== undefined)}, and in hand
                  </th>
                ))}
                <th>Says</th>
              </tr>
            </thead>
            <tbody>
              {cases.map((one) => (
                <tr key={one.id} className={one.deciding ? "own" : ""}>
                  <td>
                    <Figure slip={one.slip}>{one.name}</Figure>
                    {one.deciding && " — decides"}
                    <span className="small says"> {one.says}</span>
                    {(one.order ?? []).length > 0 && (
                      <details>
                        <summary className="small">filling order</summary>
                        <ol className="small order">
                          {one.order.map((row) => (
                            <li key={row}>{row}</li>
                          ))}
                        </ol>
                      </details>
                    )}
                  </td>
                  {ids.map((id) => {
                    const found = line(one, id);
                    return [
                      <td key={`${id}v`} className="num">
                        <Figure slip={found?.slip}>{found?.value?.text ?? "unknown"}</Figure>
                      </td>,
                      <td key={`${id}m`} className="num">
                        {found?.margin?.text}
                      </td>,
                    ];
                  })}
                  <td>
                    <Verdict verdict={one.verdict} />
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
    </section>
  );
}

function Party() {
  const { party } = useView();
  return (
    <section className="part half">
      <h2>Payload left, by party and fill</h2>
      {party.length === 0 && <p className="none">Unknown until people and fills are declared.</p>}
      {party.length > 0 && (
        <Scroll label="payload left">
          <table className="schedule">
            <thead>
              <tr>
                <th>Who</th>
                <th>Filled</th>
                <th className="num">Left</th>
                <th>What ends it</th>
              </tr>
            </thead>
            <tbody>
              {party.map((row) => (
                <tr key={row.who + row.fill}>
                  <td>{row.who}</td>
                  <td>{row.fill}</td>
                  <td className="num">{row.left?.text ?? "unknown"}</td>
                  <td>
                    {row.ends} {row.verdict !== "holds" && <Verdict verdict={row.verdict} />}
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Scroll>
      )}
    </section>
  );
}

function Added() {
  const { added } = useView();
  return (
    <section className="part half">
      <h2>What can still be added, by zone</h2>
      {!added.known && (
        <p className="none">Unknown{added.why !== undefined && added.why !== "" ? `: ${added.why}` : ""}.</p>
      )}
      {added.known && (
        <table className="schedule">
          <thead>
            <tr>
              <th>Zone</th>
              <th className="num">Still</th>
              <th>What ends it</th>
            </tr>
          </thead>
          <tbody>
            {(added.zones ?? []).map((row) => (
              <tr key={row.zone}>
                <td>{row.zone}</td>
                <td className="num">{row.kg?.text ?? "unknown"}</td>
                <td>{row.ends}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </section>
  );
}

function Wheels() {
  const { wheels } = useView();
  return (
    <section className="part half">
      <h2>Wheels</h2>
      {wheels === undefined && (
        <p className="none">Unknown until both axles, a side and the tracks are known.</p>
      )}
      {wheels !== undefined && (
        <>
          <p className="small says">
            {wheels.case}; {wheels.basis}
          </p>
          <table className="schedule">
            <thead>
              <tr>
                <th>Wheel</th>
                <th className="num">From</th>
                <th className="num">To</th>
              </tr>
            </thead>
            <tbody>
              {wheels.rows.map((row) => (
                <tr key={row.name}>
                  <td>{row.name}</td>
                  <td className="num">{row.low.text}</td>
                  <td className="num">{row.high.text}</td>
                </tr>
              ))}
            </tbody>
          </table>
        </>
      )}
    </section>
  );
}

/** Plates sets the plated sets side by side; with only the one on the van there is nothing to compare. */
function Plates() {
  const { plates } = useView();
  if (plates.length < 2) return null;
  return (
    <section className="part half">
      <h2>Plated sets, what each leaves</h2>
      <Scroll label="plated sets">
        <table className="schedule">
          <thead>
            <tr>
              <th>In hand, worst case</th>
              {plates.map((plate) => (
                <th key={plate.name} className="num">
                  {plate.name}
                  {plate.inUse && " — judged here"}
                </th>
              ))}
            </tr>
          </thead>
          <tbody>
            {(["total", "front", "rear"] as const).map((what) => (
              <tr key={what}>
                <td>{what}</td>
                {plates.map((plate) => (
                  <td key={plate.name} className="num">
                    {plate[what]?.text ?? "unknown"}
                  </td>
                ))}
              </tr>
            ))}
            <tr>
              <td>says</td>
              {plates.map((plate) => (
                <td key={plate.name} className="num">
                  <Verdict verdict={plate.verdict} />
                </td>
              ))}
            </tr>
          </tbody>
        </table>
      </Scroll>
      {plates.map((plate) =>
        plate.basis === undefined && plate.paper === undefined ? null : (
          <p key={plate.name} className="small says">
            {plate.name}: {[plate.basis, plate.paper].filter((word) => word !== undefined).join(", ")}
          </p>
        ),
      )}
    </section>
  );
}

/** Standing gives the finished van, dry and nobody aboard, where something then stands elsewhere. */
function Standing() {
  const { standing } = useView();
  if (standing.length === 0) return null;
  return (
    <section className="part half">
      <h2>Standing, dry, nobody aboard</h2>
      {standing.map((state) => (
        <table key={state.state} className="schedule">
          <thead>
            <tr>
              <th colSpan={2}>{state.name}</th>
            </tr>
          </thead>
          <tbody>
            {state.lines.map((row) => (
              <tr key={row.name}>
                <td>{row.name}</td>
                <td className="num">{row.value.text}</td>
              </tr>
            ))}
          </tbody>
        </table>
      ))}
    </section>
  );
}

function Clears() {
  const session = useSession();
  const { clears, findings } = useView();
  return (
    <section className="part">
      <h2>What clears it</h2>
      {clears.length === 0 && <p className="none">Nothing fails, so there is nothing to clear.</p>}
      <ul className="lines">
        {clears.map((row) => (
          <li key={row.finding + row.text}>
            <span className="grow">
              {row.text}
              <span className="small">
                {" "}
                {row.clears ? "clears" : "helps"}{" "}
                {findings.find((one) => one.key === row.finding)?.title.toLowerCase()}
                {row.reopens.length > 0 && `; opens again: ${row.reopens.join(", ")}`}
              </span>
            </span>
            <span className="mono">{row.gain.text}</span>
            {(row.edits ?? []).length > 0 && (
              <button
                type="button"
                className="word"
                onClick={() => session.change(row.text, row.edits ?? [])}
              >
                Do it
              </button>
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}
