/** The event by which the frame learns that a page was asked for; `detail` is its address. */
export const GOING = 'ullage:going';
