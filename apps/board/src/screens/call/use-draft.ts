'use client';
import type { MassUnit } from '@ullage/units';
import { useState } from 'react';
import { newKey } from '../../lib/client.ts';
import { emptyDraft, type CallDraft } from './call-form.ts';

interface Of {
  /** Whose draft it is: nobody finds another person's call on a shared computer. */
  readonly owner: string;
  readonly timeZone: string;
  readonly massUnit: MassUnit;
}

function kept(place: string, empty: CallDraft): CallDraft {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(place) ?? 'null');
    if (typeof found !== 'object' || found === null || !('ids' in found) || !('key' in found)) return empty;
    return { ...empty, ...(found as Partial<CallDraft>) };
  } catch {
    // Storage may be closed, or hold what another version wrote: then the form starts empty.
    return empty;
  }
}
function keep(place: string, draft: CallDraft | undefined): void {
  try {
    if (draft) localStorage.setItem(place, JSON.stringify(draft));
    else localStorage.removeItem(place);
  } catch {
    // Without storage the draft lives as long as the page.
  }
}

/** The call being taken; it survives a reload. In the browser only: the server knows no draft. */
export function useDraft({ owner, timeZone, massUnit }: Of) {
  const place = `ullage.call.${owner}`;
  const fresh = (): CallDraft => emptyDraft(newKey, { timeZone, massUnit });
  const [draft, setDraft] = useState(() => kept(place, fresh()));
  const change = (part: Partial<CallDraft>): void =>
    setDraft((old) => {
      const next = { ...old, ...part };
      keep(place, next);
      return next;
    });
  const clear = (): void => {
    keep(place, undefined);
    setDraft(fresh());
  };
  return { draft, change, clear, forget: () => keep(place, undefined) };
}
export type Change = ReturnType<typeof useDraft>['change'];
