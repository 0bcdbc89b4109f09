'use client';
import dynamic from 'next/dynamic';
import { useRef, useState, type ComponentType } from 'react';
import { Menu, type MenuEntry } from '../../ui/menu.tsx';
import type { ActionProps } from './actions/action-props.ts';

interface Action extends Omit<MenuEntry, 'disabledBecause'> {
  /** Why it cannot be done with this cylinder as it is. */
  readonly not?: (view: ActionProps['view']) => string | undefined;
  /** Left out where it is nothing for whoever looks, or for this cylinder. */
  readonly only?: (props: Omit<ActionProps, 'onClose'>) => boolean;
  readonly Dialog: ComponentType<ActionProps>;
}
/** One that is away is dealt with first: found, or what was reported of it taken back. */
const away: NonNullable<Action['not']> = ({ cylinder }) => {
  if (cylinder.away === 'lost') return 'It is marked lost: say first that it is found.';
  return cylinder.away === null ? undefined : 'It is gone. Take that back first, if it is not.';
};
const emptied: Action['not'] = (view) =>
  away(view) ?? (view.cylinder.netGrams === 0 ? 'Nothing is in it, by the books.' : undefined);
const notLost: Action['not'] = ({ cylinder }) => (cylinder.away === 'lost' ? undefined : 'It is not marked lost.');

/** What is done with a cylinder by whoever handles it, in the order of the menu. A form is loaded when it is opened. */
const ACTIONS: readonly Action[] = [
  {
    id: 'air-check',
    text: 'Air check',
    note: 'Pressure of the rested cylinder against its gas',
    not: emptied,
    Dialog: dynamic(() => import('./actions/air-check-dialog.tsx').then((part) => part.AirCheckDialog)),
  },
  {
    id: 'transfer',
    text: 'Transfer',
    note: 'Move its gas into another cylinder',
    not: emptied,
    Dialog: dynamic(() => import('./actions/transfer-dialog.tsx').then((part) => part.TransferDialog)),
  },
  {
    id: 'weigh',
    text: 'Weigh',
    note: 'What the scale shows, without gas going anywhere',
    not: away,
    Dialog: dynamic(() => import('./actions/weigh-dialog.tsx').then((part) => part.WeighDialog)),
  },
  {
    id: 'hand-over',
    text: 'Hand over',
    note: 'To a shelf or a van',
    not: away,
    Dialog: dynamic(() => import('./actions/hand-over-dialog.tsx').then((part) => part.HandOverDialog)),
  },
  {
    id: 'tare',
    text: 'Put the tare right',
    note: 'What was weighed under it is read anew',
    Dialog: dynamic(() => import('./actions/tare-dialog.tsx').then((part) => part.TareDialog)),
  },
  {
    id: 'return',
    text: 'Back to its supplier',
    note: 'With its heel, as weighed',
    not: away,
    Dialog: dynamic(() => import('./actions/return-dialog.tsx').then((part) => part.ReturnDialog)),
  },
  {
    id: 'scrap',
    text: 'Scrap',
    note: 'Its heel recovered first',
    not: away,
    Dialog: dynamic(() => import('./actions/scrap-dialog.tsx').then((part) => part.ScrapDialog)),
  },
  {
    id: 'lost',
    text: 'Mark lost',
    note: 'Nobody knows where it is',
    not: away,
    Dialog: dynamic(() => import('./actions/lost-dialog.tsx').then((part) => part.LostDialog)),
  },
  {
    id: 'found',
    text: 'It is found',
    note: 'Where it is, and what the scale shows',
    not: notLost,
    Dialog: dynamic(() => import('./actions/found-dialog.tsx').then((part) => part.FoundDialog)),
  },
  {
    id: 'release',
    text: 'Release',
    note: 'Let it be used again',
    only: ({ view }) => view.doubts.some(({ cause }) => cause === 'set-aside'),
    Dialog: dynamic(() => import('./actions/release-dialog.tsx').then((part) => part.ReleaseDialog)),
  },
  {
    id: 'recall',
    text: 'Recall its gas',
    note: 'Everything it has come to, each with one action',
    only: ({ mayRecall }) => mayRecall,
    Dialog: dynamic(() => import('./actions/recall-dialog.tsx').then((part) => part.RecallDialog)),
  },
];

/** The menu of a cylinder's page, with the form of what was chosen. */
export function CylinderActions(props: Omit<ActionProps, 'onClose'>) {
  const [open, setOpen] = useState('');
  const chosen = ACTIONS.find(({ id }) => id === open);
  const box = useRef<HTMLDivElement>(null);
  /** What had the focus when the form opened has left with the menu: the focus goes back to its button. */
  const close = (): void => {
    setOpen('');
    setTimeout(() => box.current?.querySelector('button')?.focus());
  };
  return (
    <div ref={box}>
      <Menu
        label="Handle"
        entries={ACTIONS.filter(({ only }) => only?.(props) ?? true).map(({ id, text, note, not }) => {
          const because = not?.(props.view);
          return { id, text, ...(note && { note }), ...(because && { disabledBecause: because }) };
        })}
        onChoose={setOpen}
      />
      {chosen && <chosen.Dialog {...props} onClose={close} />}
    </div>
  );
}
