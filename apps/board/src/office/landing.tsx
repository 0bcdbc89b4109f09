'use client';
import { useEffect } from 'react';

/** Leads the focus to the record that the address names, opening what it is folded into: a link to a fact ends there. */
function land(): void {
  const target = document.getElementById(location.hash.slice(1));
  if (!target) return;
  for (let at = target.parentElement; at; at = at.parentElement) if (at instanceof HTMLDetailsElement) at.open = true;
  for (const old of document.querySelectorAll<HTMLElement>('[data-landed]')) delete old.dataset['landed'];
  target.dataset['landed'] = '';
  if (!target.hasAttribute('tabindex')) target.tabIndex = -1;
  target.focus({ preventScroll: true });
  target.scrollIntoView({ block: 'center' });
}

/**
 * On every page whose records are pointed to. A browser does this for an address it opens itself; a step inside the app
 * leaves the focus where it was and marks nothing.
 */
export function Landing() {
  useEffect(() => {
    land();
    addEventListener('hashchange', land);
    return () => removeEventListener('hashchange', land);
  }, []);
  return null;
}
