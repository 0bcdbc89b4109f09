/** A file on its way through an import, with the night's part done at once. */
import type { ImportKind, ImportSettings, ImportView } from '@ullage/contracts';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from '@ullage/cli/tasks';
import { calendar, newId } from './office.ts';
import type { Contractor, TestOffice } from './office.ts';

export const sample = (name: string): Buffer => readFileSync(join(root, 'tests/samples/imports', name));

/** What a file of ours leaves open. */
export const SETTINGS: Partial<ImportSettings> = {
  elevationM: 1600,
  use: 'commercial-refrigeration',
  method: 'manufacturer',
};

export interface ImportOptions {
  readonly kind?: ImportKind;
  readonly id?: string;
  readonly role?: 'owner' | 'manager';
}

/** What ended before is not of the same instant as what is checked after it. */
function aMomentLater({ clock }: TestOffice): void {
  clock.now = calendar.fromEpochMs(calendar.epochMs(clock.now) + 1_000);
}

/** Works at the import until it waits for a person, or `stretches` of it. */
export async function atNight(
  world: TestOffice,
  firm: Contractor,
  id: string,
  stretches = Infinity,
): Promise<ImportView> {
  let next = await world.night.nextStretch(firm.tenantId, id);
  for (let done = 0; next && done < stretches; done++) next = await world.night.importStretch(next);
  return world.office.importRun(firm.actors.owner, id);
}

export async function received(
  world: TestOffice,
  firm: Contractor,
  content: string | Uint8Array,
  { kind = 'equipment', id = newId(), role = 'manager' }: ImportOptions = {},
): Promise<ImportView> {
  const bytes = typeof content === 'string' ? Buffer.from(content) : content;
  await world.office.receiveImport(firm.actors[role], { id, kind, name: 'units.csv', content: bytes });
  return atNight(world, firm, id);
}

/** Read and checked, with the columns as proposed. */
export async function checked(
  world: TestOffice,
  firm: Contractor,
  content: string | Uint8Array,
  options: ImportOptions = {},
): Promise<ImportView> {
  const read = await received(world, firm, content, options);
  return match(world, firm, read, options);
}
export async function match(
  world: TestOffice,
  firm: Contractor,
  read: ImportView,
  { role = 'manager' }: ImportOptions = {},
): Promise<ImportView> {
  aMomentLater(world);
  await world.office.matchImport(firm.actors[role], {
    id: read.id,
    matched: read.columns.map(({ field }) => field),
    settings: { ...read.settings, ...SETTINGS },
  });
  return atNight(world, firm, read.id);
}

export async function carriedOut(
  world: TestOffice,
  firm: Contractor,
  content: string | Uint8Array,
  options: ImportOptions = {},
): Promise<ImportView> {
  const { id } = await checked(world, firm, content, options);
  aMomentLater(world);
  await world.office.runImport(firm.actors[options.role ?? 'manager'], id);
  return atNight(world, firm, id);
}
