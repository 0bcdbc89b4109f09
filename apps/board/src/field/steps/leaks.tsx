'use client';
import { factsAt } from '../steps.ts';
import { bind } from '../parts/bind.ts';
import { ExplainsCard } from '../parts/explains-card.tsx';
import { Area, Figure, GRAMS_A_YEAR, Line, Pick } from '../parts/fields.tsx';
import { LeakPointList } from '../parts/leak-points.tsx';
import { PhotosField } from '../parts/photos-field.tsx';
import { StepScreen } from '../parts/step-screen.tsx';
import { useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { CAUSE_CHOICES, PLACES, sizeWords, textOf } from '../words.ts';

const INITIAL = {
  place: '',
  where: '',
  cause: '',
  low: { text: '', unit: 'g/yr' },
  high: { text: '', unit: 'g/yr' },
  evidence: '',
  photos: [] as readonly string[],
};

function useLeakPoint() {
  const { view, glance } = useVisit();
  // The look that found it, when the last one did.
  const found = factsAt(view.facts, 'looks', glance.circuitId)
    .filter((fact) => fact.body['result'] === 'found')
    .at(-1);
  return useForm<typeof INITIAL, 'record-leak-point'>({
    name: 'leaks',
    kind: 'record-leak-point',
    initial: INITIAL,
    build: (values, check, idOf) => {
      const leakPointId = idOf('leakPoint');
      const low = check.optionalNumber('lowGramsPerYear', 'Size, low end', values.low.text);
      const high = check.optionalNumber('highGramsPerYear', 'Size, high end', values.high.text);
      if (low !== undefined && high !== undefined && high < low)
        check.fault('highGramsPerYear', 'Size, high end: give at least the low end.');
      const place = check.choice(
        'place',
        PLACES.map(({ value }) => value),
        { label: 'Place', value: values.place },
      );
      const cause = check.optionalChoice(
        CAUSE_CHOICES.map(({ value }) => value),
        values.cause,
      );
      const evidence = check.optionalText(values.evidence);
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          leakPointId,
          ...(found && { lookId: found.id }),
          place,
          where: check.text('where', 'Where', values.where),
          ...(cause !== undefined && { cause }),
          ...(low !== undefined && { lowGramsPerYear: low }),
          ...(high !== undefined && { highGramsPerYear: high }),
          ...(evidence !== undefined && { evidence }),
          ...(values.photos.length > 0 && { photos: [...values.photos] }),
        },
        said: `${textOf(PLACES, place)}, ${values.where.trim()}: ${sizeWords(low ?? null, high ?? null)}`,
        makes: [leakPointId],
      };
    },
  });
}

export function LeaksStep() {
  const { view, glance } = useVisit();
  const form = useLeakPoint();
  const known = view.leakPoints.filter((point) => point.circuitId === glance.circuitId);
  return (
    <StepScreen
      step="leaks"
      form={form}
      saveText="Save this leak point"
      addText="Another leak point"
      before={known.length > 0 && <LeakPointList points={known} title="Leak points of this circuit" />}
      after={view.explains !== null && <ExplainsCard />}
    >
      <Pick {...bind(form, 'place')} label="Place" choices={PLACES} />
      <Line
        {...bind(form, 'where')}
        label="Where"
        hint="So that the next person finds it: case 7, liquid line."
        maxLength={200}
      />
      <Figure
        {...bind(form, 'low', 'lowGramsPerYear')}
        label="Size, low end"
        units={GRAMS_A_YEAR}
        hint="A leak’s size is a range, never one figure."
        optional
      />
      <Figure {...bind(form, 'high', 'highGramsPerYear')} label="Size, high end" units={GRAMS_A_YEAR} optional />
      <Pick
        {...bind(form, 'cause')}
        label="Cause"
        choices={CAUSE_CHOICES.map(({ value, text, note }) => ({
          value,
          text: note === undefined ? text : `${text}: ${note}`,
        }))}
        ask="Not said"
        optional
      />
      <Area {...bind(form, 'evidence')} label="Evidence" hint="What you saw: oil, bubbles in 20 s." rows={2} optional />
      <PhotosField {...bind(form, 'photos')} label="Photos" hint="So that the next person sees where." optional />
    </StepScreen>
  );
}
