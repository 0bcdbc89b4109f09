'use client';
import { LOOK_METHODS, UNIT_STATES as STATES } from '@ullage/trail';
import type { NextLook as Look } from '@ullage/trail';
import dynamic from 'next/dynamic';
import { Caution } from '../../ui/caution.tsx';
import { FourChoice } from '../../ui/phone/four-choice.tsx';
import { Skeleton } from '../../ui/skeleton.tsx';
import { loadNextLook } from '../next-look/load-next-look.ts';
import type { NextLookProps } from '../next-look/next-look.tsx';
import { bind } from '../parts/bind.ts';
import { Electricity } from '../parts/cautions.tsx';
import { ExplainsCard } from '../parts/explains-card.tsx';
import { Area, Figure, GRAMS_A_YEAR, Keys, Line, Pick } from '../parts/fields.tsx';
import { InstrumentField } from '../parts/instrument-field.tsx';
import { PhotosField } from '../parts/photos-field.tsx';
import { PlacesField } from '../parts/places-field.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { type Form, useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { listOf, METHODS, PLACES, textOf, UNIT_STATES } from '../words.ts';
import css from '../parts/step.module.css';

const RESULTS = [
  { value: 'clear', mark: 'clear', text: 'Clear' },
  { value: 'hit', mark: 'hit', text: 'Hit', note: 'not yet confirmed' },
  { value: 'found', mark: 'found', text: 'Found' },
  { value: 'could-not-reach', mark: 'unreached', text: 'Not reached', note: 'say why' },
] as const;
type Result = (typeof RESULTS)[number]['value'];
const RESULT_IDS: readonly Result[] = RESULTS.map(({ value }) => value);

interface Values {
  readonly places: readonly string[];
  readonly where: string;
  readonly method: string;
  readonly instrument: string;
  readonly sensitivity: { readonly text: string; readonly unit: string };
  readonly unitState: string;
  readonly conditions: string;
  readonly result: string;
  readonly why: string;
  readonly photos: readonly string[];
}
const INITIAL: Values = {
  places: [],
  where: '',
  method: '',
  instrument: '',
  sensitivity: { text: '', unit: 'g/yr' },
  unitState: 'off',
  conditions: '',
  result: '',
  why: '',
  photos: [],
};

function useLook() {
  const { view, glance } = useVisit();
  return useForm<Values, 'record-look'>({
    name: 'looks',
    kind: 'record-look',
    initial: INITIAL,
    build: (values, check) => {
      const result = check.choice('result', RESULT_IDS, { label: 'Result', value: values.result });
      const [where, conditions] = [check.optionalText(values.where), check.optionalText(values.conditions)];
      const sensitivity = check.optionalNumber('sensitivityGramsPerYear', 'Sensitivity', values.sensitivity.text);
      const places = check.some('places', 'Places', values.places);
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          places,
          method: check.choice(
            'method',
            METHODS.map(({ value }) => value),
            { label: 'Method', value: values.method },
          ),
          unitState: check.choice('unitState', ['off', 'running', 'nitrogen'], {
            label: 'Unit',
            value: values.unitState,
          }),
          result,
          ...(where !== undefined && { where }),
          ...(values.instrument !== '' && { instrumentId: values.instrument }),
          ...(sensitivity !== undefined && { sensitivityGramsPerYear: sensitivity }),
          ...(conditions !== undefined && { conditions }),
          ...(values.photos.length > 0 && { photos: [...values.photos] }),
          ...(result === 'could-not-reach' && { why: check.text('why', 'Why not reached', values.why) }),
        },
        said: `${listOf(places.map((place) => textOf(PLACES, place)))}: ${RESULTS.find((one) => one.value === result)?.text ?? ''}`,
      };
    },
  });
}

/** What must hold before the method is worth anything, and what can hurt. */
function MethodNotes({ method }: { method: string }) {
  const found = LOOK_METHODS.find((one) => one.id === method);
  if (!found) return null;
  return (
    <>
      {'caution' in found && <Caution title={found.words}>{found.caution}</Caution>}
      <ul className={css['notes']}>
        {found.preconditions.map((text) => (
          <li key={text}>{text}</li>
        ))}
        {!found.locates && <li>It tells that there is a leak, not where.</li>}
      </ul>
    </>
  );
}

/** A detector brings its own sensitivity; a typed figure is never overwritten. */
function useInstrumentChoice(form: Form<Values>) {
  const { view } = useVisit();
  return (id: string): void => {
    const sense = view.instruments.find((one) => one.id === id)?.senseGramsPerYear;
    const own = form.values.sensitivity.text !== '' || sense === null || sense === undefined;
    form.set({ instrument: id, ...(!own && { sensitivity: { text: String(sense), unit: 'g/yr' } }) });
  };
}

const NextLook = dynamic<NextLookProps>(loadNextLook, {
  ssr: false,
  loading: () => <Skeleton label="Working out where to look next" lines={4} />,
});

/** Puts a suggested look into the form, but for what it showed, and leads there. */
function useTaking(form: Form<Values>) {
  const { view } = useVisit();
  return ({ places, method, instrumentId }: Look): void => {
    const sense = view.instruments.find((one) => one.id === instrumentId)?.senseGramsPerYear ?? null;
    form.set({
      places,
      method,
      instrument: instrumentId ?? '',
      sensitivity: { text: sense === null ? '' : String(sense), unit: 'g/yr' },
      result: '',
    });
    // The form may only now be drawn.
    requestAnimationFrame(() => {
      const at = document.getElementById(form.id('result'));
      at?.focus({ preventScroll: true });
      at?.scrollIntoView({ block: 'center' });
    });
  };
}

export function LooksStep() {
  const { view } = useVisit();
  const form = useLook();
  const chooseInstrument = useInstrumentChoice(form);
  const take = useTaking(form);
  const { values } = form;
  const isResult = (text: string): text is Result => RESULT_IDS.some((id) => id === text);
  return (
    <StepScreen
      step="looks"
      form={form}
      saveText="Save this look"
      addText="Another look"
      before={<Electricity />}
      after={
        <>
          {view.explains !== null && <ExplainsCard />}
          <NextLook unitState={STATES.find((state) => state === values.unitState) ?? 'off'} onTake={take} />
        </>
      }
    >
      <PlacesField {...bind(form, 'places')} label="Places covered" />
      <Line {...bind(form, 'where')} label="Where exactly" hint="As case 7, left end." maxLength={200} optional />
      <Pick {...bind(form, 'method')} label="Method" choices={METHODS} />
      <MethodNotes method={values.method} />
      <InstrumentField
        {...bind(form, 'instrument', 'instrumentId')}
        onChange={chooseInstrument}
        label="Instrument"
        kinds={['detector']}
        newKind="detector"
        optional
      />
      <Figure
        {...bind(form, 'sensitivity', 'sensitivityGramsPerYear')}
        label="Sensitivity"
        units={GRAMS_A_YEAR}
        hint="The least leak this look would have shown."
        optional
      />
      <Keys {...bind(form, 'unitState')} label="The unit is" choices={UNIT_STATES} />
      <Area {...bind(form, 'conditions')} label="Conditions" hint="Wind, pressure, noise." rows={2} optional />
      <div className={css['stack']} id={form.id('result')} tabIndex={-1}>
        <b>Result</b>
        {form.error('result') !== undefined && <p className={css['wrong']}>{form.error('result')}</p>}
        <FourChoice
          label="Result"
          choices={RESULTS}
          value={isResult(values.result) ? values.result : undefined}
          onChoose={(result) => form.set({ result })}
        />
      </div>
      {values.result === 'could-not-reach' && <Line {...bind(form, 'why')} label="Why not reached" maxLength={400} />}
      <PhotosField {...bind(form, 'photos')} label="Photos" optional />
    </StepScreen>
  );
}
