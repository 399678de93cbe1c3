import { type FormEvent, useEffect, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { FieldView, RecordView } from "../api.gen";
import { Figure } from "../bits/Figure";
import { Scroll } from "../bits/Scroll";
import { Mark, Verdict, verdictWord } from "../bits/Verdict";
import { Form, Section, type Setter } from "../form/Form";
import { goToField } from "../form/jump";
import { newId } from "../store/me";
import { useSession, useView } from "../store/open";

/** RecordSheet holds the weighings and what they say of the sum. Nothing in it is ever undone. */
export function RecordSheet() {
  const session = useSession();
  const view = useView();
  const [record, setRecord] = useState<RecordView | null>(null);
  const [typed, setTyped] = useState<Record<string, string>>({});
  const [said, say] = useState("");
  const [id, setId] = useState(newId);

  // biome-ignore lint/correctness/useExhaustiveDependencies: fetched again for every revision
  useEffect(() => {
    let current = true;
    api
      .record(session.id)
      .then((found) => {
        if (current) setRecord(found);
      })
      .catch((reason: unknown) => {
        if (current) say(words(reason));
      });
    return () => {
      current = false;
    };
  }, [session, view.revision]);

  const setter: Setter = {
    set: (field: FieldView, text: string) => setTyped((was) => ({ ...was, [field.path]: text })),
    pending: (path) => typed[path],
  };

  const put = (event: FormEvent) => {
    event.preventDefault();
    api
      .weigh(session.id, { id, fields: typed })
      .then((found) => {
        setRecord(found);
        setTyped({});
        setId(newId());
        say("");
        void session.load();
      })
      .catch((reason: unknown) => say(words(reason)));
  };

  if (record === null)
    return (
      <div className="pad">
        <p className="none">{said === "" ? "Fetching the record…" : said}</p>
      </div>
    );
  const weighings = record.weighings ?? [];
  const residuals = record.residuals ?? [];
  const suspects = record.suspects ?? [];
  return (
    <div className="pad">
      <div className="cols">
        <section className="part most">
          <h2>What the weighings say</h2>
          {(record.says ?? []).map((row) => (
            <p key={row.key} className={`verdict-line big ${row.verdict}`}>
              <Mark verdict={row.verdict} />
              <span>
                <span className="hidden">{verdictWord(row.verdict)}: </span>
                <Figure slip={row.slip}>{row.text}</Figure>
                {row.detail !== undefined && <span className="small"> {row.detail}</span>}
              </span>
            </p>
          ))}
          {record.refused !== undefined && record.refused !== "" && (
            <p className="strong">{record.refused}</p>
          )}
          {weighings.length === 0 && (
            <p className="none">Nothing was weighed yet. The sum stands on its own ±.</p>
          )}
          {residuals.length > 0 && (
            <Scroll label="readings against the sum">
              <table className="schedule">
                <thead>
                  <tr>
                    <th>Reading</th>
                    <th className="num">Read</th>
                    <th className="num">Expected</th>
                    <th className="num">Off by</th>
                    <th className="num">Within</th>
                    <th>Says</th>
                  </tr>
                </thead>
                <tbody>
                  {residuals.map((row) => (
                    <tr key={row.name}>
                      <td>{row.name}</td>
                      <td className="num">{row.read.text}</td>
                      <td className="num">{row.expected.text}</td>
                      <td className="num">{row.off.text}</td>
                      <td className="num">{row.within}</td>
                      <td>
                        <Verdict verdict={row.verdict} />
                      </td>
                    </tr>
                  ))}
                </tbody>
              </table>
            </Scroll>
          )}
          {suspects.length > 0 && (
            <p className="says">
              Look at{" "}
              {suspects.map((one, nth) => (
                <span key={one.path}>
                  {nth > 0 && ", "}
                  <button type="button" className="word" onClick={() => goToField(session, one.path)}>
                    {one.name}
                  </button>
                </span>
              ))}{" "}
              first.
            </p>
          )}
        </section>
        <section className="part third">
          <h2>Weighings</h2>
          {weighings.length === 0 && <p className="none">None.</p>}
          <ul className="lines">
            {weighings.map((row) => (
              <li key={row.id}>
                <span className="grow">
                  <b>{row.stage}</b> {row.date}
                  <br />
                  {row.text}
                  {row.by !== "" && <span className="small"> read by {row.by}</span>}
                </span>
              </li>
            ))}
          </ul>
        </section>
        <form onSubmit={put}>
          <Form>
            <div className="job-form">
              {(record.form ?? []).map((section) => (
                <Section key={section.id} section={section} setter={setter} className="long" />
              ))}
            </div>
            <div className="doings below">
              <button
                type="submit"
                className="do first"
                data-next=""
                disabled={Object.keys(typed).length === 0}
              >
                Put this weighing on the record
              </button>
              <span className="small">It cannot be taken back; a wrong one is answered by a new one.</span>
              {said !== "" && <span role="alert">{said}</span>}
            </div>
          </Form>
        </form>
      </div>
    </div>
  );
}

function words(reason: unknown): string {
  if (reason instanceof Lost) return "The server does not answer; nothing was put on the record.";
  if (reason instanceof Refused)
    return [reason.problem.text, ...(reason.problem.fields ?? []).map((one) => one.text)].join(": ");
  throw reason;
}
