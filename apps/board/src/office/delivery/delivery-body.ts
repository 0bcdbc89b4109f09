/** The command of a delivery, checked by the contract. Loaded when it is sent: nobody needs the schemas to begin typing. */
import { RecordDelivery, type CommandBody } from '@ullage/contracts';
import { massOf } from '../../lib/full-charge-text.ts';
import type { FieldProblem } from '../../lib/problem.ts';
import type { DeliveryDraft } from './delivery-form.ts';

export function deliveryBody(draft: DeliveryDraft): CommandBody<'record-delivery'> | readonly FieldProblem[] {
  const { waterCapacity, tare, net, rows, note, locationId, ...rest } = draft;
  const parsed = RecordDelivery.safeParse({
    ...rest,
    ...(note.trim() === '' ? {} : { note }),
    ...(locationId === '' ? {} : { locationId }),
    waterCapacity: massOf(waterCapacity.text, waterCapacity.unit),
    tare: massOf(tare.text, tare.unit),
    net: massOf(net.text, net.unit),
    cylinders: rows,
  });
  if (parsed.success) return parsed.data;
  return parsed.error.issues.map(({ path, message }) => ({ pointer: `#/${path.join('/')}`, detail: message }));
}
