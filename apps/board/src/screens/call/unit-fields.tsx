'use client';
import { ComboBox } from '../../ui/combo-box.tsx';
import { MassField } from '../../ui/mass-field.tsx';
import { Select } from '../../ui/select.tsx';
import { TextField } from '../../ui/text-field.tsx';
import { refrigerantFrom } from './call-form.ts';
import { chosenId, type CallPartProps } from './place-fields.tsx';
import { CHARGE_FROM_OPTIONS, RANGE_HINT, USE_OPTIONS } from '../../office/circuit-choices.ts';
import css from './call.module.css';

function UnitField({ draft, change, errors, places }: CallPartProps) {
  const units = places.units.filter(({ siteId }) => siteId === draft.siteId);
  const circuits = units.flatMap((unit) => unit.circuits.map((circuit) => ({ unit, circuit })));
  const choices = circuits.map(({ unit, circuit }) => ({
    id: circuit.id,
    text: `${unit.tag}-${circuit.letter}`,
    note: [unit.description, circuit.refrigerant].filter(Boolean).join(', '),
  }));
  return (
    <ComboBox
      key={draft.siteId}
      id="unit"
      label="Unit"
      hint={draft.circuitId !== '' ? 'Known.' : 'Its tag; a circuit by its letter, as 0418-B.'}
      choices={choices}
      text={draft.unit}
      error={errors['unit']}
      empty="A new unit."
      onText={(text) => {
        if (text === draft.unit) return;
        const circuitId = chosenId(choices, text, draft.circuitId);
        const known = circuits.find(({ circuit }) => circuit.id === circuitId);
        // A new letter on a known tag is one more circuit of that unit.
        const tag = text
          .trim()
          .replace(/-[a-z]{1,2}$/i, '')
          .toLowerCase();
        const unit = known?.unit ?? units.find((one) => one.tag.toLowerCase() === tag);
        change({ unit: text, circuitId, unitId: unit?.id ?? '' });
      }}
    />
  );
}

function NewCircuit({ draft, change, errors, gases }: CallPartProps) {
  return (
    <>
      <TextField
        id="what"
        label="What it is"
        optional
        autoComplete="off"
        value={draft.what}
        error={errors['what']}
        onChange={({ target }) => change({ what: target.value })}
      />
      <ComboBox
        id="refrigerant"
        label="Refrigerant"
        choices={gases.map((name) => ({ id: name, text: name }))}
        text={draft.refrigerant}
        error={errors['refrigerant']}
        empty="Not known here; check the plate."
        onText={(text) => {
          if (text !== draft.refrigerant) change({ refrigerant: refrigerantFrom(text, gases) });
        }}
      />
      <Select
        id="use"
        label="Use"
        ask="Choose"
        hint={'It decides the law\u2019s limit.'}
        options={USE_OPTIONS}
        value={draft.use}
        error={errors['use']}
        onChange={({ target }) => change({ use: target.value })}
      />
      <MassField
        id="charge"
        label="Full charge"
        hint={draft.chargeFrom === 'range' ? RANGE_HINT : undefined}
        value={{ text: draft.charge, unit: draft.chargeUnit }}
        error={errors['charge']}
        onChange={({ text, unit }) => change({ charge: text, chargeUnit: unit })}
      />
      <Select
        id="chargeFrom"
        label="Figure from"
        options={CHARGE_FROM_OPTIONS}
        value={draft.chargeFrom}
        error={errors['chargeFrom']}
        onChange={({ target }) => change({ chargeFrom: target.value })}
      />
    </>
  );
}

/** Which circuit, and what the law's sums need of a new one. */
export function UnitFields(props: CallPartProps) {
  const { draft, places } = props;
  const known = places.units.flatMap(({ circuits }) => circuits).find(({ id }) => id === draft.circuitId);
  return (
    <fieldset className={css['part']}>
      <legend>Which unit</legend>
      <div className={css['fields']}>
        <UnitField {...props} />
        {draft.circuitId === '' ? (
          <NewCircuit {...props} />
        ) : (
          <p className={css['known']}>
            <b>Known circuit:</b>{' '}
            {known
              ? `${known.refrigerant}, ${known.use.replaceAll('-', ' ')}, full charge ${known.fullCharge.value} ${known.fullCharge.unit}.`
              : 'gas, use and full charge as recorded.'}
          </p>
        )}
      </div>
    </fieldset>
  );
}
