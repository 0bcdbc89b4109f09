import type { Prisma } from '@ullage/database';
import { daysOf, decimalOf, headerKey, matchColumns, readSheet } from '@ullage/intake';
import type { Sheet, SheetKind } from '@ullage/intake';
import type { ImportSettings } from '@ullage/contracts';
import type { Work } from '../pipeline/case.ts';
import { move } from './change.ts';
import type { RunRow } from './change.ts';
import { importIds } from './ids.ts';
import { defaultSettings } from './show.ts';

const AT_ONCE = 1_000;

/** Reads the file into rows and proposes what each column holds: as for the last file with these headings, else by likeness. */
export async function readFile(desk: Work, run: RunRow): Promise<void> {
  const { tx, tenantId } = desk;
  const file = await tx.importFile.findUniqueOrThrow({
    where: { tenantId_importId: { tenantId, importId: run.id } },
  });
  const read = readSheet(file.content);
  if (!read.ok) return move(desk, run, { state: 'unreadable', problem: read.why });
  const { sheet } = read;
  const idFor = importIds(run.id, run.madeAt);
  for (let at = 0; at < sheet.rows.length; at += AT_ONCE) {
    await tx.importRow.createMany({
      data: sheet.rows.slice(at, at + AT_ONCE).map(({ number, cells }) => ({
        tenantId,
        importId: run.id,
        number,
        // Its command bears this id at every try: what was carried out once is known by it.
        commandId: idFor(`row|${number}`),
        cells: [...cells],
        state: 'unread',
        faults: [],
        makes: [],
        asks: [],
      })),
    });
  }
  const key = { tenantId, kind: run.kind, headerKey: headerKey(sheet.header) };
  const map = await tx.columnMap.findUnique({ where: { tenantId_kind_headerKey: key } });
  const matched = map ? (map.matched as (string | null)[]) : matchColumns(run.kind as SheetKind, sheet.header);
  const settings = map ? (map.settings as Partial<ImportSettings>) : await settingsFor(desk, { sheet, matched });
  return move(desk, run, {
    state: 'read',
    format: sheet.format,
    header: [...sheet.header],
    headerKey: key.headerKey,
    matched: [...matched],
    settings: settings as Prisma.InputJsonObject,
  });
}

const DAY_FIELDS = ['onDay', 'lastOn', 'installedOn', 'registeredOn', 'endsOn', 'madeMonth', 'testedMonth'];
const MASS_FIELDS = ['mass', 'fullCharge', 'lastMass', 'waterCapacity', 'tare', 'gross'];

/** What can be told from the file itself: how it writes days and decimals. */
async function settingsFor(
  desk: Work,
  { sheet, matched }: { sheet: Sheet; matched: readonly (string | null)[] },
): Promise<ImportSettings> {
  const tenant = await desk.tx.tenant.findUniqueOrThrow({ where: { id: desk.tenantId } });
  const cellsOf = (fields: readonly string[]): string[] => {
    const columns = matched.flatMap((id, column) => (id !== null && fields.includes(id) ? [column] : []));
    return sheet.rows.flatMap(({ cells }) => columns.map((column) => cells[column] ?? ''));
  };
  const settings = defaultSettings(tenant);
  return {
    ...settings,
    days: daysOf(cellsOf(DAY_FIELDS)) ?? settings.days,
    decimal: decimalOf(cellsOf(MASS_FIELDS)) ?? settings.decimal,
  };
}
