/** Days and clocks at a site. The story is told on the day it runs, wherever the computer stands. */

const DAY_MS = 86_400_000;

export function localHour(zone: string, now = new Date()): number {
  return Number(new Intl.DateTimeFormat('en-GB', { hour: '2-digit', hourCycle: 'h23', timeZone: zone }).format(now));
}

/** A zone in which the working day has just begun: a visit can be placed today, and today does not end under the test. */
export function morningZone(now = new Date()): string {
  const isMorning = (zone: string): boolean => [8, 9].includes(localHour(zone, now));
  const known = ['America/Denver', 'America/New_York', 'America/Los_Angeles', ...Intl.supportedValuesOf('timeZone')];
  const found = known.find(isMorning);
  if (found === undefined) throw new Error('nowhere is it morning');
  return found;
}

/** `2026-04-30`, so many days from today at a place. */
export function dayAt(zone: string, ahead = 0): string {
  const noon = Date.parse(`${new Intl.DateTimeFormat('en-CA', { timeZone: zone }).format(new Date())}T12:00:00Z`);
  return new Date(noon + ahead * DAY_MS).toISOString().slice(0, 10);
}

/** `14:00`, so many hours from now at a place, on the full hour. */
export const hourAt = (zone: string, ahead: number): string => `${String(localHour(zone) + ahead).padStart(2, '0')}:00`;

/** `30 Apr 2026`. */
export function dayWords(day: string): string {
  const [year, month, date] = day.split('-').map(Number);
  const names = ['Jan', 'Feb', 'Mar', 'Apr', 'May', 'Jun', 'Jul', 'Aug', 'Sep', 'Oct', 'Nov', 'Dec'];
  return `${date} ${names[(month ?? 0) - 1]} ${year}`;
}
