import { type KeyboardEvent, useEffect, useId, useRef, useState } from "react";
import { api, Lost, Refused } from "../api/client";
import type { Choices } from "../api.gen";
import { goal } from "../form/jump";
import { walk, walkKey } from "../form/walk";
import { Refs } from "../frame/Refs";
import { go, toBuild } from "../store/route";

/** NewBuild starts a build from an enquiry and leads straight on to the plate. */
export function NewBuild() {
  const [choices, setChoices] = useState<Choices | null>(null);
  const [said, say] = useState("");
  const [name, setName] = useState("");
  const [kind, setKind] = useState("");
  const [country, setCountry] = useState("");
  const [people, setPeople] = useState("2");
  const [empty, setEmpty] = useState(false);
  const busy = useRef(false);
  const first = useRef<HTMLSelectElement>(null);
  const ids = { kind: useId(), country: useId(), people: useId(), name: useId(), rows: useId() };

  useEffect(() => {
    document.title = "New build · Berthwright";
    api
      .choices()
      .then((found) => {
        setChoices(found);
        setKind(found.classes[0]?.id ?? "");
        setCountry(found.countries[0]?.id ?? "");
      })
      .catch((reason: unknown) => {
        if (reason instanceof Lost) say("The server does not answer; a new build needs it.");
        else if (reason instanceof Refused) say(reason.problem.text);
        else throw reason;
      });
  }, []);

  useEffect(() => {
    if (choices !== null) first.current?.focus();
  }, [choices]);

  const make = async () => {
    if (busy.current) return;
    const count = Number(people);
    if (!(Number.isInteger(count) && count >= 1 && count <= 9)) {
      say(`"${people}" people: type a whole number from 1 to 9.`);
      return;
    }
    busy.current = true;
    try {
      const view = await api.make({
        kind: empty ? "empty" : "enquiry",
        name: name.trim() === "" ? "New build" : name.trim(),
        class: kind,
        country,
        people: count,
      });
      goal.set("start");
      go(toBuild(view.id, "van"));
    } catch (reason) {
      busy.current = false;
      if (reason instanceof Refused) say(reason.problem.text);
      else if (reason instanceof Lost) say("The server does not answer; nothing was made.");
      else throw reason;
    }
  };

  const pressed = (event: KeyboardEvent<HTMLElement>) => {
    const how = walkKey(event);
    if (how === null) return;
    event.preventDefault();
    if (event.currentTarget.dataset.last === "" && how === "next") void make();
    else walk(event.currentTarget, how);
  };

  return (
    <div className="sheet register">
      <Refs />
      <header className="head">
        <a className="home" href="#/">
          Berthwright
        </a>
        <span className="index" />
      </header>
      {said === "" ? (
        <div />
      ) : (
        <div className="banner" role="alert">
          {said}
        </div>
      )}
      <main className="work" aria-label="New build">
        <div className="pad narrow">
          <h1 className="large">New build</h1>
          <p className="lead">
            The class of van stands in for everything not yet measured, marked assumed. Enter goes on to the
            next line, and behind the last one makes the build.
          </p>
          <div data-form="">
            <section className="part" data-section="enquiry" aria-label="Enquiry">
              <div className="fields">
                <div className="field">
                  <label htmlFor={ids.kind}>Class of van</label>
                  <select
                    id={ids.kind}
                    ref={first}
                    className="line"
                    data-field=""
                    value={kind}
                    onChange={(e) => setKind(e.target.value)}
                    onKeyDown={pressed}
                  >
                    {(choices?.classes ?? []).map((one) => (
                      <option key={one.id} value={one.id}>
                        {one.text}
                      </option>
                    ))}
                  </select>
                  {note(choices, kind) !== "" && <p className="beside">{note(choices, kind)}</p>}
                </div>
                <div className="field">
                  <label htmlFor={ids.people}>People travelling</label>
                  <input
                    id={ids.people}
                    className="line"
                    data-field=""
                    inputMode="numeric"
                    value={people}
                    autoComplete="off"
                    onFocus={(e) => e.target.select()}
                    onChange={(e) => setPeople(e.target.value)}
                    onKeyDown={pressed}
                  />
                </div>
                <div className="field">
                  <label htmlFor={ids.country}>Country whose rules judge it</label>
                  <select
                    id={ids.country}
                    className="line"
                    data-field=""
                    value={country}
                    onChange={(e) => setCountry(e.target.value)}
                    onKeyDown={pressed}
                  >
                    {(choices?.countries ?? []).map((one) => (
                      <option key={one.id} value={one.id}>
                        {one.text}
                      </option>
                    ))}
                  </select>
                </div>
                <div className="field">
                  <label htmlFor={ids.name}>
                    Name <span className="help">what the workshop calls it; can come later</span>
                  </label>
                  <input
                    id={ids.name}
                    className="line"
                    data-field=""
                    value={name}
                    autoComplete="off"
                    placeholder="New build"
                    onChange={(e) => setName(e.target.value)}
                    onKeyDown={pressed}
                  />
                </div>
                <div className="field">
                  <label htmlFor={ids.rows}>
                    Start with rows that stand in for the kit
                    <span className="help">a few allowances by group; real items replace them</span>
                  </label>
                  <input
                    id={ids.rows}
                    type="checkbox"
                    data-field=""
                    data-last=""
                    checked={!empty}
                    onChange={(e) => setEmpty(!e.target.checked)}
                    onKeyDown={pressed}
                  />
                </div>
              </div>
            </section>
          </div>
          <div className="doings below">
            <button
              type="button"
              className="do first"
              disabled={choices === null}
              onClick={() => void make()}
            >
              Make it, and go on to the plate
            </button>
            <a href="#/">Back to all builds</a>
          </div>
        </div>
      </main>
    </div>
  );
}

function note(choices: Choices | null, kind: string): string {
  return choices?.classes.find((one) => one.id === kind)?.note ?? "";
}
