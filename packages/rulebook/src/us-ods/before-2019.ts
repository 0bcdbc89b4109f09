import type { Edition } from '../edition.ts';
import { usOds2019 } from './2019-01-01.ts';

/**
 * Leak rates of before 1 January 2019. Only the thresholds are of their time (35 % refrigeration, 15 % the rest, as the
 * agency's comparison of the two rules gives them); old additions appear in histories, and no clock of them still runs.
 */
export const usOdsBefore2019: Edition = {
  ...usOds2019,
  version: 'before-2019',
  effectiveOn: '1993-06-14',
  thresholdPercent: {
    'commercial-refrigeration': '35',
    'industrial-process-refrigeration': '35',
    'comfort-cooling': '15',
    'refrigerated-transport': '15',
    other: '15',
  },
  caveats: [
    {
      flag: 'not-verified-against-the-text',
      text: 'Thresholds of before 2019 follow the agency\u2019s comparison page; the first day of this edition is from memory.',
      source: 'US EPA, comparison of the leak repair rules before and from 2019',
    },
  ],
};
