/**
 * The axis of legal time, shared by circuits and people: a moment is one vertical line through both.
 * `d` counts calendar days from today's midnight in the site's zone. Overdue is logarithmic, seven days are to scale
 * with their nights folded away (nobody is sent out at night), then it closes up, logarithmically, to twelve weeks.
 * Lengths are px of a drawing 812 wide; a drawing of another width takes `percent`.
 */
export const PAST_PX = 64;
export const DAY_PX = 90;
export const LATER_PX = 118;
export const NEAR_DAYS = 7;
export const LAST_DAY = 84;
export const AXIS_PX = PAST_PX + DAY_PX * NEAR_DAYS + LATER_PX;
/** How fast the overdue side closes up. */
const OVERDUE_PX = 27;
const DAY_BEGINS = 6;
const DAY_HOURS = 12;

/** A day as its column shows it: 06 to 18 h fill it, the night lies on its edge. */
export function foldDay(d: number): number {
  const day = Math.floor(d);
  const hour = (d - day) * 24;
  return day + Math.min(1, Math.max(0, (hour - DAY_BEGINS) / DAY_HOURS));
}

/** Where a folded day count lies, to scale. */
export const foldedX = (folded: number): number => PAST_PX + DAY_PX * folded;

/** Where a moment lies; never left of 0, and everything beyond twelve weeks at the end. */
export function slackX(d: number): number {
  if (d < 0) return Math.max(0, PAST_PX - OVERDUE_PX * Math.log(1 - d));
  if (d <= NEAR_DAYS) return foldedX(foldDay(d));
  const share = Math.log(Math.min(d, LAST_DAY) / NEAR_DAYS) / Math.log(LAST_DAY / NEAR_DAYS);
  return PAST_PX + DAY_PX * NEAR_DAYS + LATER_PX * share;
}

/** Px of the axis as a share of its width, so that one drawing serves every screen. */
export const percent = (px: number): string => `${Math.round((px / AXIS_PX) * 1e5) / 1e3}%`;

/** Days in px, for a length to scale that is eaten from the end; nothing is drawn under 3 px. */
const MIN_PX = 3;
const hoursPx = (hours: number): number => Math.max(MIN_PX, (hours / DAY_HOURS) * DAY_PX);

export interface SlackLane {
  /** When the lawful window opened, and its legal edge, in days from today's midnight. */
  readonly opens: number;
  readonly edge: number;
  readonly now: number;
  readonly driveHours: number;
  readonly workHours: number;
  /** The firm's own distance from the edge, counted in calendar hours. */
  readonly reserveHours: number;
  /** Nothing can be done before this: a part arrives. */
  readonly waitsUntil?: number | undefined;
}
export interface Span {
  readonly x: number;
  readonly width: number;
}
/** Where the parts of a lane lie, in px of the axis. */
export type SlackParts =
  | { readonly is: 'overdue'; readonly trough: Span; readonly over: Span; readonly edge: number }
  | {
      readonly is: 'open';
      readonly trough: Span;
      /** Where the window opens, if that lies on the axis. */
      readonly opening: number | undefined;
      readonly wait: Span | undefined;
      readonly slack: Span;
      readonly drive: Span;
      readonly work: Span;
      readonly reserve: Span;
      readonly edge: number;
    }
  /** The edge lies beyond the axis: the bar breaks up. */
  | { readonly is: 'far'; readonly trough: Span; readonly opening: number | undefined; readonly slack: Span };

const span = (from: number, to: number): Span => ({ x: from, width: Math.max(0, to - from) });

/** The end of the drive, work and reserve counted back from the edge. */
function eaten(lane: SlackLane, edge: number): { drive: Span; work: Span; reserve: Span } {
  const near = lane.edge <= NEAR_DAYS;
  const reserveDays = lane.reserveHours / 24;
  const reserveX = near ? Math.max(0, foldedX(foldDay(lane.edge) - reserveDays)) : slackX(lane.edge - reserveDays);
  const workX = reserveX - (near ? hoursPx(lane.workHours) : MIN_PX);
  const driveX = workX - (near ? hoursPx(lane.driveHours) : MIN_PX);
  return { drive: span(driveX, workX), work: span(workX, reserveX), reserve: span(reserveX, edge) };
}

/** Lays a lane out. A window may have opened long ago; it is then drawn from the left end. */
export function slackParts(lane: SlackLane): SlackParts {
  const opens = slackX(lane.opens);
  const opening = opens > 12 ? opens : undefined;
  const now = slackX(lane.now);
  const edge = slackX(lane.edge);
  if (lane.edge <= lane.now) return { is: 'overdue', trough: span(opens, edge), over: span(edge, now), edge };
  if (lane.edge > LAST_DAY) return { is: 'far', trough: span(opens, AXIS_PX), opening, slack: span(now, AXIS_PX - 40) };
  const { drive, work, reserve } = eaten(lane, edge);
  const from = lane.waitsUntil === undefined ? now : Math.max(now, slackX(lane.waitsUntil));
  const wait = from > now ? span(now, from) : undefined;
  return {
    is: 'open',
    trough: span(opens, edge),
    opening,
    wait,
    slack: span(from, drive.x),
    drive,
    work,
    reserve,
    edge,
  };
}

/** Hours in words as they are printed: `2 d 9 h`, `13 h 05`, from ten days on in days. Never rounded up. */
export function spanWords(hours: number): string {
  const minutes = Math.floor(Math.abs(hours) * 60 + 1e-6);
  const days = Math.floor(minutes / 1440);
  const rest = Math.floor((minutes % 1440) / 60);
  if (days >= 10) return `${days} d`;
  if (days > 0) return `${days} d ${rest} h`;
  return `${rest} h ${String(minutes % 60).padStart(2, '0')}`;
}
