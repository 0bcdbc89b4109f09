import { GOING } from './lib/going.ts';

/** Next calls this as a page is asked for by a link or a button; the frame shows it until the page is there. */
export function onRouterTransitionStart(url: string): void {
  dispatchEvent(new CustomEvent(GOING, { detail: url }));
}
