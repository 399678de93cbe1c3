import { type KeyboardEvent, type ReactNode, useEffect, useId, useRef, useState } from "react";
import type { FieldView, FormSection } from "../api.gen";
import { useSession, useShown, useView } from "../store/open";
import { added, allSections, removal } from "./entries";
import { goal, reached } from "./jump";
import { walk, walkKey } from "./walk";

export interface Setter {
  /** told which entry has the focus */
  onHere?(path: string): void;
  set(field: FieldView, text: string): void;
  /** what was typed and is not yet acknowledged */
  pending(path: string): string | undefined;
}

/** useSetter posts each field at once as a change of its own. */
export function useSetter(): Setter {
  const session = useSession();
  const waiting = useShown((shown) => shown.waiting);
  return {
    set: (field, text) => void session.change(field.label, [{ kind: "field", path: field.path, text }]),
    pending: (path) => {
      let text: string | undefined;
      for (const change of waiting)
        for (const edit of change.edits)
          if (edit.kind === "field" && edit.path === path) text = edit.text ?? "";
      return text;
    },
  };
}

export function Form({ children }: { children: ReactNode }) {
  return <div data-form="">{children}</div>;
}

export function Section({
  section,
  setter,
  className,
}: {
  section: FormSection;
  setter: Setter;
  className?: string;
}) {
  const id = useId();
  const ticks = section.fields.length > 2 && section.fields.every((field) => field.kind === "yes-no");
  const tail = ticks ? [] : trailingTicks(section.fields);
  const plain = section.fields.slice(0, section.fields.length - tail.length);
  return (
    <section className={`part ${className ?? ""}`} aria-labelledby={id} data-section={section.id}>
      <h2 id={id}>
        {section.title}
        <TakeOut section={section} />
      </h2>
      {section.says !== undefined && section.says !== "" && <p className="says small">{section.says}</p>}
      {!ticks && (
        <div className="fields">
          {plain.map((field) => (
            <Field key={field.path} field={field} setter={setter} />
          ))}
        </div>
      )}
      {(ticks || tail.length > 0) && (
        <div className="ticks">
          {(ticks ? section.fields : tail).map((field) => (
            <Field key={field.path} field={field} setter={setter} />
          ))}
        </div>
      )}
    </section>
  );
}

function TakeOut({ section }: { section: FormSection }) {
  const session = useSession();
  const found = removal(section);
  if (found === null) return null;
  return (
    <button
      type="button"
      className="word"
      onClick={() => session.change(`take out a ${found.word}`, found.edits)}
    >
      Take out<span className="hidden"> this {found.word}</span>
    </button>
  );
}

/** More adds one more entry to a list of the build. */
export function More({ list, title, children }: { list: string; title: string; children: ReactNode }) {
  const session = useSession();
  const view = useView();
  return (
    <button
      type="button"
      className="word"
      onClick={() => session.change(title, added(list, allSections(view)))}
    >
      {children}
    </button>
  );
}

function trailingTicks(fields: FieldView[]): FieldView[] {
  let from = fields.length;
  while (from > 0 && fields[from - 1]?.kind === "yes-no") from -= 1;
  return fields.length - from >= 3 ? fields.slice(from) : [];
}

export function Field({ field, setter }: { field: FieldView; setter: Setter }) {
  const id = useId();
  const beside = useId();
  const root = useRef<HTMLDivElement>(null);
  useEffect(() => {
    const look = () => {
      if (!reached(field.path)) return;
      const input = root.current?.querySelector<HTMLElement>("[data-field]");
      input?.focus();
      if (input instanceof HTMLInputElement && input.type !== "checkbox" && input.type !== "radio")
        input.select();
      input?.scrollIntoView({ block: "center" });
    };
    look();
    return goal.watch(look);
  }, [field.path]);
  const notes = besides(field);
  const props = { id, field, setter, describedBy: notes === null ? undefined : beside };
  const tall = field.kind === "long-text";
  const help = field.help === undefined || field.help === field.label ? "" : field.help;
  const label = (
    <label htmlFor={id} title={help === "" ? undefined : help}>
      {field.label}
      {help !== "" && <span className="hidden">, {help}</span>}
    </label>
  );
  return (
    <div className={`field${tall ? " tall" : ""}`} ref={root} onFocus={() => setter.onHere?.(field.path)}>
      {field.path.startsWith("van/empty/with/") && field.kind === "yes-no" ? (
        <Aboard {...props} />
      ) : field.kind === "yes-no" ? (
        <>
          <Tick {...props} />
          {label}
        </>
      ) : (
        <>
          {label}
          {choices(field).length > 0 ? (
            <Pick {...props} />
          ) : tall ? (
            <LongText {...props} />
          ) : (
            <Line {...props} />
          )}
        </>
      )}
      {notes !== null && (
        <p className={`beside${field.mark === undefined ? "" : " bad"}`} id={beside}>
          {notes}
        </p>
      )}
    </div>
  );
}

const choices = (field: FieldView) => field.choices ?? [];

function besides(field: FieldView): ReactNode {
  if (field.mark !== undefined)
    return field.mark.hint === undefined || field.mark.hint === ""
      ? field.mark.text
      : `${field.mark.text}: ${field.mark.hint}`;
  const assumed =
    field.text === "" && field.assumed !== undefined && field.assumed !== "" ? field.assumed : "";
  const derived = field.derived ?? "";
  if (assumed === "" && derived === "") return null;
  return (
    <>
      {assumed !== "" && <span className="assumed">assumed: {assumed}</span>}
      {assumed !== "" && derived !== "" && " · "}
      {derived}
    </>
  );
}

interface Entry {
  id: string;
  field: FieldView;
  setter: Setter;
  describedBy: string | undefined;
}

/** useText holds what is being typed; outside typing it follows the server. */
function useText({ field, setter }: Entry) {
  const pending = setter.pending(field.path);
  const [typed, setTyped] = useState<string | null>(null);
  // read by blur right after Enter, before anything is drawn again
  const now = useRef<string | null>(null);
  const stored = pending ?? field.text;
  const type = (text: string | null) => {
    now.current = text;
    setTyped(text);
  };
  const commit = () => {
    const text = now.current?.trim();
    type(null);
    if (text !== undefined && text !== stored) setter.set(field, text);
  };
  return { stored, typed, type, commit };
}

function keys(event: KeyboardEvent<HTMLElement>, commit: () => void, back?: () => void) {
  const how = walkKey(event);
  if (event.key === "Escape" && back !== undefined) {
    back();
    event.stopPropagation();
    return;
  }
  if (how === null || event.ctrlKey || event.altKey) return;
  commit();
  if (walk(event.currentTarget, how)) event.preventDefault();
}

function Line(entry: Entry) {
  const { field, id, describedBy } = entry;
  const { stored, typed, type, commit } = useText(entry);
  const [here, setHere] = useState(false);
  const shown = typed ?? (here ? stored : stored === field.text && field.shown !== "" ? field.shown : stored);
  const number = field.unit !== undefined && field.unit !== "";
  return (
    <div className={`entry${number ? " right" : ""}`}>
      <input
        className="line"
        id={id}
        data-field=""
        value={shown}
        inputMode={number ? "decimal" : undefined}
        autoComplete="off"
        spellCheck={false}
        aria-invalid={field.mark !== undefined}
        aria-describedby={describedBy}
        onFocus={() => setHere(true)}
        onChange={(event) => type(event.target.value)}
        onBlur={() => {
          setHere(false);
          commit();
        }}
        onKeyDown={(event) => keys(event, commit, typed === null ? undefined : () => type(null))}
      />
      {number && <span className="unit">{/[^\d\s.,+-]/.test(shown) ? "" : field.unit}</span>}
    </div>
  );
}

function LongText(entry: Entry) {
  const { stored, typed, type, commit } = useText(entry);
  return (
    <textarea
      className="line"
      id={entry.id}
      data-field=""
      rows={3}
      value={typed ?? stored}
      aria-describedby={entry.describedBy}
      onChange={(event) => type(event.target.value)}
      onBlur={commit}
      onKeyDown={(event) => {
        if (event.key !== "Enter") keys(event, commit, typed === null ? undefined : () => type(null));
      }}
    />
  );
}

function Pick({ id, field, setter, describedBy }: Entry) {
  const stored = setter.pending(field.path) ?? field.text;
  const known = choices(field);
  return (
    <select
      className="line"
      id={id}
      data-field=""
      value={stored}
      aria-describedby={describedBy}
      onChange={(event) => setter.set(field, event.target.value)}
      onKeyDown={(event) => keys(event, () => undefined)}
    >
      {!known.some((one) => one.id === "") && <option value="">{""}</option>}
      {!known.some((one) => one.id === stored) && stored !== "" && <option value={stored}>{stored}</option>}
      {known.map((one) => (
        <option key={one.id} value={one.id}>
          {one.text}
        </option>
      ))}
    </select>
  );
}

const marks = [
  ["true", "aboard"],
  ["false", "out"],
  ["", "not said"],
] as const;

/** Aboard is yes, no, or not said: what nobody said is not the same as no. */
function Aboard({ id, field, setter, describedBy }: Entry) {
  const stored = setter.pending(field.path) ?? field.text;
  return (
    <fieldset className="aboard" aria-describedby={describedBy}>
      <legend>{field.label}</legend>
      {marks.map(([value, word]) => (
        <label key={value} className={value === "" ? "unsaid" : undefined}>
          <input
            type="radio"
            name={id}
            data-field={stored === value ? "" : undefined}
            checked={stored === value}
            onChange={() => setter.set(field, value)}
            onKeyDown={(event) => keys(event, () => undefined)}
          />
          {word}
        </label>
      ))}
    </fieldset>
  );
}

function Tick({ id, field, setter, describedBy }: Entry) {
  const stored = setter.pending(field.path) ?? field.text;
  return (
    <input
      type="checkbox"
      id={id}
      data-field=""
      checked={stored === "true"}
      aria-describedby={describedBy}
      onChange={(event) => setter.set(field, event.target.checked ? "true" : "false")}
      onKeyDown={(event) => keys(event, () => undefined)}
    />
  );
}
