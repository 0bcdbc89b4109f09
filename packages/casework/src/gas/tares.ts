/** A tare of a cylinder, as somebody read it off. */
export interface TareRow {
  readonly id: string;
  readonly grams: number;
  readonly fromAt: Date;
  readonly recordedAt: Date;
}
const byTime = (a: TareRow, b: TareRow): number =>
  a.fromAt.getTime() - b.fromAt.getTime() || a.recordedAt.getTime() - b.recordedAt.getTime() || (a.id < b.id ? -1 : 1);

/**
 * The tare in force at an instant, in grams: of two that hold from one moment the later recorded, which corrects the
 * other. A use before the first stamp was read still has that tare.
 */
export function tareAt(rows: readonly TareRow[], at: Date): number {
  const inTime = [...rows].sort(byTime);
  const [first] = inTime;
  if (!first) return 0;
  const known = inTime.findLast((row) => row.fromAt <= at);
  return (known ?? inTime.findLast((row) => row.fromAt.getTime() === first.fromAt.getTime()))?.grams ?? 0;
}
