/** The sheet set, in the order of the trade. */
export interface SheetName {
  id: string;
  no: string;
  title: string;
}

export const sheetSet: readonly SheetName[] = [
  { id: "job", no: "0", title: "Job" },
  { id: "kit", no: "1", title: "Kit" },
  { id: "weight", no: "2", title: "Weight" },
  { id: "fit", no: "3", title: "Fit" },
  { id: "load", no: "4", title: "Load plan" },
  { id: "van", no: "5", title: "Van" },
  { id: "record", no: "6", title: "Record" },
  { id: "differences", no: "7", title: "Differences" },
  { id: "text", no: "8", title: "Text" },
  { id: "papers", no: "9", title: "Papers" },
];
