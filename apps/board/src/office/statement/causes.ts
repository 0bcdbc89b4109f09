/** Why a movement was worked out, in words; a newer cause is shown as it is called. */
const CAUSES: Readonly<Record<string, string>> = {
  'opening-weighed': 'What was in it when it was first weighed',
  'opening-assumed-full': 'Taken to have been full when the books began',
  'weighing-differs': 'The scale and the books differed',
  'withdrawn-more-than-booked': 'More came out than the books held',
  lost: 'The cylinder was marked lost',
  'found-again': 'The cylinder was found again',
  accepted: 'A reclaimer or destroyer accepted it',
  'accepted-differs': 'The receiver’s weight and the books differed',
  'returned-to-supplier': 'Went back to the supplier with the cylinder',
  scrapped: 'Was left in a cylinder that was scrapped',
  'recovered-more-than-booked': 'More was recovered than the books held',
  'released-more-than-booked': 'More was released than the books held',
  'other-holding-taken': 'Gas of another owner, state or kind was in it',
  'loss-found-at-full-charge': 'Had leaked: it took this much to be full again',
  'books-short-of-full-charge': 'Full with less than the books expected',
  decommissioned: 'Taken out of service',
};
export const causeWords = (code: string): string => CAUSES[code] ?? code.replaceAll('-', ' ');
