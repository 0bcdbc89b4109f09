'use client';
import { useCallback, useRef, useState } from 'react';
import type { Offer } from './offer.ts';
import type { Placer } from './takes-drops.ts';

/** On a narrow screen the reasons stand below the list; the focus leads there, and a screen reader with it. */
const focusOnTitle = (): void => {
  requestAnimationFrame(() => document.getElementById('visit-title')?.focus());
};

/** Which visit is looked at, and the moment that is drawn for it: asked for in its form, or under the pointer of a drag. */
export function useChosen(first: string) {
  const [selected, setSelected] = useState(first);
  const [offer, setOffer] = useState<Offer>();
  const [dragged, setDragged] = useState<Offer>();
  const placerRef = useRef<Placer>(null);
  const pick = useCallback((visitId: string): void => {
    setSelected(visitId);
    setOffer((old) => (old?.visitId === visitId ? old : undefined));
    history.replaceState(null, '', `/returns?visit=${visitId}`);
  }, []);
  const select = useCallback(
    (visitId: string): void => {
      pick(visitId);
      focusOnTitle();
    },
    [pick],
  );
  const drop = useCallback<Placer>((visitId, fields) => {
    placerRef.current?.(visitId, fields);
    focusOnTitle();
  }, []);
  return { selected, select, pick, offer: dragged ?? offer, setOffer, setDragged, placerRef, drop };
}
