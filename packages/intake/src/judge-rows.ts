import type { Matched } from './columns.ts';
import type { SheetKind } from './fields.ts';
import { AdditionsJudge } from './judge-additions.ts';
import { CylindersJudge } from './judge-cylinders.ts';
import { EquipmentJudge } from './judge-equipment.ts';
import { PeopleJudge } from './judge-people.ts';
import type { Ground, Judgement } from './judge.ts';
import type { SheetRow } from './read/sheet.ts';

const JUDGES = {
  equipment: EquipmentJudge,
  additions: AdditionsJudge,
  cylinders: CylindersJudge,
  people: PeopleJudge,
} as const;

/** Judges the rows of a file in their order: each says what it would make, or what is wrong and what would be right. */
export function judgeRows(
  file: { readonly kind: SheetKind; readonly matched: Matched; readonly rows: readonly SheetRow[] },
  ground: Ground,
): Judgement[] {
  const judge = new JUDGES[file.kind](ground, file.matched);
  return file.rows.map((row) => judge.judge(row));
}
