/** Which edition of a rulebook was in force on a day. */
import type { Day } from '@ullage/units';
import type { Edition } from './edition.ts';
import type { RulebookId } from './types.ts';
import { usHfc2026 } from './us-hfc/2026-01-01.ts';
import { usOds2019 } from './us-ods/2019-01-01.ts';
import { usOdsBefore2019 } from './us-ods/before-2019.ts';

/** Oldest first. */
export const EDITIONS: Readonly<Record<RulebookId, readonly [Edition, ...Edition[]]>> = {
  'us-ods': [usOdsBefore2019, usOds2019],
  'us-hfc': [usHfc2026],
};

/** The edition in force, or undefined when the rulebook was not yet. */
export const editionOn = (rulebook: RulebookId, day: Day): Edition | undefined =>
  EDITIONS[rulebook].findLast((edition) => edition.effectiveOn <= day);

/** The edition in force, or the first one to come: what an answer of "not yet" is based on. */
export const editionFor = (rulebook: RulebookId, day: Day): Edition =>
  editionOn(rulebook, day) ?? EDITIONS[rulebook][0];
