import type { Raised } from '@ullage/gasbook';
import type { CommandBody } from '@ullage/contracts';
import type { GasFact } from './gas-facts.ts';

/** What somebody said may be wrong with the gas they moved; nobody can bound it. */
export const saidDoubts = ({ body }: GasFact): Raised[] => {
  const said = body.doubts as CommandBody<'record-transfer'>['doubts'];
  return (said ?? []).map((cause) => ({ cause, lowGrams: 0, highGrams: null }));
};
