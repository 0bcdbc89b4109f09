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
      setFrom(stays ? undefined : at);
    };
    addEventListener(GOING, begin);
    return () => removeEventListener(GOING, begin);
  }, [at]);
  return (
    <div className={css['going']} role="status">
      {/* The address changes with the page: then it is there. */}
      {from === at && (
        <i>
          <span className="spoken">Opening the page</span>
        </i>
      )}
    </div>
  );
}
