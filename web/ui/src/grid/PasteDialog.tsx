import { useEffect, useRef, useState } from "react";
import { Dialog, Heading, Modal, ModalOverlay } from "react-aria-components";
import { api, Lost, Refused } from "../api/client";
import type { GridView, PasteMatch } from "../api.gen";
import { Scroll } from "../bits/Scroll";
import { useSession } from "../store/open";

interface Props {
  grid: GridView;
  text: string;
  after: string;
  onClose(): void;
}

/** PasteDialog shows how a pasted table was understood, lets columns be corrected, and puts it in. */
export function PasteDialog({ grid, text, after, onClose }: Props) {
  const session = useSession();
  const [found, setFound] = useState<PasteMatch | null>(null);
  const [columns, setColumns] = useState<string[] | null>(null);
  const [header, setHeader] = useState<boolean | null>(null);
  const [said, say] = useState("");
  const put = useRef<HTMLButtonElement>(null);

  useEffect(() => {
    let current = true;
    api
      .paste(session.id, {
        grid: grid.id,
        text,
        ...(after === "" ? {} : { after }),
        ...(columns === null ? {} : { columns }),
        ...(header === null ? {} : { header }),
      })
      .then((match) => {
        if (current) setFound(match);
      })
      .catch((reason: unknown) => {
        if (!current) return;
        if (reason instanceof Lost) say("The server does not answer; the table is not put in.");
        else if (reason instanceof Refused) say(reason.problem.text);
        else throw reason;
      });
    return () => {
      current = false;
    };
  }, [session, grid.id, text, after, columns, header]);

  const ready = found !== null;
  useEffect(() => {
    if (ready) put.current?.focus();
  }, [ready]);

  const go = () => {
    if (found === null || found.edits.length === 0) return;
    session.change(`paste ${found.rows} rows`, found.edits);
    onClose();
  };

  const bad = found?.bad ?? [];
  return (
    <ModalOverlay className="over" isOpen isDismissable onOpenChange={(open) => open || onClose()}>
      <Modal className="leaf wide">
        <Dialog>
          <Heading slot="title">
            {found === null ? "Reading the table…" : `${found.rows} rows to put in`}
          </Heading>
          {said !== "" && <p role="alert">{said}</p>}
          {found !== null && (
            <>
              <Scroll label="the pasted table">
                <table className="schedule matcher">
                  <thead>
                    <tr>
                      {found.columns.map((column, nth) => (
                        // biome-ignore lint/suspicious/noArrayIndexKey: columns of the pasted table keep their place
                        <th key={nth}>
                          <select
                            className="line"
                            aria-label={`column ${nth + 1}${title(found, nth)}`}
                            value={column}
                            onChange={(event) => setColumns(found.columns.with(nth, event.target.value))}
                          >
                            <option value="">leave out</option>
                            {grid.columns
                              .filter((one) => !one.fixed)
                              .map((one) => (
                                <option key={one.id} value={one.id}>
                                  {one.title}
                                  {one.unit !== undefined && one.unit !== "" ? ` (${one.unit})` : ""}
                                </option>
                              ))}
                          </select>
                          <span className="from">{found.titles?.[nth]}</span>
                        </th>
                      ))}
                    </tr>
                  </thead>
                  <tbody>
                    {(found.sample ?? []).slice(0, 6).map((row) => (
                      <tr key={row.join("\t")}>
                        {row.map((cell, nth) => (
                          // biome-ignore lint/suspicious/noArrayIndexKey: columns of the pasted table keep their place
                          <td key={nth} className={found.columns[nth] === "" ? "out" : ""}>
                            {cell}
                          </td>
                        ))}
                      </tr>
                    ))}
                  </tbody>
                </table>
              </Scroll>
              {bad.length > 0 && (
                <p>
                  {bad.length === 1 ? "One cell" : `${bad.length} cells`} cannot be read as typed; they are
                  kept and marked, nothing is lost. First: {bad[0]?.text}
                  {bad[0]?.hint !== undefined && bad[0].hint !== "" && `: ${bad[0].hint}`}.
                </p>
              )}
              {found.says !== undefined && found.says !== "" && (
                <p>
                  {found.says.charAt(0).toUpperCase()}
                  {found.says.slice(1)}.
                </p>
              )}
              <label className="tick">
                <input
                  type="checkbox"
                  checked={found.header}
                  onChange={(event) => setHeader(event.target.checked)}
                />{" "}
                the first line names the columns
              </label>
              <div className="doings">
                <button
                  type="button"
                  className="do first"
                  ref={put}
                  onClick={go}
                  disabled={found.edits.length === 0}
                >
                  Put {found.rows} rows in
                </button>
                <button type="button" className="do" onClick={onClose}>
                  Leave it
                </button>
              </div>
            </>
          )}
        </Dialog>
      </Modal>
    </ModalOverlay>
  );
}

function title(found: PasteMatch, nth: number): string {
  const text = found.titles?.[nth];
  return text === undefined || text === "" ? "" : `, ${text}`;
}
