'use client';
import type { LocationListView } from '@ullage/contracts';
import { Select } from '../../../ui/select.tsx';
import { useAnswer } from './use-advice.ts';

type Location = LocationListView['items'][number];
/** `Van 3, Rosa Quill`: who keeps a place has what is there. */
export const placeText = ({ name, keeper }: Pick<Location, 'name' | 'keeper'>): string =>
  keeper ? `${name}, ${keeper.name}` : name;

export interface PlaceSelectProps {
  readonly id: string;
  readonly label: string;
  readonly value: string;
  readonly error: string | undefined;
  readonly onChange: (id: string) => void;
  /** Left out of the list: where it is already. */
  readonly not?: string | undefined;
}

/** One of the firm's locations. */
export function PlaceSelect({ id, label, value, error, onChange, not }: PlaceSelectProps) {
  const list = useAnswer<LocationListView>('/v1/locations');
  const places = (list?.items ?? []).filter((one) => one.id !== not);
  return (
    <Select
      id={id}
      label={label}
      ask="Choose"
      hint={list?.items.length === 0 ? 'No location yet: register one under Settings.' : undefined}
      options={places.map((one) => ({ value: one.id, text: placeText(one) }))}
      value={value}
      error={error}
      onChange={({ target }) => onChange(target.value)}
    />
  );
}
