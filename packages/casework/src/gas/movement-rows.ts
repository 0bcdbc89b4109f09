import type { GasState, Movement, Posting } from '@ullage/gasbook';
import type { Tx } from '@ullage/database';
import { toInstant } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';
import { postMovements } from './post-movements.ts';
import type { MovementRow } from './post-movements.ts';

/** A movement with what the books keep beside the arithmetic: the fact and visit it rests on, and how it was measured. */
export interface BookedMovement extends Movement {
  readonly factId: string | null;
  readonly visitId: string | null;
  readonly measured: 'scale' | 'flow-meter' | 'nameplate' | 'estimate' | 'derived';
}

type Row = Awaited<ReturnType<Tx['movement']['findMany']>>[number];

/** The contractor's own gas carries the contractor's id as owner; the arithmetic calls that null. */
const ownerOf = (owner: string, tenantId: string): string | null => (owner === tenantId ? null : owner);

function fromRow(row: Row): BookedMovement {
  const account = row.derivedKey === null ? undefined : (JSON.parse(row.derivedKey) as [string])[0];
  return {
    id: row.id,
    refrigerant: row.refrigerant,
    grams: row.grams,
    from: row.fromId,
    to: row.toId,
    fromOwner: ownerOf(row.fromOwner, row.tenantId),
    fromState: row.fromState as GasState,
    toOwner: ownerOf(row.toOwner, row.tenantId),
    toState: row.toState as GasState,
    happenedAt: toInstant(row.happenedAt),
    recordedAt: toInstant(row.recordedAt),
    factId: row.factId,
    visitId: row.visitId,
    measured: row.measured as BookedMovement['measured'],
    ...(row.correctsId === null ? {} : { corrects: row.correctsId }),
    ...(account === undefined || row.derivedCause === null || row.derivedKey === null
      ? {}
      : {
          derived: {
            account,
            cause: row.derivedCause as NonNullable<Movement['derived']>['cause'],
            key: row.derivedKey,
            fromFact: row.factId ?? '',
          },
        }),
  };
}

/** Every movement of some accounts, reversals included, in the order of the books. */
export async function movementsOf(tx: Tx, tenantId: string, accountIds: readonly string[]): Promise<BookedMovement[]> {
  const ids = [...accountIds];
  const rows = await tx.movement.findMany({
    where: { tenantId, OR: [{ fromId: { in: ids } }, { toId: { in: ids } }] },
    orderBy: [{ happenedAt: 'asc' }, { recordedAt: 'asc' }, { seq: 'asc' }, { id: 'asc' }],
  });
  return rows.map(fromRow);
}

/** Enters movements, in the order given. */
export async function enterMovements(desk: Case, movements: readonly BookedMovement[]): Promise<void> {
  const { tx, tenantId } = desk;
  await postMovements(
    tx,
    tenantId,
    movements.map((movement) => toRow(movement, tenantId)),
  );
}

const toRow = (movement: BookedMovement, tenantId: string): MovementRow => ({
  id: movement.id,
  refrigerant: movement.refrigerant,
  grams: movement.grams,
  fromId: movement.from,
  toId: movement.to,
  fromOwner: movement.fromOwner ?? tenantId,
  fromState: movement.fromState,
  toOwner: movement.toOwner ?? tenantId,
  toState: movement.toState,
  happenedAt: movement.happenedAt,
  recordedAt: movement.recordedAt,
  factId: movement.factId,
  visitId: movement.visitId,
  measured: movement.measured,
  derivedCause: movement.derived?.cause ?? null,
  derivedKey: movement.derived?.key ?? null,
  correctsId: movement.corrects ?? null,
});

/** Enters what a fact moved: a primary movement. */
export async function enterFact(
  desk: Case,
  postings: readonly Posting[],
  rest: Pick<BookedMovement, 'factId' | 'visitId' | 'measured'>,
): Promise<void> {
  const recordedAt = desk.recordedAt;
  await enterMovements(
    desk,
    postings.map((posting) => ({ ...posting, ...rest, id: desk.world.newId(), recordedAt })),
  );
}
