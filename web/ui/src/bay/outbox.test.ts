import { expect, test } from "vitest";
import { Lost, Refused } from "../api/client";
import type { BayView } from "../api.gen";
import { Outbox, type Press, type Shelf } from "./outbox";

const press = (id: string, at = `2026-11-03T09:00:0${id}Z`): Press => ({
  id,
  build: "b",
  kind: "done",
  item: "fridge",
  by: "JH",
  text: "",
  at,
});

function shelf(): Shelf & { rows: Map<string, Press> } {
  const rows = new Map<string, Press>();
  return {
    rows,
    all: async () => [...rows.values()],
    put: async (one) => void rows.set(one.id, one),
    drop: async (id) => void rows.delete(id),
  };
}

const answer = {} as BayView;

test("what is pressed while the network is away is sent once, in order, when it is back", async () => {
  const sent: string[] = [];
  let away = true;
  let again = () => {};
  const kept = shelf();
  const box = new Outbox(kept, {
    send: async (one) => {
      if (away) throw new Lost("away");
      sent.push(one.id);
      return answer;
    },
    changed: () => undefined,
    later: (run) => {
      again = run;
    },
  });
  await box.open();
  await box.add(press("1"));
  await box.add(press("2"));
  expect(sent).toEqual([]);
  expect([...kept.rows.keys()]).toEqual(["1", "2"]);
  away = false;
  again();
  await new Promise((done) => setTimeout(done, 5));
  expect(sent).toEqual(["1", "2"]);
  expect(kept.rows.size).toBe(0);
});

test("what was kept before a reload is sent after it", async () => {
  const kept = shelf();
  kept.rows.set("2", press("2"));
  kept.rows.set("1", press("1"));
  const sent: string[] = [];
  const box = new Outbox(kept, {
    send: async (one) => {
      sent.push(one.id);
      return answer;
    },
    changed: () => undefined,
    later: () => undefined,
  });
  await box.open();
  expect(sent).toEqual(["1", "2"]);
});

test("what is refused stays, with the reason, and does not stop the others", async () => {
  const kept = shelf();
  const sent: string[] = [];
  let waiting: readonly Press[] = [];
  const box = new Outbox(kept, {
    send: async (one) => {
      if (one.id === "1") throw new Refused(422, { code: "no-item", text: "no such item" });
      sent.push(one.id);
      return answer;
    },
    changed: (rows) => {
      waiting = rows;
    },
    later: () => undefined,
  });
  await box.add(press("1"));
  await box.add(press("2"));
  expect(sent).toEqual(["2"]);
  expect(waiting.map((one) => one.refused)).toEqual(["no such item"]);
  await box.drop("1");
  expect(kept.rows.size).toBe(0);
});
