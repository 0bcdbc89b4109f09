'use client';
import { useState } from 'react';
import { factsAt } from '../steps.ts';
import { hasDraft, useForm } from '../use-form.ts';
import { useVisit } from '../visit-context.tsx';
import { bind } from './bind.ts';
import { Area } from './fields.tsx';
import { Nested } from './nested.tsx';
import { PhotosField } from './photos-field.tsx';
import { Recorded } from './recorded.tsx';
import css from './step.module.css';

/** What the maker's plate says, as a picture: nobody copies it wrong. */
export function Nameplate() {
  const screen = useVisit();
  const { view, glance, sync } = screen;
  const [open, setOpen] = useState(() => hasDraft(screen, 'plate'));
  const facts = factsAt(view.facts, 'start', glance.circuitId).filter(({ kind }) => kind === 'plate');
  const queued = sync.queued.filter(({ place }) => place.visitId === view.visit.id && place.step === 'plate');
  return (
    <>
      <Recorded facts={facts} queued={queued} />
      {open ? (
        <PlateForm onDone={() => setOpen(false)} />
      ) : (
        <button type="button" className={css['small']} onClick={() => setOpen(true)}>
          Photograph the nameplate
        </button>
      )}
    </>
  );
}

function PlateForm({ onDone }: { onDone: () => void }) {
  const { view, glance } = useVisit();
  const form = useForm({
    name: 'plate',
    kind: 'record-plate' as const,
    initial: { photos: [] as readonly string[], reads: '' },
    build: (values, check) => {
      const reads = check.optionalText(values.reads);
      const photos = check.some('photos', 'Photos', values.photos);
      return {
        body: {
          visitId: view.visit.id,
          circuitId: glance.circuitId,
          photos: [...photos],
          ...(reads !== undefined && { reads }),
        },
        said: 'Nameplate photographed',
      };
    },
    onSaved: onDone,
  });
  return (
    <Nested title="The nameplate" form={form} saveText="Save the nameplate" onLeave={onDone}>
      <PhotosField {...bind(form, 'photos')} label="Photos" />
      <Area
        {...bind(form, 'reads')}
        label="What it reads"
        hint="Model, serial, refrigerant, charge."
        rows={2}
        optional
      />
    </Nested>
  );
}
