/**
 * The command of a call, checked by the contract. Loaded when the call is sent: the contract's schemas are as large as the
 * form itself, and nobody needs them to begin typing.
 */
import { faultsOf, TakeCall, type CommandBody } from '@ullage/contracts';
import { fullChargeFrom, massOf } from '../../lib/full-charge-text.ts';
import type { FieldProblem } from '../../lib/problem.ts';
import { callField, contactFrom, elevationM, unitTag } from './call-form.ts';
import type { CallDraft } from './call-form.ts';
import { pastDay } from './past-day.ts';

const optional = <K extends string>(key: K, text: string): { [key in K]?: string } =>
  (text.trim() === '' ? {} : { [key]: text.trim() }) as { [key in K]?: string };

/** What to say of a required field that is empty: shorter than what the contract says of wrong text. */
const EMPTY_WORDS = {
  customer: 'Customer: say who rings.',
  address: 'Site address: say where the unit stands.',
  unit: 'Unit: give its tag, as 0417.',
  refrigerant: 'Refrigerant: choose one, as on the plate.',
  use: 'Use: choose one; it decides the limit.',
  charge: 'Full charge: enter the maker\u2019s figure, as 220 lb.',
} as const;
const isRequired = (id: string): id is keyof typeof EMPTY_WORDS => Object.hasOwn(EMPTY_WORDS, id);
function inCallWords(fault: FieldProblem, draft: CallDraft): FieldProblem {
  const id = callField(fault.pointer)?.id ?? '';
  return isRequired(id) && draft[id].trim() === '' ? { ...fault, detail: EMPTY_WORDS[id] } : fault;
}

type Body = CommandBody<'take-call'>;
function siteOf(draft: CallDraft): unknown {
  if (draft.siteId !== '') return { id: draft.siteId };
  const contact = contactFrom(draft.contact);
  return {
    id: draft.ids.site,
    new: {
      address: draft.address,
      timeZone: draft.timeZone,
      ...(draft.elevation.trim() === '' ? {} : { elevationM: elevationM(draft.elevation, draft.elevationUnit) }),
      ...optional('accessNotes', draft.access),
      ...(contact ? { contact } : {}),
    },
  };
}
function equipmentOf(draft: CallDraft): { unit: unknown; circuit: unknown } {
  if (draft.circuitId !== '') return { unit: { id: draft.unitId }, circuit: { id: draft.circuitId } };
  const { tag, letter } = unitTag(draft.unit);
  const made = {
    ...(letter === undefined ? {} : { letter }),
    refrigerant: draft.refrigerant,
    use: draft.use,
    fullCharge: fullChargeFrom({ text: draft.charge, unit: draft.chargeUnit, method: draft.chargeFrom }),
  };
  const unit =
    draft.unitId === ''
      ? { id: draft.ids.unit, new: { tag, ...optional('description', draft.what) } }
      : { id: draft.unitId };
  return { unit, circuit: { id: draft.ids.circuit, new: made } };
}

/** The command of a draft, checked by the contract; or every fault, each at its pointer. */
export function callBody(
  draft: CallDraft,
  today: string,
): { ok: true; body: Body } | { ok: false; errors: FieldProblem[] } {
  const errors: FieldProblem[] = [];
  const history = draft.past.map((row, i) => {
    const onDay = pastDay(row.day, today);
    if (onDay === undefined)
      errors.push({
        pointer: `#/history/${i}/onDay`,
        detail: 'Day of the past addition: give one, as 2/14/2026 or 75 days ago.',
      });
    else if (onDay > today)
      errors.push({
        pointer: `#/history/${i}/onDay`,
        detail: 'Day of the past addition: it lies ahead; give a past day.',
      });
    return {
      id: row.id,
      onDay: onDay ?? today,
      mass: row.mass.trim() === '' ? null : massOf(row.mass, row.unit),
      by: row.by,
    };
  });
  const parsed = TakeCall.safeParse({
    customer:
      draft.customerId === '' ? { id: draft.ids.customer, new: { name: draft.customer } } : { id: draft.customerId },
    site: siteOf(draft),
    ...equipmentOf(draft),
    history,
    visit: { id: draft.ids.visit, ...optional('symptom', draft.symptom) },
  });
  if (!parsed.success) errors.unshift(...faultsOf(parsed.error).map((fault) => inCallWords(fault, draft)));
  if (errors.length > 0 || !parsed.success) return { ok: false, errors };
  return { ok: true, body: parsed.data };
}
