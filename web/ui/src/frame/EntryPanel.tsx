import { useEffect, useRef, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { FormList, FormSection, FormView } from "../api.gen";
import { Field, Form, type Setter, useSetter } from "../form/Form";
import { useCell } from "../store/cell";
import { useSession, useView } from "../store/open";

/** EntryPanel is every field of one entry of the document, with units and hints, written from the field table. */
export function EntryPanel() {
  const session = useSession();
  const path = useCell(session.entry);
  return path === "" ? null : <Panel key={path} path={path} />;
}

function Panel({ path }: { path: string }) {
  const session = useSession();
  const { revision } = useView();
  const setter = useSetter();
  const [form, setForm] = useState<FormView | null>(null);
  const [trouble, setTrouble] = useState("");
  const box = useRef<HTMLElement>(null);
  const before = useRef(document.activeElement);

  // biome-ignore lint/correctness/useExhaustiveDependencies: asked again for every revision
  useEffect(() => {
    let current = true;
    api
      .form(session.id, path)
      .then((answer) => {
        if (!current) return;
        setForm(answer);
        setTrouble("");
      })
      .catch((reason: unknown) => {
        if (!current) return;
        if (reason instanceof Lost) setTrouble("The server does not answer.");
        else if (reason instanceof Refused) setTrouble(reason.problem.text);
        else throw reason;
      });
    return () => {
      current = false;
    };
  }, [session, path, revision]);

  const ready = form !== null;
  useEffect(() => {
    if (ready) box.current?.querySelector<HTMLElement>("[data-field]")?.focus();
  }, [ready]);

  const close = () => {
    session.entry.set("");
    if (before.current instanceof HTMLElement || before.current instanceof SVGElement) before.current.focus();
  };
  return (
    <aside
      className="side slip entry-panel"
      aria-label="Every field"
      ref={box}
      onKeyDown={(event) => {
        if (event.key !== "Escape" || event.defaultPrevented) return;
        event.stopPropagation();
        close();
      }}
    >
      <header>
        <div>
          <h2>{form?.title ?? "…"}</h2>
          <p className="small">{path.replaceAll("/", " · ")}</p>
        </div>
        <button type="button" className="word" onClick={close}>
          Close
        </button>
      </header>
      <div className="inner">
        {trouble !== "" && <p className="none">{trouble}</p>}
        {form !== null && (
          <Form>
            {form.sections.map((section) => (
              <Part key={section.id} section={section} form={form} setter={setter} />
            ))}
            <Lists lists={form.lists} form={form} />
          </Form>
        )}
      </div>
    </aside>
  );
}

const given = (section: FormSection) => section.fields.some((field) => field.text !== "");

/** Part is one section; one in which nothing is written stands shut. */
function Part({ section, form, setter }: { section: FormSection; form: FormView; setter: Setter }) {
  const session = useSession();
  const entry = form.lists.some((list) => !list.words && section.id.startsWith(`${list.path}/`));
  const first = section.id === form.path;
  const [open, setOpen] = useState(first || entry || given(section));
  return (
    <details
      className="part"
      open={open}
      data-section={section.id}
      onToggle={(event) => setOpen(event.currentTarget.open)}
    >
      <summary>
        <h3>{section.title}</h3>
        {!given(section) && <span className="small">nothing written</span>}
      </summary>
      {section.says !== undefined && section.says !== "" && <p className="says small">{section.says}</p>}
      {open && (
        <div className="fields">
          {section.fields.map((field) => (
            <div key={field.path} className="with-help">
              <Field field={field} setter={setter} />
              {field.help !== undefined && <p className="hint small">{field.help}</p>}
            </div>
          ))}
        </div>
      )}
      {entry && form.lists.some((list) => section.id.slice(0, section.id.lastIndexOf("/")) === list.path) && (
        <button
          type="button"
          className="word"
          onClick={() =>
            session.change(`take out ${section.title}`, [
              { kind: "ops", ops: [{ op: "remove", path: section.id }] },
            ])
          }
        >
          Take out<span className="hidden"> {section.title}</span>
        </button>
      )}
    </details>
  );
}

function Lists({ lists, form }: { lists: FormList[]; form: FormView }) {
  const session = useSession();
  if (lists.length === 0) return null;
  return (
    <section className="part lists" aria-label="Lists">
      <h3>Lists</h3>
      {lists.map((list) =>
        list.words ? (
          <Words key={list.path} list={list} />
        ) : (
          <p key={list.path} className="list-row">
            <button
              type="button"
              className="word"
              onClick={() =>
                session.change(`another of ${list.title}`, [
                  { kind: "ops", ops: [{ op: "insert", path: list.path, value: fresh(list, form) }] },
                ])
              }
            >
              Add: {list.title}
            </button>
            <span className="small"> {list.help}</span>
          </p>
        ),
      )}
    </section>
  );
}

/** fresh is a new entry of a list, under a name not in use there. */
export function fresh(list: FormList, form: Pick<FormView, "sections">): string {
  if (list.key === "") return "{}";
  const used = new Set(
    form.sections.filter((one) => one.id.startsWith(`${list.path}/`)).map((one) => one.id.split("/").at(-1)),
  );
  const word = (list.path.split("/").at(-1) ?? "entry").replace(/s$/, "");
  let nth = 1;
  while (used.has(`${word}-${nth}`)) nth += 1;
  return `{${list.key}: ${word}-${nth}}`;
}

/** Words is a list of words or ids, typed in one line with commas between. */
function Words({ list }: { list: FormList }) {
  const session = useSession();
  const [typed, setTyped] = useState<string | null>(null);
  const commit = () => {
    if (typed === null) return;
    setTyped(null);
    if (typed.trim() === (list.text ?? "")) return;
    const words = typed
      .split(",")
      .map((word) => word.trim())
      .filter((word) => word !== "");
    session.change(list.title, [
      {
        kind: "ops",
        ops: [
          words.length === 0
            ? { op: "unset", path: list.path }
            : {
                op: "set",
                path: list.path,
                value: `[${words.map((word) => JSON.stringify(word)).join(", ")}]`,
              },
        ],
      },
    ]);
  };
  return (
    <div className="field">
      <label htmlFor={list.path}>{list.title}</label>
      <div className="entry">
        <input
          className="line"
          id={list.path}
          data-field=""
          value={typed ?? list.text ?? ""}
          onChange={(event) => setTyped(event.target.value)}
          onBlur={commit}
          onKeyDown={(event) => {
            if (event.key === "Enter") commit();
          }}
        />
      </div>
      <p className="hint small">{list.help}; parted by commas</p>
    </div>
  );
}
