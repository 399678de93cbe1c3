import { describe, expect, it } from "vitest";
import { Clash, Lost, Refused } from "../api/client";
import type { ChangeRequest, ChangeResult } from "../api.gen";
import { fresh, Queue, renamed } from "./queue";

const change = (id: string, base: number, row = "a"): ChangeRequest => ({
  id,
  client: "me",
  base,
  title: id,
  edits: [{ kind: "cell", grid: "kit", row, column: "mass", text: "1" }],
});

const answer = (revision: number, made: string[] = []) =>
  ({ view: { revision }, made, refused: [] }) as unknown as ChangeResult;

/** bench runs a queue against a scripted server; "lost" stands for an answer that did not come. */
function bench(script: (ChangeResult | Error)[], kept: ChangeRequest[] = []) {
  const sent: ChangeRequest[] = [];
  const log: string[] = [];
  const later: (() => void)[] = [];
  let shelf = kept;
  const write = (rows: ChangeRequest[]) => {
    shelf = [...rows];
  };
  const queue = new Queue(
    { read: () => shelf, write },
    {
      send: async (one) => {
        sent.push(one);
        const next = script.shift();
        if (next === undefined) throw new Error("not in the script");
        if (next instanceof Error) throw next;
        return next;
      },
      done: (one) => void log.push(`done ${one.id}`),
      clash: (one) => void log.push(`clash ${one.id}`),
      refused: (one) => void log.push(`refused ${one.id}`),
      lost: () => void log.push("lost"),
      changed: () => undefined,
      later: (run) => void later.push(run),
    },
  );
  return { queue, sent, log, later, shelf: () => shelf };
}

const settle = () => new Promise((resolve) => setTimeout(resolve, 0));

describe("queue", () => {
  it("sends in order, each on the revision the one before made", async () => {
    const { queue, sent, log, shelf } = bench([answer(6), answer(7)]);
    queue.add(change("one", 5));
    queue.add(change("two", 5));
    await settle();
    expect(sent.map((one) => [one.id, one.base])).toEqual([
      ["one", 5],
      ["two", 6],
    ]);
    expect(log).toEqual(["done one", "done two"]);
    expect(shelf()).toEqual([]);
  });

  it("keeps what got no answer and sends it again under the same id", async () => {
    const { queue, sent, log, later, shelf } = bench([new Lost(), answer(6)]);
    queue.add(change("one", 5));
    await settle();
    expect(log).toEqual(["lost"]);
    expect(shelf().map((one) => one.id)).toEqual(["one"]);
    later[0]?.();
    await settle();
    expect(sent.map((one) => one.id)).toEqual(["one", "one"]);
    expect(log).toEqual(["lost", "done one"]);
  });

  it("takes up what was left by an earlier page", async () => {
    const { queue, sent } = bench([answer(6)], [change("old", 5)]);
    await queue.flush();
    expect(sent.map((one) => one.id)).toEqual(["old"]);
  });

  it("does not pretend to stand on a revision somebody else made", async () => {
    const { queue, sent } = bench([answer(9), answer(10)]);
    queue.add(change("one", 5));
    queue.add(change("two", 5));
    await settle();
    expect(sent[1]?.base).toBe(5);
  });

  it("holds everything while a conflict is open, and goes on after it is settled", async () => {
    const { queue, sent, log } = bench([new Clash({ revision: 8, paths: [] }), answer(9)]);
    queue.add(change("one", 5));
    queue.add(change("two", 5));
    await settle();
    expect(log).toEqual(["clash one"]);
    queue.drop("one");
    await settle();
    expect(sent.map((one) => one.id)).toEqual(["one", "two"]);
  });

  it("lets go of what was refused, and says so", async () => {
    const { queue, log, shelf } = bench([new Refused(422, { code: "x", text: "no" }), answer(6)]);
    queue.add(change("one", 5));
    queue.add(change("two", 5));
    await settle();
    expect(log).toEqual(["refused one", "done two"]);
    expect(shelf()).toEqual([]);
  });

  it("puts the id the server made in place of a provisional one", async () => {
    const { queue, sent } = bench([answer(6, ["fridge-2"]), answer(7)]);
    queue.add(change("one", 5));
    queue.add(change("two", 5, fresh("one")));
    await settle();
    expect(sent[1]?.edits[0]?.row).toBe("fridge-2");
  });
});

it("renames the second row of a change by its place", () => {
  const edits = [{ kind: "cell", row: fresh("c", 1) }];
  expect(renamed(edits, "c", ["a", "b"])).toEqual([{ kind: "cell", row: "b" }]);
  expect(renamed(edits, "other", ["a", "b"])).toEqual(edits);
});
