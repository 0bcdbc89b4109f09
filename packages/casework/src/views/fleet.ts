/** Every circuit in service over the last months, those with additions judged: what the manager's lists are made of. */
import type { GwpSet } from '@ullage/rulebook';
import { reportedGwp } from '@ullage/rulebook';
import { txQuery } from '@ullage/database';
import { repeatOf, windowTo } from '@ullage/insight';
import type { CircuitRecord, Repeat, Window } from '@ullage/insight';
import { exactGrams } from '@ullage/units';
import { circuitFiles } from '../law/circuit-file.ts';
import type { CircuitFile } from '../law/circuit-file.ts';
import { historyOf } from './gas-history.ts';
import type { PriceList } from './gas-prices.ts';
import { inTurns } from './in-turns.ts';
import { FLEET } from './repeats.sql.ts';
import type { FleetRow } from './repeats.sql.ts';
import type { Viewer } from './viewer.ts';

/** A visit may begin before the window and end in it; facts are read from that far back. */
const MARGIN_DAYS = 60;

export interface FleetCircuit {
  readonly row: FleetRow;
  readonly file: CircuitFile;
  readonly repeat: Repeat;
}
export interface Fleet {
  readonly window: Window;
  /** Circuits in service, with additions or without. */
  readonly rows: readonly FleetRow[];
  /** Those into which gas went. */
  readonly added: readonly FleetCircuit[];
}
/** By what gas is turned into money and CO2. */
export interface Measures {
  readonly prices: PriceList;
  readonly gwpSet: GwpSet;
}

export const tagOf = ({ unitTag, letter }: FleetRow): string => `${unitTag}-${letter}`;

function recordOf(
  viewer: Viewer,
  { row, file }: Pick<FleetCircuit, 'row' | 'file'>,
  { prices, gwpSet }: Measures,
): CircuitRecord {
  const full = file.facts.fullCharges.at(-1)?.mass;
  const gwp = reportedGwp(row.refrigerant, gwpSet);
  return {
    ...historyOf(file, viewer.world.calendar),
    id: row.circuitId,
    tag: tagOf(row),
    knownSince: row.knownSince ?? '',
    fullChargeGrams: full ? exactGrams(full) : null,
    prices: prices.get(row.refrigerant) ?? [],
    gwp: gwp ? { set: gwpSet, value: gwp.value } : null,
  };
}

/** Three statements for a fleet of any size. The window ends today, in the contractor's own zone. */
export async function fleetOf(viewer: Viewer, measures: Measures): Promise<Fleet> {
  const { tx, tenantId, tenant, now } = viewer;
  const { calendar } = viewer.world;
  const window = windowTo(calendar.dayOf(now, tenant.timeZone), calendar);
  const rows = await txQuery(tx, FLEET, [tenantId, calendar.addDays(window.firstDay, -MARGIN_DAYS)]);
  const candidates = new Map(rows.filter(({ added }) => added).map((row) => [row.circuitId, row]));
  const files = await circuitFiles(tx, tenantId, [...candidates.keys()]);
  const added = await inTurns(files, (file): FleetCircuit[] => {
    const row = candidates.get(file.circuitId);
    const repeat = row && repeatOf(recordOf(viewer, { row, file }, measures), window, calendar);
    return row && repeat ? [{ row, file, repeat }] : [];
  });
  return { window, rows, added };
}
