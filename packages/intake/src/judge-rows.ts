import type { Matched } from './columns.ts';
import type { SheetKind } from './fields.ts';
import { AdditionsJudge } from './judge-additions.ts';
import { EquipmentJudge } from './judge-equipment.ts';
import type { Ground, Judgement } from './judge.ts';
import type { SheetRow } from './read/sheet.ts';

/** Judges the rows of a file in their order: each says what it would make, or what is wrong and what would be right. */
export function judgeRows(
  file: { readonly kind: SheetKind; readonly matched: Matched; readonly rows: readonly SheetRow[] },
  ground: Ground,
): Judgement[] {
  const judge =
    file.kind === 'equipment' ? new EquipmentJudge(ground, file.matched) : new AdditionsJudge(ground, file.matched);
  return file.rows.map((row) => judge.judge(row));
}
