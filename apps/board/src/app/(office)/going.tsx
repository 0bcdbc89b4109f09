'use client';
import { usePathname, useSearchParams } from 'next/navigation';
import { useEffect, useState } from 'react';
import { GOING } from '../../lib/going.ts';
import css from './office.module.css';

/**
 * A line under the bar while the next page is on its way. A record's page shows nothing of itself before it is known to
 * exist, so this is all that tells a person that their click was taken.
 */
export function Going() {
  const at = `${usePathname()}?${useSearchParams().toString()}`;
  const [from, setFrom] = useState<string>();
  useEffect(() => {
    const begin = (event: Event): void => {
      const { detail } = event as CustomEvent<string>;
      const to = new URL(detail, location.href);
      const stays = to.pathname + to.search === location.pathname + location.search;
      // The event comes inside the router's transition, which would hold this back until the page is there.
      setTimeout(() => setFrom(stays ? undefined : at));
    };
    addEventListener(GOING, begin);
    return () => removeEventListener(GOING, begin);
  }, [at]);
  return (
    <div className={css['going']}>
      <p className="spoken" role="status">
        {/* The address changes with the page: then it is there. */}
        {from === at ? 'Opening the page' : ''}
      </p>
      {from === at && <i />}
    </div>
  );
}
