import { useEffect, type RefObject } from 'react';
import type { PlaceForm } from './place-command.ts';

/** Where a row that was dropped goes: to the form of its visit, which places what stands in it. */
export type Placer = (visitId: string, fields: Partial<PlaceForm>) => void;
export type PlacerRef = RefObject<Placer | null>;

/** While the form of a visit stands there, what is dropped for that visit is placed from it. */
export function useTakesDrops(
  placerRef: PlacerRef,
  visitId: string,
  place: (fields: Partial<PlaceForm>) => void,
): void {
  useEffect(() => {
    placerRef.current = (id, fields) => {
      if (id === visitId) place(fields);
    };
    return () => {
      placerRef.current = null;
    };
  });
}
