import { type KeyboardEvent, useEffect, useId, useLayoutEffect, useMemo, useRef, useState } from "react";
import { api } from "../api/client";
import type { ColumnView } from "../api.gen";
import { match } from "./nav";

export interface Taken {
  text: string;
  /** the part chosen, when a part name was taken */
  part: string;
}

export type How = "down" | "up" | "tab" | "back" | "stay";

interface Offer {
  id: string;
  text: string;
  note: string;
  part: boolean;
}

interface Props {
  column: ColumnView;
  start: string;
  /** typing replaced what stood in the cell */
  over: boolean;
  parts: boolean;
  onDone(taken: Taken, how: How): void;
  onLeave(): void;
}

/** Editor is one cell being typed into, with what the typed beginning could mean. */
export function Editor({ column, start, over, parts, onDone, onLeave }: Props) {
  const known = column.choices ?? [];
  const [text, setText] = useState(() =>
    over ? start : (known.find((one) => one.id === start)?.text ?? start),
  );
  const [picked, pick] = useState(-1);
  const [up, setUp] = useState(false);
  const input = useRef<HTMLInputElement>(null);
  const done = useRef(false);
  const list = useId();
  const partOffers = useParts(parts ? text : "");
  const offers = useMemo<Offer[]>(() => {
    if (known.length > 0)
      return match(text === start && !over ? "" : text, known, 12).map((one) => ({
        id: one.id,
        text: one.text,
        note: one.note ?? "",
        part: false,
      }));
    return match(text, partOffers);
  }, [known, text, start, over, partOffers]);

  useLayoutEffect(() => {
    const field = input.current;
    if (field === null) return;
    field.focus({ preventScroll: true });
    const room = field.closest(".grid-box")?.getBoundingClientRect().bottom ?? window.innerHeight;
    const here = field.getBoundingClientRect();
    setUp(Math.min(room, window.innerHeight) - here.bottom < 300 && here.top > 340);
    if (over) field.setSelectionRange(field.value.length, field.value.length);
    else field.select();
  }, [over]);

  const take = (): Taken => {
    const offer =
      offers[picked] ?? (known.length > 0 && text.trim() !== "" && text !== start ? offers[0] : undefined);
    if (offer === undefined) {
      const exact = known.find((one) => one.text.toLowerCase() === text.trim().toLowerCase());
      return { text: exact?.id ?? text.trim(), part: "" };
    }
    return offer.part ? { text: offer.text, part: offer.id } : { text: offer.id, part: "" };
  };

  const finish = (how: How) => {
    if (done.current) return;
    done.current = true;
    onDone(take(), how);
  };

  const pressed = (event: KeyboardEvent) => {
    event.stopPropagation();
    const way = event.key;
    if (way === "Escape") {
      done.current = true;
      onLeave();
    } else if (way === "Enter") finish(event.shiftKey ? "up" : "down");
    else if (way === "Tab") finish(event.shiftKey ? "back" : "tab");
    else if (way === "ArrowDown" && offers.length > 0) pick(Math.min(picked + 1, offers.length - 1));
    else if (way === "ArrowUp" && offers.length > 0) pick(Math.max(picked - 1, -1));
    else if (way === "ArrowDown") finish("down");
    else if (way === "ArrowUp") finish("up");
    else return;
    event.preventDefault();
  };

  return (
    <span className="editor">
      <input
        ref={input}
        value={text}
        role={offers.length > 0 ? "combobox" : undefined}
        aria-label={column.title}
        aria-expanded={offers.length > 0 ? true : undefined}
        aria-controls={offers.length > 0 ? list : undefined}
        aria-activedescendant={picked >= 0 ? `${list}-${picked}` : undefined}
        autoComplete="off"
        spellCheck={false}
        onChange={(event) => {
          setText(event.target.value);
          pick(-1);
        }}
        onKeyDown={pressed}
        onCopy={(event) => event.stopPropagation()}
        onPaste={(event) => event.stopPropagation()}
        onBlur={() => finish("stay")}
      />
      {offers.length > 0 && (
        <span
          className={`offers${up ? " up" : ""}`}
          id={list}
          role="listbox"
          aria-label={`what ${column.title} can be`}
        >
          {offers.map((offer, nth) => (
            <span
              key={offer.id}
              id={`${list}-${nth}`}
              role="option"
              aria-selected={nth === picked}
              tabIndex={-1}
              onMouseDown={(event) => {
                event.preventDefault();
                event.stopPropagation();
                done.current = true;
                onDone(
                  offer.part ? { text: offer.text, part: offer.id } : { text: offer.id, part: "" },
                  "down",
                );
              }}
            >
              {offer.text}
              {offer.note !== "" && <span className="note">{offer.note}</span>}
            </span>
          ))}
        </span>
      )}
    </span>
  );
}

const none: Offer[] = [];

/** useParts asks the plan chest for parts whose name holds what is typed. */
function useParts(typed: string): Offer[] {
  const [found, setFound] = useState<Offer[]>(none);
  useEffect(() => {
    if (typed.trim().length < 2) {
      setFound(none);
      return;
    }
    let current = true;
    const timer = setTimeout(() => {
      api
        .parts(typed.trim(), "")
        .then((list) => {
          if (current)
            setFound(
              (list.parts ?? [])
                .slice(0, 8)
                .map((part) => ({ id: part.ref, text: part.name, note: part.mass, part: true })),
            );
        })
        .catch(() => {
          if (current) setFound(none);
        });
    }, 120);
    return () => {
      current = false;
      clearTimeout(timer);
    };
  }, [typed]);
  return found;
}
