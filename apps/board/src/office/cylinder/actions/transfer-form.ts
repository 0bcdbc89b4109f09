/** A transfer as it is typed, and the command's body from it. */
import type { CommandBody, CylinderUseAdvice } from '@ullage/contracts';
import { compare, exactGrams, subtract, toNumber, ZERO, type MassUnit } from '@ullage/units';
import { massFromText } from '../../../lib/mass-text.ts';
import type { FieldProblem } from '../../../lib/problem.ts';
import { saidDoubts } from '../../../lib/said-doubts.ts';
import type { MassQuantity } from '../../../ui/mass-field.tsx';
import { finder } from '../../unit/known/edits.ts';

export interface TransferForm {
  /** Empty while nobody has chosen. */
  readonly intoId: string;
  readonly evacuated: '' | 'yes' | 'no';
  readonly fromBefore: MassQuantity;
  readonly fromAfter: MassQuantity;
  readonly toBefore: MassQuantity;
  readonly toAfter: MassQuantity;
  /** By id; empty for one that is not registered. */
  readonly scaleId: string;
  readonly doubts: readonly string[];
  /** It was moved although something stops it. */
  readonly happened: boolean;
  readonly note: string;
}
export const transferForm = (unit: MassUnit): TransferForm => ({
  intoId: '',
  evacuated: '',
  fromBefore: { text: '', unit },
  fromAfter: { text: '', unit },
  toBefore: { text: '', unit },
  toAfter: { text: '', unit },
  scaleId: '',
  doubts: [],
  happened: false,
  note: '',
});

const massOf = ({ text, unit }: MassQuantity) => {
  const read = massFromText(text, unit);
  return read.ok ? read.mass : { value: text.trim(), unit };
};
/** Weights of a side that was weighed at all. */
const weights = (before: MassQuantity, after: MassQuantity) =>
  before.text.trim() === '' && after.text.trim() === ''
    ? {}
    : { weights: { before: massOf(before), after: massOf(after) } };

/** Whole grams that were moved, by the first of the two that was weighed; undefined until there are figures. */
export function movedGrams({ fromBefore, fromAfter, toBefore, toAfter }: TransferForm): number | undefined {
  for (const [more, less] of [
    [fromBefore, fromAfter],
    [toAfter, toBefore],
  ] as const) {
    const [high, low] = [massFromText(more.text, more.unit), massFromText(less.text, less.unit)];
    if (!high.ok || !low.ok) continue;
    const net = subtract(exactGrams(high.mass), exactGrams(low.mass));
    return compare(net, ZERO) > 0 ? Math.max(1, Math.round(toNumber(net))) : undefined;
  }
  return undefined;
}

export function transferBody(cylinderId: string, form: TransferForm): CommandBody<'record-transfer'> {
  const doubts = saidDoubts(form.doubts);
  return {
    from: { cylinderId, ...weights(form.fromBefore, form.fromAfter) },
    to: {
      cylinderId: form.intoId,
      ...weights(form.toBefore, form.toAfter),
      evacuated: form.evacuated === 'yes',
    },
    ...(form.scaleId !== '' && { scaleId: form.scaleId }),
    ...(doubts.length > 0 && { doubts }),
    ...(form.note.trim() !== '' && { note: form.note.trim() }),
  };
}

/** What has to be said before it is sent; where something stops the act, that it happened all the same. */
export function transferGaps(form: TransferForm, advice: CylinderUseAdvice | undefined): FieldProblem[] {
  const gaps: FieldProblem[] = [];
  if (form.intoId === '') gaps.push({ pointer: '/to/cylinderId', detail: 'Into cylinder: choose one.' });
  if (form.evacuated === '') gaps.push({ pointer: '/to/evacuated', detail: 'Evacuated first: say yes or no.' });
  if (form.intoId !== '' && (advice?.stops.length ?? 0) > 0 && !form.happened)
    gaps.push({ pointer: '/happened', detail: 'Stopped: choose another cylinder, or say that it was moved already.' });
  return gaps;
}

export const transferField = finder([
  [/^to\/cylinderId/, 'transfer-into', 'Into cylinder'],
  [/^to\/evacuated/, 'transfer-evacuated', 'Evacuated first'],
  [/^from\/weights\/after/, 'transfer-from-after', 'Gross after'],
  [/^from/, 'transfer-from-before', 'Gross before'],
  [/^to\/weights\/after/, 'transfer-to-after', 'Its gross after'],
  [/^to/, 'transfer-to-before', 'Its gross before'],
  [/^scaleId/, 'transfer-scale', 'Scale'],
  [/^doubts/, 'transfer-doubts', 'Doubts'],
  [/^happened/, 'transfer-happened', 'Stopped'],
  [/^note/, 'transfer-note', 'Note'],
]);
