'use client';
import type { MassUnit } from '@ullage/units';
import { NumberField, type NumberFieldProps, type Quantity } from './number-field.tsx';

export type MassQuantity = Quantity<MassUnit>;

const UNITS = [
  { id: 'lb', text: 'lb' },
  { id: 'oz', text: 'oz' },
  { id: 'kg', text: 'kg' },
  { id: 'g', text: 'g' },
  { id: 'lb-oz', text: 'lb oz' },
] as const satisfies readonly { id: MassUnit; text: string }[];

/** A mass as the scale showed it, in the unit the scale showed it in. */
export function MassField(props: Omit<NumberFieldProps<MassUnit>, 'units'>) {
  return <NumberField {...props} units={UNITS} placeholder={props.value.unit === 'lb-oz' ? '3 lb 4 oz' : undefined} />;
}
