'use client';
import { FieldGroup } from '../../ui/field.tsx';
import { CheckRow } from '../../ui/check-row.tsx';
import { listOf, PLACES, PLACES_BY_ZONE, textOf } from '../words.ts';
import type { Bound } from './bind.ts';
import css from './step.module.css';

/** The leak places, zone by zone; a zone shows what is ticked in it while it is shut. */
export function PlacesField({
  id,
  error,
  value,
  onChange,
  label,
}: Bound<readonly string[]> & { readonly label: string }) {
  return (
    <FieldGroup
      id={id}
      error={error}
      label={label}
      hint={
        value.length === 0
          ? 'Open a zone and tick what was covered.'
          : listOf(
              value.map((place) => textOf(PLACES, place)),
              3,
            )
      }
    >
      {PLACES_BY_ZONE.map(({ zone, places }) => {
        const here = places.filter((place) => value.includes(place.value)).length;
        return (
          <details key={zone} className={css['zone']}>
            <summary>
              {zone}
              <span>
                {here > 0
                  ? `${here} of ${places.length}`
                  : `${places.length} ${places.length === 1 ? 'place' : 'places'}`}
              </span>
            </summary>
            {places.map((place) => (
              <CheckRow
                key={place.value}
                checked={value.includes(place.value)}
                onChange={(event) =>
                  onChange(event.target.checked ? [...value, place.value] : value.filter((one) => one !== place.value))
                }
              >
                {place.text}
              </CheckRow>
            ))}
          </details>
        );
      })}
    </FieldGroup>
  );
}
