/** Where cylinders are, by what was reported of them, in the order in which it happened. */
import { contradicted, lastStep, stepAt } from '@ullage/gasbook';
import type { CustodyStep, WantedStep, Whereabouts } from '@ullage/gasbook';
import type { Prisma, Tx } from '@ullage/database';
import type { Instant } from '@ullage/units';
import { refuseField, toDate, toInstant } from '../pipeline/case.ts';
import type { Case } from '../pipeline/case.ts';

/** Neither taken back since nor withdrawn. */
export const STANDS = {
  NOT: { factCorrectses: { some: { kind: { in: ['taken-back', 'withdrawal'] } } } },
} satisfies Prisma.FactWhereInput;

interface Row {
  readonly id: string;
  readonly kind: string;
  readonly body: unknown;
  readonly happenedAt: Instant;
}
interface Line {
  readonly cylinderId: string;
  readonly fromId?: string | null;
  readonly after?: string;
}
const placed = (placeId: string | null): Whereabouts => ({ state: 'placed', placeId });
/** What each kind of report says of where one cylinder is from then on; undefined where it says nothing. */
const NOW: Readonly<
  Record<string, (body: Record<string, unknown>, line: Line | undefined) => Whereabouts | undefined>
> = {
  delivery: (body) => placed((body.locationId as string | undefined) ?? null),
  'hand-over': (body) => placed(body.toId as string),
  shipment: (body) => placed(body.receiverId as string),
  acceptance: (_body, line) => (line?.after === 'kept' ? { state: 'gone', how: 'kept' } : undefined),
  'cylinder-lost': () => ({ state: 'lost' }),
  'cylinder-found': (body) => placed(body.toId as string),
  'cylinder-returned': () => ({ state: 'gone', how: 'returned' }),
  'cylinder-scrapped': () => ({ state: 'gone', how: 'scrapped' }),
};
export const CUSTODY_KINDS = Object.keys(NOW);

function stepOf({ id, kind, body, happenedAt }: Row, cylinderId: string): CustodyStep | undefined {
  const said = body as Record<string, unknown> & { cylinders?: unknown; fromId?: string | null };
  const lines = Array.isArray(said.cylinders) ? (said.cylinders as Line[]) : [];
  const line = lines.find((one) => one.cylinderId === cylinderId);
  const now = NOW[kind]?.(said, line);
  return now && { factId: id, happenedAt, now, fromId: line ? line.fromId : said.fromId };
}

/** Every step of some cylinders, by cylinder. */
export async function custodySteps(
  { tx, tenantId }: { readonly tx: Tx; readonly tenantId: string },
  cylinderIds: readonly string[],
): Promise<Map<string, CustodyStep[]>> {
  const facts = await tx.fact.findMany({
    where: {
      tenantId,
      kind: { in: CUSTODY_KINDS },
      factRefs: { some: { cylinderId: { in: [...cylinderIds] } } },
      ...STANDS,
    },
    select: {
      id: true,
      kind: true,
      body: true,
      happenedAt: true,
      recordedAt: true,
      factRefs: { where: { cylinderId: { in: [...cylinderIds] } }, select: { cylinderId: true } },
    },
  });
  const steps = new Map<string, CustodyStep[]>(cylinderIds.map((id) => [id, []]));
  for (const { factRefs, happenedAt, recordedAt, ...row } of facts)
    for (const id of new Set(factRefs.flatMap(({ cylinderId }) => cylinderId ?? []))) {
      const step = stepOf({ ...row, happenedAt: toInstant(happenedAt ?? recordedAt) }, id);
      if (step) steps.get(id)?.push(step);
    }
  return steps;
}

/** One cylinder that a report moves, and where in its body the place stands from which it is taken. */
export interface Moved {
  readonly cylinderId: string;
  readonly fromId?: string | null | undefined;
  readonly now: Whereabouts;
  readonly field: string;
}

/**
 * @throws Refusal at the field where a cylinder is not where it was seen: where it is, and who brought it there. Its
 * accounts are locked by then, so of two who take one cylinder the second is told of the first.
 */
export async function assertCustody(desk: Case, moved: readonly Moved[], happenedAt: Instant): Promise<void> {
  const steps = await custodySteps(
    desk,
    moved.map(({ cylinderId }) => cylinderId),
  );
  for (const { cylinderId, field, fromId, now } of moved) {
    const wanted: WantedStep = { happenedAt, fromId, now };
    const other = contradicted(steps.get(cylinderId) ?? [], wanted);
    if (other) throw await elsewhere(desk, { cylinderId, field, step: other });
  }
}

/** @throws Refusal for a cylinder that was lost, or gone for good, at an instant */
export async function assertHere(
  desk: Case,
  { cylinderId, field, at }: { readonly cylinderId: string; readonly field: string; readonly at: Instant },
): Promise<void> {
  const step = stepAt((await custodySteps(desk, [cylinderId])).get(cylinderId) ?? [], at);
  if (step && step.now.state !== 'placed') throw await elsewhere(desk, { cylinderId, field, step });
}

const GONE_WORDS = {
  returned: 'went back to its supplier',
  scrapped: 'was scrapped',
  kept: 'stayed with its receiver',
} as const;

async function elsewhere(
  desk: Case,
  { cylinderId, field, step }: { readonly cylinderId: string; readonly field: string; readonly step: CustodyStep },
) {
  const { tx, tenantId } = desk;
  const { serial, label } = await tx.cylinder.findUniqueOrThrow({
    where: { tenantId_id: { tenantId, id: cylinderId } },
    select: { serial: true, label: true },
  });
  const fact = await tx.fact.findUnique({
    where: { tenantId_id: { tenantId, id: step.factId } },
    select: { byPerson: { select: { name: true } } },
  });
  const by = fact?.byPerson?.name;
  const name = label ?? serial;
  const { now } = step;
  if (now.state === 'gone')
    return refuseField(field, `Cylinder: ${name} ${GONE_WORDS[now.how]}${by ? `, says ${by}` : ''}; look again.`);
  if (now.state === 'lost')
    return refuseField(field, `Cylinder: ${name} is marked lost${by ? ` by ${by}` : ''}; say first that it is found.`);
  const place =
    now.placeId === null
      ? null
      : await tx.location.findUnique({ where: { tenantId_id: { tenantId, id: now.placeId } }, select: { name: true } });
  const where = place ? `is at ${place.name}${by ? `, brought by ${by}` : ''}` : 'has no place yet';
  return refuseField(field, `Cylinder: ${name} ${where}; look again.`);
}

/** Writes where each cylinder now is. A step that was told late changes nothing where a later one stands. */
export async function settleCustody(desk: Case, cylinderIds: readonly string[]): Promise<void> {
  const { tx, tenantId } = desk;
  const steps = await custodySteps(desk, cylinderIds);
  for (const [id, own] of steps) {
    const last = lastStep(own);
    const { now } = last ?? { now: placed(null) };
    const since = last ? toDate(last.happenedAt) : null;
    await tx.cylinder.update({
      where: { tenantId_id: { tenantId, id } },
      data: {
        locationId: now.state === 'placed' ? now.placeId : null,
        lostAt: now.state === 'lost' ? since : null,
        goneAt: now.state === 'gone' ? since : null,
        goneHow: now.state === 'gone' ? now.how : null,
      },
    });
    desk.changed('cylinder', id);
  }
}
