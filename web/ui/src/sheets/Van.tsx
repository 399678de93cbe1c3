import { useEffect, useState } from "react";
import { Form, More, Section, useSetter } from "../form/Form";
import { goal } from "../form/jump";
import { useSession, useView } from "../store/open";
import { toBuild } from "../store/route";
import { SwapVan } from "./SwapVan";
import { TapePicture, tapeOf } from "./TapePicture";

/** Van is the base van in the order of a converter: class, plate, ticket, what was aboard, tapes. */
export function Van() {
  const view = useView();
  const session = useSession();
  const [tape, setTape] = useState("");
  const setter = { ...useSetter(), onHere: setTape };
  const fields = view.van.flatMap((section) => section.fields);

  useEffect(() => {
    if (goal.get() !== "start") return;
    const plate = fields.find((field) => /plated[/.]total/.test(field.path)) ?? fields[0];
    goal.set(plate?.path ?? "");
  }, [fields]);

  return (
    <div className="pad">
      <Form>
        <div className="van-cols">
          {view.van.map((section) =>
            section.fields.some((field) => tapeOf(field.path) !== "") ? (
              <div className="survey" key={section.id}>
                <Section section={section} setter={setter} />
                <TapePicture now={tapeOf(tape)} />
              </div>
            ) : (
              <Section key={section.id} section={section} setter={setter} />
            ),
          )}
        </div>
        <p className="doings below">
          <a className="do first" data-next="" href={toBuild(session.id, "kit")}>
            On to the kit
          </a>
          <More list="van/plates" title="another plated set">
            Another plated set
          </More>
          <SwapVan />
          <span className="small">Enter goes to the next line, Page Down to the next part.</span>
        </p>
      </Form>
    </div>
  );
}
