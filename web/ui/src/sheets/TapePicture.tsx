// A drawn picture of where each tape is held. It is schematic and shows no measure.

interface Tape {
  id: string;
  no: string;
  says: string;
  from: [number, number];
  to: [number, number];
  /** above or below the line */
  side: 1 | -1;
}

// Side view: ground at y 150, front axle at 60, rear axle at 260, B-pillar 128, bulkhead 146, rear door 316.
const tapes: Tape[] = [
  {
    id: "hubs-left",
    no: "S1",
    says: "hub centre to hub centre, left side, outside",
    from: [60, 132],
    to: [260, 132],
    side: 1,
  },
  {
    id: "hubs-right",
    no: "S1",
    says: "hub centre to hub centre, right side, outside",
    from: [60, 132],
    to: [260, 132],
    side: 1,
  },
  {
    id: "hub-to-pillar",
    no: "S2",
    says: "front hub back to the rear edge of the B-pillar, outside, along the sill",
    from: [60, 132],
    to: [128, 132],
    side: -1,
  },
  {
    id: "pillar-to-bulkhead",
    no: "S3",
    says: "inside: B-pillar edge back to the bulkhead line",
    from: [128, 92],
    to: [146, 92],
    side: -1,
  },
  {
    id: "hub-to-rear-door",
    no: "S4",
    says: "rear hub back to the inner edge of the rear door sill, plumb",
    from: [260, 132],
    to: [316, 132],
    side: -1,
  },
  {
    id: "bulkhead-to-rear-door",
    no: "S5",
    says: "inside: bulkhead line to rear door line along the floor",
    from: [146, 112],
    to: [316, 112],
    side: -1,
  },
  {
    id: "wheel-box-front",
    no: "S6",
    says: "wheel-box front edge from the rear door line",
    from: [238, 98],
    to: [316, 98],
    side: -1,
  },
  {
    id: "wheel-box-rear",
    no: "S6",
    says: "wheel-box rear edge from the rear door line",
    from: [284, 98],
    to: [316, 98],
    side: -1,
  },
  {
    id: "floor-to-ground-front",
    no: "S7",
    says: "bare floor to ground at the bulkhead line",
    from: [146, 115],
    to: [146, 150],
    side: 1,
  },
  {
    id: "floor-to-ground-rear",
    no: "S7",
    says: "bare floor to ground at the rear door line",
    from: [316, 115],
    to: [316, 150],
    side: 1,
  },
  {
    id: "width-at-floor",
    no: "S8",
    says: "bare width between ribs at the floor",
    from: [364, 114],
    to: [426, 114],
    side: -1,
  },
  {
    id: "width-at-900",
    no: "S8",
    says: "bare width between ribs, 900 mm up",
    from: [363, 78],
    to: [427, 78],
    side: -1,
  },
  {
    id: "width-at-1500",
    no: "S8",
    says: "bare width between ribs, 1 500 mm up",
    from: [367, 52],
    to: [423, 52],
    side: -1,
  },
  {
    id: "floor-build",
    no: "S9",
    says: "thickness of the floor build",
    from: [395, 108],
    to: [395, 115],
    side: 1,
  },
  {
    id: "lining",
    no: "S9",
    says: "thickness of insulation and lining, one wall",
    from: [420, 90],
    to: [428, 90],
    side: -1,
  },
];

/** tapeOf tells which tape an entry is, or "". */
export function tapeOf(path: string): string {
  const last = path.split(/[/.]/).at(-1) ?? "";
  return path.includes("survey") && tapes.some((tape) => tape.id === last) ? last : "";
}

export function TapePicture({ now }: { now: string }) {
  const here = tapes.find((tape) => tape.id === now);
  return (
    <figure className="tapes">
      <svg
        viewBox="0 0 452 176"
        role="img"
        aria-label={here === undefined ? "where the tapes are held" : here.says}
      >
        <g className="van-line">
          <path d="M12 118 14 96 40 78 66 38Q70 30 80 30H324V118H288a28 20 0 0 0-56 0H88a28 20 0 0 0-56 0z" />
          <path d="M70 42 48 76H98V42zM104 42V112M128 36V118" />
          <path className="lines" d="M146 34V118M316 34V118" />
          <path className="lines" d="M146 115H316" />
          <path d="M238 115V90h46v25" strokeDasharray="4 3" />
          <circle cx="60" cy="132" r="18" />
          <circle cx="260" cy="132" r="18" />
          <circle cx="60" cy="132" r="2" />
          <circle cx="260" cy="132" r="2" />
          <path d="M0 150.5H440" />
          <path d="M358 118V64Q360 34 372 30H418Q430 34 432 64V118z" />
          <path className="lines" d="M362 115H428" />
          <path d="M395 24V158" strokeDasharray="10 3 2 3" />
          <path d="M362 118v24h10v-24M418 118v24h10v-24" />
        </g>
        <g className="faint">
          {tapes.map((tape) => (
            <path key={tape.id} d={`M${tape.from.join(" ")}L${tape.to.join(" ")}`} />
          ))}
        </g>
        {here !== undefined && <Held tape={here} />}
        <text className="ref" x="146" y="28" textAnchor="middle">
          bulkhead line
        </text>
        <text className="ref" x="316" y="28" textAnchor="middle">
          rear door line
        </text>
        <text className="ref" x="395" y="172" textAnchor="middle">
          centre line
        </text>
      </svg>
      <figcaption>
        {here === undefined ? (
          "Each tape is shown here while it is typed in. Level ground, unladen, two people."
        ) : (
          <>
            <b>{here.no}</b> {here.says}
          </>
        )}
      </figcaption>
    </figure>
  );
}

function Held({ tape }: { tape: Tape }) {
  const [x0, y0] = tape.from;
  const [x1, y1] = tape.to;
  const level = y0 === y1;
  const tick = level
    ? (x: number, y: number) => `M${x} ${y - 7}V${y + 7}`
    : (x: number, y: number) => `M${x - 7} ${y}H${x + 7}`;
  const label: [number, number] = level
    ? [(x0 + x1) / 2, y0 + (tape.side === 1 ? 15 : -5)]
    : [x0 + 5, (y0 + y1) / 2 + 4];
  return (
    <g className="held">
      <path d={`M${x0} ${y0}L${x1} ${y1}${tick(x0, y0)}${tick(x1, y1)}`} />
      <text x={label[0]} y={label[1]} textAnchor={level ? "middle" : "start"}>
        {tape.no}
      </text>
    </g>
  );
}
