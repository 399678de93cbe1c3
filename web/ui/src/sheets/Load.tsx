import { useState } from "react";
import type { GridView } from "../api.gen";
import { Figure } from "../bits/Figure";
import { Mark, verdictWord } from "../bits/Verdict";
import { Form, Section, useSetter } from "../form/Form";
import { Grid } from "../grid/Grid";
import { PasteDialog } from "../grid/PasteDialog";
import { useView } from "../store/open";
import { nameOf } from "./Kit";

/** Load is the declared loading plan: who, what is filled, what is stowed where. */
export function Load() {
  const { loading } = useView();
  const setter = useSetter();
  const [pasted, setPasted] = useState<{ grid: GridView; text: string; after: string } | null>(null);
  const grids: [GridView, string, string][] = [
    [loading.people, "People", "Each is counted at the larger of 75 kg and their own mass."],
    [loading.zones, "Luggage", "Limits by zone, and one limit for all together."],
    [loading.tanks, "Tanks and gas", "How full each may be while driving."],
    [loading.carried, "Carried in whole pieces", "Bicycles, boats, a dog and its crate."],
  ];
  return (
    <div className="pad">
      <div className="cols">
        {grids.map(([grid, title, says]) => (
          <section className="part" key={grid.id}>
            <h2>{title}</h2>
            <p className="says small">{says}</p>
            <Grid
              grid={grid}
              label={title}
              nameColumn={nameOf(grid.columns)}
              onTable={(text, after) => setPasted({ grid, text, after })}
            />
          </section>
        ))}
        <Form>
          <div className="job-form">
            {loading.plan.map((section) => (
              <Section key={section.id} section={section} setter={setter} />
            ))}
          </div>
        </Form>
        <section className="part">
          <h2>What the placard will say</h2>
          {loading.placard.length === 0 && (
            <p className="none">Nothing yet: no luggage and no seats are declared.</p>
          )}
          <ul className="placard">
            {loading.placard.map((row) => (
              <li key={row.key}>
                {row.verdict !== "" && row.verdict !== "holds" && <Mark verdict={row.verdict} />}
                <span>
                  <Figure slip={row.slip}>{row.text}</Figure>
                  {row.verdict !== "" && row.verdict !== "holds" && (
                    <span className="hidden">, {verdictWord(row.verdict)}</span>
                  )}
                  {row.detail !== undefined && row.detail !== "" && (
                    <span className="small"> {row.detail}</span>
                  )}
                </span>
              </li>
            ))}
          </ul>
        </section>
      </div>
      {pasted !== null && <PasteDialog {...pasted} onClose={() => setPasted(null)} />}
    </div>
  );
}
