/** The figure that holds now; of two from one day the later recorded one, as the law's sums read them. */
export const LATEST_FULL_CHARGE = {
  orderBy: [{ fromOn: 'desc' as const }, { recordedAt: 'desc' as const }, { id: 'desc' as const }],
  take: 1,
};
