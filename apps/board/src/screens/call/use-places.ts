'use client';
import type { PlacesView } from '@ullage/contracts';
import { useEffect, useState } from 'react';
import { call } from '../../lib/client.ts';

const NONE: PlacesView = { customers: [], sites: [], units: [] };
const PAUSE_MS = 180;

/** Customers, sites and units that fit what is typed. Without a connection the form still takes what is new. */
export function usePlaces(query: string): PlacesView {
  const [places, setPlaces] = useState<PlacesView>(NONE);
  useEffect(() => {
    const stop = new AbortController();
    const timer = setTimeout(() => {
      void call<PlacesView>(`/v1/places?query=${encodeURIComponent(query.slice(0, 100))}`, {
        signal: stop.signal,
      }).then(
        (answer) => {
          if (answer.ok) setPlaces(answer.data);
        },
        () => undefined,
      );
    }, PAUSE_MS);
    return () => {
      clearTimeout(timer);
      stop.abort();
    };
  }, [query]);
  return places;
}
