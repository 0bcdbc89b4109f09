'use client';
import type { CommandBody } from '@ullage/contracts';
import { useForm } from '../use-form.ts';
import { useUnits, useVisit } from '../visit-context.tsx';
import type { Choice } from '../words.ts';
import type { Check } from '../check.ts';
import { bind } from './bind.ts';
import type { CylinderUse } from './cylinder-card.tsx';
import { Figure, Keys, Line, MASS_KEYS } from './fields.tsx';
import { Nested } from './nested.tsx';

const KINDS = [
  { value: 'recovery', text: 'Recovery' },
  { value: 'refillable', text: 'Refillable' },
  { value: 'disposable', text: 'Disposable' },
] as const satisfies readonly Choice<CommandBody<'register-cylinder'>['kind']>[];
const HOLDS = [
  { value: 'nothing', text: 'Nothing, evacuated' },
  { value: 'new', text: 'New gas' },
  { value: 'recovered', text: 'Recovered gas' },
] as const satisfies readonly Choice[];

const first = (serial: string, use: CylinderUse, unit: string) => ({
  serial,
  kind: use === 'recovery' ? 'recovery' : 'refillable',
  specification: '',
  waterCapacity: { text: '', unit },
  tare: { text: '', unit },
  tested: '',
  holds: use === 'recovery' ? 'nothing' : 'new',
  gross: { text: '', unit },
});
type Values = ReturnType<typeof first>;

/** What is in it as it is registered. */
function gasOf(values: Values, check: Check, refrigerant: string): Pick<CommandBody<'register-cylinder'>, 'gas'> {
  const state = check.choice('gas.state', ['nothing', 'new', 'recovered'], {
    label: 'What is in it',
    value: values.holds,
  });
  if (state === 'nothing') return {};
  return { gas: { refrigerant, state, gross: check.mass('gas.gross', 'Gross weight now', values.gross) } };
}

const STAMP = /^(?<month>\d{1,2})[-/. ](?<year>\d{4}|\d{2})$/;
const ISO = /^(?<year>\d{4})-(?<month>\d{2})$/;

/** A stamped month, `03-21` or `2021-03`, as the record keeps it; undefined for other text. */
export function stampedMonth(typed: string): string | undefined {
  const { month = '', year = '' } = (STAMP.exec(typed) ?? ISO.exec(typed))?.groups ?? {};
  if (!(Number(month) >= 1 && Number(month) <= 12)) return undefined;
  return `${year.length === 2 ? `20${year}` : year}-${month.padStart(2, '0')}`;
}

function monthOf(value: string, check: Check): Pick<CommandBody<'register-cylinder'>, 'testedMonth'> {
  if (value.trim() === '') return {};
  const testedMonth = stampedMonth(value.trim());
  if (testedMonth === undefined) check.fault('testedMonth', 'Last test: give month and year as stamped, like 03-21.');
  return { testedMonth };
}

export interface NewCylinderProps {
  readonly serial: string;
  readonly use: CylinderUse;
  readonly onDone: (made: { id: string; serial: string } | undefined) => void;
}

function useNewCylinder({ serial, use, onDone }: NewCylinderProps) {
  const { glance } = useVisit();
  const { mass } = useUnits();
  return useForm<Values, 'register-cylinder'>({
    name: `new-cylinder-${use}`,
    kind: 'register-cylinder',
    initial: first(serial.trim(), use, mass === 'g' ? 'kg' : mass),
    build: (values, check, idOf) => {
      const cylinderId = idOf('cylinder');
      const stamped = check.text('serial', 'Serial', values.serial);
      const kind = check.choice('kind', ['recovery', 'refillable', 'disposable'], {
        label: 'Kind',
        value: values.kind,
      });
      return {
        body: {
          cylinderId,
          kind,
          serial: stamped,
          specification: check.text('specification', 'Specification', values.specification),
          waterCapacity: check.mass('waterCapacity', 'Water capacity', values.waterCapacity),
          tare: check.mass('tare', 'Tare', values.tare),
          ...monthOf(values.tested, check),
          ...gasOf(values, check, glance.refrigerant),
        },
        said: `Cylinder ${stamped}`,
        makes: [cylinderId],
      };
    },
    onSaved: (_answer, values, [id]) => onDone(id === undefined ? undefined : { id, serial: values.serial.trim() }),
  });
}

/** A cylinder that nobody has registered yet, by its stamps. */
export function NewCylinder({ serial, use, onDone }: NewCylinderProps) {
  const { glance } = useVisit();
  const form = useNewCylinder({ serial, use, onDone });
  const { values } = form;
  return (
    <Nested
      title={`Register cylinder ${serial.trim()}`}
      form={form}
      saveText="Register it"
      onLeave={() => onDone(undefined)}
    >
      <Line {...bind(form, 'serial')} label="Serial" figure maxLength={60} />
      <Keys {...bind(form, 'kind')} label="Kind" choices={KINDS} />
      <Line
        {...bind(form, 'specification')}
        label="Specification"
        hint="As stamped, as DOT-4BA400."
        figure
        maxLength={40}
      />
      <Figure {...bind(form, 'waterCapacity')} label="Water capacity" hint="Stamped WC." units={MASS_KEYS} />
      <Figure {...bind(form, 'tare')} label="Tare" hint="Stamped TW." units={MASS_KEYS} />
      <Line
        {...bind(form, 'tested', 'testedMonth')}
        label="Last test"
        hint="Month and year, as 03-21."
        figure
        maxLength={10}
        optional
      />
      <Keys {...bind(form, 'holds', 'gas.state')} label="What is in it" choices={HOLDS} />
      {values.holds !== 'nothing' && (
        <Figure
          {...bind(form, 'gross', 'gas.gross')}
          label="Gross weight now"
          hint={`Taken as ${glance.refrigerant}.`}
          units={MASS_KEYS}
        />
      )}
    </Nested>
  );
}
