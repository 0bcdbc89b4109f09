import type { Case } from '../pipeline/case.ts';

/**
 * What turned out to be bad is left to a person, with the recall that begins at it. Whoever checked or corrected it is not
 * asked: they know.
 */
export async function leaveInstrument(desk: Case, id: string): Promise<void> {
  const { tx, tenantId } = desk;
  const { tag } = await tx.instrument.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id } } });
  const text = `${tag} failed its check. See what it was used for since it was last found good.`;
  desk.concerns.push({ code: 'instrument-failed', text, subject: { kind: 'instrument', id } });
}

const CYLINDER = {
  'air-check-over': 'was found over the shop limit. See where its gas has gone since it was last found good.',
  'tare-corrected': 'had its tare put right. See what was weighed under the old one.',
} as const;
export async function leaveCylinder(desk: Case, id: string, code: keyof typeof CYLINDER): Promise<void> {
  const { tx, tenantId } = desk;
  const { label, serial } = await tx.cylinder.findUniqueOrThrow({ where: { tenantId_id: { tenantId, id } } });
  desk.concerns.push({ code, text: `${label ?? serial} ${CYLINDER[code]}`, subject: { kind: 'cylinder', id } });
}
