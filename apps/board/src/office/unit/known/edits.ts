/** What the dialogs of a unit's page send: only what differs from what stands. */
import type { CircuitView, CommandBody, UnitView } from '@ullage/contracts';
import type { MassUnit } from '@ullage/units';
import { fullChargeFrom } from '../../../lib/full-charge-text.ts';
import type { FieldProblem } from '../../../lib/problem.ts';
import { contactFrom, elevationM } from '../../../screens/call/call-form.ts';

type Site = UnitView['site'];
export interface SiteForm {
  readonly name: string;
  readonly elevation: string;
  readonly elevationUnit: 'ft' | 'm';
  readonly latitude: string;
  readonly longitude: string;
  readonly contact: string;
  readonly access: string;
}
export const siteForm = (site: Site): SiteForm => ({
  name: site.name,
  elevation: site.elevationAssumed ? '' : String(site.elevationM),
  elevationUnit: 'm',
  latitude: site.coordinates === null ? '' : String(site.coordinates.latitude),
  longitude: site.coordinates === null ? '' : String(site.coordinates.longitude),
  contact: site.contact === null ? '' : [site.contact.name, site.contact.phone].filter(Boolean).join(', '),
  access: site.accessNotes ?? '',
});

/** A figure as typed; NaN for text that is none, so that the contract says what would be right. */
const figure = (text: string): number =>
  text.trim() === '' ? Number.NaN : Number(text.trim().replace(/\u2212/g, '-'));

export function siteBody(site: Site, form: SiteForm): Partial<CommandBody<'describe-site'>> & { siteId: string } {
  const old = siteForm(site);
  const differs = (key: keyof SiteForm): boolean => form[key].trim() !== old[key].trim();
  const moved = differs('latitude') || differs('longitude');
  const contact = contactFrom(form.contact);
  return {
    siteId: site.id,
    ...(differs('name') && form.name.trim() !== '' ? { name: form.name.trim() } : {}),
    ...((differs('elevation') || form.elevationUnit !== old.elevationUnit) && form.elevation.trim() !== ''
      ? { elevationM: elevationM(form.elevation, form.elevationUnit) }
      : {}),
    ...(moved ? { coordinates: { latitude: figure(form.latitude), longitude: figure(form.longitude) } } : {}),
    ...(differs('contact') && contact ? { contact } : {}),
    ...(differs('access') ? { accessNotes: form.access.trim() } : {}),
  };
}
const SITE_FIELDS: readonly (readonly [RegExp, string, string])[] = [
  [/^name/, 'known-name', 'Site name'],
  [/^elevationM/, 'known-elevation', 'Elevation'],
  [/^coordinates\/longitude/, 'known-longitude', 'Longitude'],
  [/^coordinates/, 'known-latitude', 'Latitude'],
  [/^contact/, 'known-contact', 'Contact'],
  [/^accessNotes/, 'known-access', 'Access'],
];

export interface CircuitForm {
  readonly use: string;
  readonly equipment: string;
  readonly subsector: string;
  readonly installedOn: string;
  readonly why: string;
}
export const circuitForm = (circuit: CircuitView): CircuitForm => ({
  use: circuit.use,
  equipment: circuit.equipment,
  subsector: circuit.subsector ?? '',
  installedOn: circuit.installedOn ?? '',
  why: '',
});
export function circuitBody(circuit: CircuitView, form: CircuitForm): { circuitId: string; why: string } {
  const old = circuitForm(circuit);
  const changed = (['use', 'equipment', 'subsector', 'installedOn'] as const).filter(
    (key) => form[key] !== old[key] && form[key] !== '',
  );
  return { circuitId: circuit.id, why: form.why.trim(), ...Object.fromEntries(changed.map((key) => [key, form[key]])) };
}
const CIRCUIT_FIELDS: readonly (readonly [RegExp, string, string])[] = [
  [/^use/, 'known-use', 'Use'],
  [/^equipment/, 'known-equipment', 'Equipment'],
  [/^subsector/, 'known-subsector', 'Subsector'],
  [/^installedOn/, 'known-installedOn', 'Installed on'],
  [/^why/, 'known-why', 'Why'],
];

export interface ChargeForm {
  readonly text: string;
  readonly unit: MassUnit;
  readonly method: string;
  readonly fromOn: string;
}
export const chargeBody = (circuit: CircuitView, form: ChargeForm) => ({
  circuitId: circuit.id,
  fromOn: form.fromOn,
  fullCharge: fullChargeFrom(form),
});
const CHARGE_FIELDS: readonly (readonly [RegExp, string, string])[] = [
  [/^fromOn/, 'known-fromOn', 'Holds from'],
  [/^fullCharge\/method/, 'known-method', 'Figure from'],
  [/^fullCharge/, 'known-charge', 'Full charge'],
];

/** The control that a pointer of the API's leads to. */
export const finder =
  (fields: readonly (readonly [RegExp, string, string])[]) =>
  (pointer: string): { id: string; label: string } | undefined => {
    const path = pointer.replace(/^#?\/(body\/)?/, '');
    const found = fields.find(([test]) => test.test(path));
    return found && { id: found[1], label: found[2] };
  };
export const siteField = finder(SITE_FIELDS);
export const circuitField = finder(CIRCUIT_FIELDS);
export const chargeField = finder(CHARGE_FIELDS);

/** Message by field, the first one winning. */
export function messages(
  errors: readonly FieldProblem[],
  fieldOf: (pointer: string) => { id: string } | undefined,
): Readonly<Record<string, string>> {
  const by: Record<string, string> = {};
  for (const { pointer, detail } of errors) by[fieldOf(pointer)?.id ?? ''] ??= detail;
  return by;
}
