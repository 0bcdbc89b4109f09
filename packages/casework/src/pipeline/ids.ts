import { createHash } from 'node:crypto';
import type { Calendar, Instant } from '@ullage/units';
import { uuidv7 } from '@ullage/units';

/**
 * Ids that follow from what causes them: the same command, or the same night's work, carried out again from the same state
 * makes rows of the same ids. So a contractor who leaves and comes back has the visit that was placed under the id by which
 * later commands name it. Within one cause they ascend. An id opens nothing, so that nobody gains by guessing one.
 */
export function idsFrom(calendar: Calendar, { cause, at }: { cause: string; at: Instant }): () => string {
  let made = 0;
  return () => {
    const rest = createHash('sha256').update(`${cause}|${made}`).digest();
    // The first twelve bits after the time count.
    rest[0] = (made >> 8) & 0x0f;
    rest[1] = made & 0xff;
    made += 1;
    return uuidv7(calendar.epochMs(at), rest);
  };
}
