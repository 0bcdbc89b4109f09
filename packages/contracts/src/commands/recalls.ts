/** What is done about gas, an instrument or a tare that turned out to be bad, and about everything it touched. */
import * as z from 'zod';
import { Id, instantText, text } from '../primitives.ts';

const why = text('Why', { min: 3, max: 400 });

/** Begins at something that was written down. */
export const OpenRecall = z
  .strictObject({
    recallId: Id,
    factId: Id.meta({
      description: 'A failed check or calibration, an air check over the limit, or a corrected tare.',
    }),
  })
  .meta({
    id: 'OpenRecall',
    description: 'List what a failed instrument, bad gas or a wrong tare touched. The same source is one recall.',
  });

/** Begins at a cylinder whose gas somebody says is bad. */
export const RecallGas = z
  .strictObject({
    recallId: Id,
    cylinderId: Id,
    since: instantText('Bad since')
      .optional()
      .meta({ description: 'Without it since its last air check within the limit, or from the beginning.' }),
    why,
  })
  .meta({ id: 'RecallGas', description: 'List what the gas of a cylinder has come to since it was bad.' });

export const RECALL_ITEM_KINDS = ['cylinder', 'circuit', 'look', 'test', 'weighing'] as const;
export type RecallItemKind = (typeof RECALL_ITEM_KINDS)[number];
export const RECALL_ACTIONS = ['set-aside', 'return-visit', 'look-again', 'test-again', 'nothing'] as const;
export type RecallAction = (typeof RECALL_ACTIONS)[number];
/** The one action of each kind of thing; of a weighing it is the correction itself. `nothing` goes with every kind. */
export const ACTION_OF: Readonly<Record<RecallItemKind, RecallAction>> = {
  cylinder: 'set-aside',
  circuit: 'return-visit',
  look: 'look-again',
  test: 'test-again',
  weighing: 'nothing',
};

export const SettleRecallItem = z
  .strictObject({
    recallId: Id,
    item: z.strictObject({
      kind: z.enum(RECALL_ITEM_KINDS, { error: 'Item: choose one of the list.' }),
      id: Id,
    }),
    how: z.enum(RECALL_ACTIONS, { error: 'Action: choose one that is offered.' }),
    why: why.optional().meta({ description: 'Needed where nothing is to be done.' }),
  })
  .refine(({ how, why: reason }) => how !== 'nothing' || reason !== undefined, {
    error: 'Why: say in a few words why nothing is to be done.',
    path: ['why'],
  })
  .meta({
    id: 'SettleRecallItem',
    description: 'Do what is to be done about one thing that was touched, or say why nothing is.',
  });

export const CloseRecall = z
  .strictObject({ recallId: Id })
  .meta({ id: 'CloseRecall', description: 'Close a recall once all it touched is settled.' });

export const ReleaseCylinder = z
  .strictObject({ cylinderId: Id, why })
  .meta({ id: 'ReleaseCylinder', description: 'Let a cylinder be used again that had been set aside.' });
