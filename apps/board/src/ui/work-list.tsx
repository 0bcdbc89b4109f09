'use client';
import type { KeyboardEvent, ReactNode } from 'react';

const CONTROL = 'a[href], button:not([aria-disabled="true"]), summary';
const WORK = 'li[data-work]';
/** Where arrows have a meaning of their own. */
const OWN_ARROWS = 'input, select, textarea, [role="menu"], [contenteditable], pre';

const worksIn = (list: Element): Element[] => [...list.querySelectorAll(WORK)];
function enter(work: Element | undefined): boolean {
  const control = work?.querySelector<HTMLElement>(CONTROL);
  control?.focus();
  control?.scrollIntoView({ block: 'nearest' });
  return control !== null && control !== undefined;
}

/** Things that are worked off one by one: arrows go from one to the next, Home and End to the ends, Tab into each. */
export function WorkList({
  label,
  className,
  children,
}: {
  label?: string;
  className?: string | undefined;
  children: ReactNode;
}) {
  function go(event: KeyboardEvent<HTMLUListElement>): void {
    const target = event.target as Element;
    if (event.altKey || event.ctrlKey || event.metaKey || target.closest(OWN_ARROWS)) return;
    const works = worksIn(event.currentTarget);
    const at = works.findIndex((work) => work.contains(target));
    const to = { ArrowDown: at + 1, ArrowUp: at - 1, Home: 0, End: works.length - 1 }[event.key];
    if (at < 0 || to === undefined || !works[to]) return;
    event.preventDefault();
    enter(works[to]);
  }
  return (
    <ul className={className} aria-label={label} onKeyDown={go}>
      {children}
    </ul>
  );
}

/**
 * After one of them is settled: on to the next on the page that waits, else to the one before, else to the page’s heading,
 * so that nobody loses their place. To be called while the settled one is still there.
 */
export function goOnFrom(inside: Element | null): void {
  const own = inside?.closest(WORK);
  const all = worksIn(document.body);
  const at = own ? all.indexOf(own) : -1;
  const waits = (work: Element): boolean => work !== own && work.getAttribute('data-work') === 'waits';
  const next = all.slice(at + 1).find(waits) ?? all.slice(0, Math.max(at, 0)).findLast(waits);
  if (enter(next)) return;
  const heading = document.querySelector<HTMLElement>('main h1');
  heading?.setAttribute('tabindex', '-1');
  heading?.focus();
}
