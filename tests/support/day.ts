import { calendar } from './office.ts';

export const ZONE = 'America/Denver';
/** Wall-clock times of a day at the story's site. */
export const onDay =
  (day: string) =>
  (clock: string): string => {
    const local = calendar.at(day, clock, ZONE);
    if (!local.ok) throw new Error(`${day} ${clock} ${local.fault}`);
    return local.instant;
  };
